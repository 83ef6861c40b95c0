"""What the functions that build nodes are handed: places, and a way to say that something is wrong."""

from __future__ import annotations

from collections.abc import Sequence
from decimal import Decimal
from typing import Protocol, TypeVar

from protodsl.diagnostics import lines, text
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


def only(b: Building, parent: str, found: Sequence[S]) -> S | None:
    """The one line of its kind that stands under `parent`, or None; a second one is reported."""
    for again in found[1:]:
        b.report(text.twice(again.head, again.keyword, parent, found[0].head))
    return found[0] if found else None


def whole(b: Building, number: Decimal, start: int, end: int) -> int:
    """A number that counts something: a whole number from 0, or a report."""
    if number != number.to_integral_value() or number < 0:
        b.report(lines.not_a_whole_number(b.span(start, end), str(number)))
    return max(int(number), 0)


def unit_of(b: Building, unit: str | None, allowed: tuple[str, ...], what: str, start: int, end: int) -> str | None:
    """The unit, and a report where it is none of those that `what` is measured in."""
    if unit is not None and unit not in allowed:
        b.report(lines.wrong_unit(b.span(start, end), what, unit, allowed))
    return unit


def ordered(b: Building, start: int, end: int, low: Decimal, high: Decimal) -> None:
    """A report where a range runs backwards."""
    if high < low:
        b.report(lines.range_backwards(b.span(start, end), str(low), str(high)))


def amount_line(b: Building, start: int, keyword: str, amount: tree.Amount | None, line_end: int) -> tree.AmountLine:
    """A line that is a keyword and an amount."""
    place = b.span(start, line_end)
    return tree.AmountLine(keyword, amount, span=place, head=place)
