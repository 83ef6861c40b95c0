"""The demo clinic's protocols, read from their text."""

from __future__ import annotations

from collections.abc import Iterable
from functools import cache
from pathlib import Path

from protodsl.diagnostics.diagnostic import Severity
from protodsl.model.protocol import Protocol
from protodsl.resolve import Cache, Outside, resolve
from protodsl.source import Source
from protodsl.syntax import parse_protocol, tree

ROOT = Path(__file__).parents[3] / "protocols_demo"
PROTOCOLS = sorted(ROOT.glob("*.protocol"))


class Shelf:
    """The files of a folder, each read once."""

    def __init__(self, root: Path) -> None:
        self.root = root
        self.sources: dict[str, Source] = {}
        self._trees: dict[str, tree.File | None] = {}

    def locate(self, use_path: str, from_file: str) -> str | Outside | None:
        """Below the project, else below its library."""
        found = (f"{folder}{use_path}.protocol" for folder in ("", "library/"))
        return next((path for path in found if (self.root / path).is_file()), None)

    def tree(self, path: str) -> tree.File | None:
        """The tree of a file."""
        if path not in self._trees:
            self.sources[path] = Source(path, (self.root / path).read_text(encoding="utf-8"))
            self._trees[path] = parse_protocol(self.sources[path]).value
        return self._trees[path]

    def use_paths(self) -> Iterable[str]:
        """No suggestions are asked for."""
        return ()


@cache
def demo(path: Path) -> tuple[dict[str, Source], tuple[Protocol, ...]]:
    """The texts behind a demo file and the protocols that it declares; it has no errors."""
    shelf = Shelf(ROOT)
    entry = resolve(path.name, shelf, Cache())
    assert not [one.message for one in entry.diagnostics if one.severity is Severity.ERROR]
    return shelf.sources, entry.value.protocols if entry.value else ()
