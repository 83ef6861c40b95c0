"""A diagnostic as data: what is wrong, where, and what to do about it."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from enum import IntEnum

from protodsl.source import NOWHERE, Span


class Severity(IntEnum):
    """How much a diagnostic weighs; only errors block the output (warnings too with --strict)."""

    HINT = 1
    WARNING = 2
    ERROR = 3


@dataclass(frozen=True, slots=True)
class Code:
    """A stable code: a letter for the stage, three digits, and a slug; never renumbered or reused."""

    id: str
    slug: str
    severity: Severity


@dataclass(frozen=True, slots=True)
class Label:
    """A place with a few words on its part in the matter; it may lie in another file."""

    span: Span
    words: str = ""


@dataclass(frozen=True, slots=True)
class Fix:
    """An exact replacement of one stretch of text."""

    span: Span
    replacement: str


@dataclass(frozen=True, slots=True)
class Diagnostic:
    """One finding about the input: `message` in one lower-case line, `notes` are facts, `help` is one action."""

    code: Code
    message: str
    primary: Label = Label(NOWHERE)
    secondary: tuple[Label, ...] = ()
    notes: tuple[str, ...] = ()
    help: str = ""
    fix: Fix | None = None
    args: Mapping[str, object] = field(default_factory=dict, hash=False, compare=False)

    @property
    def severity(self) -> Severity:
        """The severity of the code; a diagnostic has none of its own."""
        return self.code.severity


def in_order(diagnostics: tuple[Diagnostic, ...]) -> tuple[Diagnostic, ...]:
    """Sorted by file, place and code, with repeats dropped."""
    seen: dict[tuple[str, str, Span], Diagnostic] = {}
    for one in diagnostics:
        seen.setdefault((one.code.id, one.message, one.primary.span), one)
    return tuple(sorted(seen.values(), key=lambda one: (*one.primary.span, one.code.id, one.message)))
