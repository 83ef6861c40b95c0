"""Where solved and drawn figures are kept between runs; whatever is wrong there costs time and nothing else."""

from __future__ import annotations

import json
import os
import sys
from contextlib import suppress
from dataclasses import dataclass
from functools import cache
from hashlib import sha256
from pathlib import Path
from typing import Any

# What else the looks and the words of a figure hang on, beside the code in this folder.
_ALSO = (
    "model/figure.py", "model/lists.py", "diagnostics/poses.py", "diagnostics/phrases.py", "diagnostics/diagnostic.py",
)  # fmt: skip
# Folders of programs that are left standing.
_PROGRAMS = 3
_NAME = 24


@dataclass(frozen=True, slots=True)
class Store:
    """A folder with one file for each thing kept; None keeps nothing."""

    folder: Path | None

    def find(self, key: str) -> Any:
        """What was kept under a key; None where nothing was, or where the file is not as it was written."""
        if self.folder is None:
            return None
        with suppress(OSError, ValueError):
            mark, _, data = self._file(key).read_bytes().partition(b"\n")
            if mark == _mark(key, data):
                return json.loads(data)
        return None

    def keep(self, key: str, value: object) -> None:
        """Keep plain data under a key, where that can be."""
        if self.folder is None:
            return
        data = json.dumps(value, separators=(",", ":")).encode()
        path = self._file(key)
        with suppress(OSError):
            if not self.folder.is_dir():
                self.folder.mkdir(parents=True, exist_ok=True)
                _tidy(self.folder)
            draft = path.with_name(f"{path.name}.{os.getpid()}")
            draft.write_bytes(_mark(key, data) + b"\n" + data)
            draft.replace(path)

    def _file(self, key: str) -> Path:
        assert self.folder is not None
        return self.folder / f"{sha256(key.encode()).hexdigest()[:_NAME]}.json"


def user_store() -> Store:
    """The store of this user for figures that this very program has made."""
    return Store(_user_folder() / "figures" / code_digest()[:_NAME])


@cache
def code_digest() -> str:
    """A digest of all code that a figure comes from: what another program has made is never taken for one's own."""
    here = Path(__file__).parent
    files = sorted((*here.rglob("*.py"), *(here.parent / name for name in _ALSO)))
    state = sha256(f"{sys.implementation.cache_tag}".encode())
    for file in files:
        state.update(f"{file.relative_to(here.parent).as_posix()}\0".encode())
        state.update(sha256(file.read_bytes()).digest())
    return state.hexdigest()


def _mark(key: str, data: bytes) -> bytes:
    """What stands over the data: it holds only for this key and these bytes."""
    return sha256(key.encode() + b"\0" + data).hexdigest().encode()


def _tidy(folder: Path) -> None:
    """Leave the folders of the last few programs."""
    with suppress(OSError):
        others = sorted((one for one in folder.parent.iterdir() if one != folder), key=lambda one: one.stat().st_mtime)
        for old in others[: max(0, len(others) + 1 - _PROGRAMS)]:
            for file in old.iterdir():
                file.unlink()
            old.rmdir()


def _user_folder() -> Path:
    """The folder for this user's caches, by the habit of the system (as for the tables of the parser)."""
    if sys.platform == "win32":
        base = os.environ.get("LOCALAPPDATA")
        return Path(base) / "protodsl" / "cache" if base else Path.home() / "AppData" / "Local" / "protodsl" / "cache"
    if sys.platform == "darwin":
        return Path.home() / "Library" / "Caches" / "protodsl"
    base = os.environ.get("XDG_CACHE_HOME")
    return (Path(base) if base else Path.home() / ".cache") / "protodsl"
