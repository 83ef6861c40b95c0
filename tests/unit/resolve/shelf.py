"""Several files held in memory, resolved together with one cache."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass, field

from protodsl.diagnostics.diagnostic import Diagnostic, in_order
from protodsl.model.protocol import Entry
from protodsl.resolve import OUTSIDE, Cache, Outside, resolve
from protodsl.source import Source
from protodsl.syntax import parse_protocol
from protodsl.syntax.tree import File


@dataclass
class Files:
    """A library over texts by path; `use a/b` finds `a/b.protocol`, and `..` leads outside. Counts what is parsed."""

    texts: Mapping[str, str]
    trees: dict[str, File] = field(default_factory=dict)
    said: list[Diagnostic] = field(default_factory=list)

    def locate(self, use_path: str, from_file: str) -> str | Outside | None:
        if use_path.startswith(".."):
            return OUTSIDE
        path = f"{use_path}.protocol"
        return path if path in self.texts else None

    def tree(self, path: str) -> File | None:
        if path not in self.trees:
            outcome = parse_protocol(Source(path, self.texts[path]))
            self.said += outcome.diagnostics
            assert outcome.value is not None
            self.trees[path] = outcome.value
        return self.trees[path]

    def use_paths(self) -> Iterable[str]:
        return [path.removesuffix(".protocol") for path in self.texts]


def resolved(files: Mapping[str, str], entry: str, cache: Cache | None = None) -> tuple[Entry, tuple[Diagnostic, ...]]:
    """The entry and all that parsing and resolving say."""
    shelf = Files(files)
    outcome = resolve(entry, shelf, cache)
    assert outcome.value is not None
    return outcome.value, in_order((*shelf.said, *outcome.diagnostics))


def codes(diagnostics: Iterable[Diagnostic]) -> list[str]:
    return [one.code.id for one in diagnostics]
