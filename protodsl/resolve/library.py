"""How a `use` is looked up: the one door to files, built by the outermost layer and handed in."""

from __future__ import annotations

from collections.abc import Iterable
from enum import Enum
from typing import Protocol

from protodsl.syntax import tree


class Outside(Enum):
    """The answer to a path that leads outside the project and its library folders."""

    OUTSIDE = "outside"


OUTSIDE = Outside.OUTSIDE


class Library(Protocol):
    """The files a project may read, known by their path below the project's root or a library folder.

    A file has one path whatever way leads to it (links are followed first), so that it is read once.
    """

    def locate(self, use_path: str, from_file: str) -> str | Outside | None:
        """The path of the file that `use use_path` in `from_file` means; None where nothing is there."""

    def tree(self, path: str) -> tree.File | None:
        """The tree of a located file, the same object each time; None where it could not be read at all."""

    def use_paths(self) -> Iterable[str]:
        """Every path that a `use` could name, for "did you mean"."""
