"""Protocol text to model in one call, for tests that look at what a text means."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field

from protodsl.diagnostics.diagnostic import Diagnostic, Severity, in_order
from protodsl.model.dose import Dosage, Dose
from protodsl.model.protocol import Entry
from protodsl.resolve import resolve
from protodsl.source import Source
from protodsl.syntax import parse_protocol
from protodsl.syntax.tree import File


@dataclass
class Shelf:
    """Files held in memory; `use X` finds `X.protocol`."""

    texts: Mapping[str, str]
    trees: dict[str, File] = field(default_factory=dict)
    diagnostics: list[Diagnostic] = field(default_factory=list)

    def locate(self, use_path: str, from_file: str) -> str | None:
        """The path of a file on the shelf, or None."""
        path = f"{use_path}.protocol"
        return path if path in self.texts else None

    def tree(self, path: str) -> File | None:
        """The tree of a file on the shelf, parsed once."""
        if path not in self.trees:
            outcome = parse_protocol(Source(path, self.texts[path]))
            self.diagnostics += outcome.diagnostics
            if outcome.value is not None:
                self.trees[path] = outcome.value
        return self.trees.get(path)

    def use_paths(self) -> list[str]:
        """What a `use` could name."""
        return [path.removesuffix(".protocol") for path in self.texts]


def compiled(text: str, **others: str) -> tuple[Entry | None, tuple[Diagnostic, ...]]:
    """The entry that `text` comes to, with other files by name, and every diagnostic of parsing and resolving."""
    shelf = Shelf({"input.protocol": text, **{f"{name}.protocol": other for name, other in others.items()}})
    outcome = resolve("input.protocol", shelf)
    return outcome.value, in_order((*shelf.diagnostics, *outcome.diagnostics))


def entry(text: str, **others: str) -> Entry:
    """The entry that `text` comes to; fails the test where it has an error."""
    value, diagnostics = compiled(text, **others)
    errors = [one for one in diagnostics if one.severity is Severity.ERROR]
    assert not errors and value is not None, [(one.code.id, one.message) for one in errors]
    return value


def dosage(*lines: str) -> Dosage:
    """The dosage of an exercise with these dose lines, each written with its keyword."""
    text = "exercise practice\n  title Practice\n  do\n    Move.\n" + "".join(f"  {line}\n" for line in lines)
    return entry(text).scope.exercises["practice"].dosage


def dose(parts: str) -> Dose:
    """One dose from its parts as written: `3 x 12, each side, daily`."""
    return dosage(f"dose {parts}").common
