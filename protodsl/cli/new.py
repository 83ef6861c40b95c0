"""`protodsl new`: a small commented project to start from."""

from __future__ import annotations

import argparse
from collections.abc import Mapping
from datetime import date, timedelta
from pathlib import Path

from protodsl import resources
from protodsl.cli.files import write_all
from protodsl.cli.report import say
from protodsl.cli.status import CLEAN, ERRORS
from protodsl.diagnostics.project import unwritable
from protodsl.diagnostics.render_text import render_text

STARTER = "protodsl.starter"

# A name that begins with a dot is not shipped; it gets its dot here.
RENAMED = {"gitignore.txt": ".gitignore"}


def run(arguments: argparse.Namespace) -> int:
    """Write the starter into the folder; nothing at all where one of its files is there already."""
    folder: Path = arguments.folder
    today = date.today()
    dates = {b"{{today}}": today, b"{{in a year}}": today + timedelta(days=365)}
    files = {folder / RENAMED.get(name, name): _dated(data, dates) for name, data in starter().items()}
    there = [path for path in files if path.exists() or path.is_symlink()]
    if there:
        return _refused(there[0], "It is there already, and nothing is overwritten")
    try:
        write_all(files)
    except OSError as error:
        return _refused(Path(error.filename or folder), error.strerror or "It cannot be made")
    for path in files:
        print(path.as_posix())
    say(f"Next: write your clinic's name and numbers into {(folder / 'clinic.toml').as_posix()}, then")
    say(f"  protodsl build {folder.as_posix()}")
    return CLEAN


def starter() -> dict[str, bytes]:
    """The files of the starter by their path, sorted."""
    root = resources.path(STARTER)
    names = sorted(path.relative_to(root).as_posix() for path in root.rglob("*") if path.is_file())
    return {name: resources.data(STARTER, name) for name in names if not name.endswith((".py", ".pyc"))}


def _dated(data: bytes, dates: Mapping[bytes, date]) -> bytes:
    """The text with the day it is made on, so that its review is not overdue from the start."""
    for mark, day in dates.items():
        data = data.replace(mark, day.isoformat().encode())
    return data


def _refused(path: Path, reason: str) -> int:
    say(render_text((unwritable(path.as_posix(), reason),), {}).rstrip("\n"))
    return ERRORS
