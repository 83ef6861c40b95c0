"""Where things are kept that are the same at every start: a font index, and the templates as Python reads them."""

from __future__ import annotations

import os
import tempfile
from functools import cache
from pathlib import Path


def cache_folder(chosen: Path | None) -> Path:
    """The chosen folder, or the user's own; where neither can be made, one for this process alone."""
    folder = chosen or Path(os.environ.get("XDG_CACHE_HOME") or os.path.expanduser("~/.cache")) / "protodsl"
    try:
        folder.mkdir(parents=True, exist_ok=True)
    except OSError:
        return _of_this_process()
    return folder if os.access(folder, os.W_OK) else _of_this_process()


@cache
def _of_this_process() -> Path:
    # A fixed name below the shared folder for temporary files could have been made by somebody else.
    return Path(tempfile.mkdtemp(prefix="protodsl-"))
