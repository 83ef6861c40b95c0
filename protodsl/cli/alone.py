"""One writer of a file at a time, so that two people who record at once lose nothing."""

from __future__ import annotations

import os
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path

try:
    import fcntl
except ImportError:  # a system without such locks
    fcntl = None  # type: ignore[assignment]


@contextmanager
def alone(path: Path) -> Iterator[None]:
    """Waits until nobody else in this block has the file; OSError where it cannot be opened.

    A file is replaced when it is written, so a lock that was waited for may be on one that has gone: then again.
    """
    if fcntl is None:
        yield
        return
    while True:
        with path.open("rb") as held:
            fcntl.flock(held, fcntl.LOCK_EX)
            if path.exists() and os.path.samestat(os.fstat(held.fileno()), path.stat()):
                yield
                return
