"""Writing files so that a failure at any moment leaves what stood there before, whole."""

from __future__ import annotations

import os
import tempfile
from collections.abc import Mapping
from contextlib import suppress
from pathlib import Path


def write_all(files: Mapping[Path, bytes]) -> None:
    """Write all of the files or none; OSError where one cannot be, and then nothing has changed.

    Each is written beside its place first and renamed when all are there; an earlier file is kept until the last
    rename has gone through.
    """
    fresh: dict[Path, Path] = {}
    kept: dict[Path, Path] = {}
    placed: list[Path] = []
    try:
        for path, data in files.items():
            if path.is_dir():
                raise IsADirectoryError(21, "A folder stands in its place", str(path))
            path.parent.mkdir(parents=True, exist_ok=True)
            fresh[path] = _beside(path, data)
        for path in files:
            if path.exists():
                kept[path] = _beside(path, path.read_bytes())
        for path, new in fresh.items():
            os.replace(new, path)
            placed.append(path)
    except BaseException:
        for path in placed:
            if path in kept:
                os.replace(kept[path], path)
            else:
                path.unlink()
        raise
    finally:
        for leftover in (*fresh.values(), *kept.values()):
            with suppress(FileNotFoundError):
                leftover.unlink()


def write_new(path: Path, data: bytes) -> None:
    """Write a file where there is none; FileExistsError where there is one, OSError where it cannot be written."""
    path.parent.mkdir(parents=True, exist_ok=True)
    fresh = _beside(path, data)
    try:
        os.link(fresh, path)
    finally:
        fresh.unlink()


def _beside(path: Path, data: bytes) -> Path:
    """A new file in the same folder with the rights that `path` has, or that a new file would have."""
    handle, name = tempfile.mkstemp(dir=path.parent, prefix=f".{path.name[:40]}.", suffix=".part")
    try:
        with open(handle, "wb") as out:
            out.write(data)
            out.flush()
            os.fsync(out.fileno())
        os.chmod(name, path.stat().st_mode & 0o777 if path.exists() else 0o666 & ~_mask())
    except BaseException:
        os.unlink(name)
        raise
    return Path(name)


def _mask() -> int:
    mask = os.umask(0)
    os.umask(mask)
    return mask
