"""What the functions that build nodes are handed: places, and a way to say that something is wrong."""

from __future__ import annotations

from collections.abc import Sequence
from decimal import Decimal
from typing import Protocol, TypeVar

from protodsl.diagnostics import text as say
from protodsl.diagnostics.diagnostic import Diagnostic
from protodsl.source import Span
from protodsl.syntax import tree

S = TypeVar("S", bound=tree.Statement)


class Building(Protocol):
    """The parser as the building functions see it."""

    path: str

    def span(self, start: int, end: int) -> Span:
        """The place from `start` to `end` in the file that is read."""

    def report(self, diagnostic: Diagnostic) -> None:
        """Note something wrong; the node is built all the same."""


def only(b: Building, parent: str, lines: Sequence[S]) -> S | None:
    """The one line of its kind that stands under `parent`, or None; a second one is reported."""
    for again in lines[1:]:
        b.report(say.twice(again.head, again.keyword, parent, lines[0].head))
    return lines[0] if lines else None


def whole(b: Building, number: Decimal, start: int, end: int) -> int:
    """A number that counts something: a whole number from 0, or a report."""
    if number != number.to_integral_value() or number < 0:
        b.report(say.not_a_whole_number(b.span(start, end), str(number)))
    return max(int(number), 0)


def unit_of(b: Building, unit: str | None, allowed: tuple[str, ...], what: str, start: int, end: int) -> str | None:
    """The unit, and a report where it is none of those that `what` is measured in."""
    if unit is not None and unit not in allowed:
        b.report(say.wrong_unit(b.span(start, end), what, unit, allowed))
    return unit
