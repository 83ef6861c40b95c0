"""Conditions over one number as stretches of that number, and the stretches that are left between them."""

from __future__ import annotations

from collections.abc import Iterable
from decimal import ROUND_CEILING, ROUND_FLOOR, Decimal
from typing import NamedTuple

from protodsl.check.logic.reading import is_whole
from protodsl.model.condition import (
    AnyOf,
    AtLeast,
    Change,
    Compare,
    Condition,
    Constant,
    Difference,
    Elapsed,
    Fact,
    IsOneOf,
    Measured,
    Not,
    Side,
    Symmetry,
)
from protodsl.model.protocol import Scope
from protodsl.units import UNITS, Unit

# The worst or the best side, where a comparison asks for each side or for either.
LOWEST, HIGHEST = "lowest", "highest"


class Number(NamedTuple):
    """The one number that conditions speak of: a term, a finding (or what is counted from), a side; its unit.

    `low` and `high` are the ends of its range in that unit, None where it has none.
    """

    term: str
    name: str
    side: str
    unit: Unit | None
    whole: bool
    low: Decimal | None
    high: Decimal | None


class Stretch(NamedTuple):
    """Numbers from `low` to `high`; None has no end; an open end is not part of it."""

    low: Decimal | None
    high: Decimal | None
    low_open: bool = False
    high_open: bool = False


Stretches = tuple[Stretch, ...]
_ALL: Stretches = (Stretch(None, None),)


def number_of(condition: Condition, scope: Scope) -> tuple[Number, Stretches] | None:
    """The one number that a condition asks for, and where it is yes; None where it asks for more, or for no number."""
    if isinstance(condition, Compare):
        return _of_compare(condition, scope)
    if isinstance(condition, Not):
        inner = number_of(condition.of, scope)
        return inner and (inner[0], without(_ALL, inner[1]))
    if isinstance(condition, (Fact, IsOneOf, AtLeast)):
        return None
    parts = [number_of(one, scope) for one in condition.of]
    first = parts[0]
    if first is None:
        return None
    number, found = first
    for part in parts[1:]:
        if part is None or part[0] != number:
            return None
        found = _join(found, part[1]) if isinstance(condition, AnyOf) else without(found, without(_ALL, part[1]))
    return number, found


def undecided(number: Number, covered: Iterable[Stretches]) -> Stretches:
    """What of the number's whole range no condition covers."""
    left: Stretches = (Stretch(number.low, number.high),)
    for one in covered:
        left = without(left, one)
    return _tidy(left, number.whole)


def between(number: Number, covered: Iterable[Stretches]) -> Stretches:
    """What no condition covers though both lower and higher numbers are covered: a gap, and no end left alone."""
    listed = list(covered)
    return tuple(
        gap
        for gap in undecided(number, listed)
        if any(_below(one, gap) for stretches in listed for one in stretches)
        and any(_above(one, gap) for stretches in listed for one in stretches)
    )


def _below(one: Stretch, gap: Stretch) -> bool:
    return gap.low is not None and (one.low is None or one.low <= gap.low)


def _above(one: Stretch, gap: Stretch) -> bool:
    return gap.high is not None and (one.high is None or one.high >= gap.high)


def _of_compare(compare: Compare, scope: Scope) -> tuple[Number, Stretches] | None:
    number = _number(compare, scope)
    if number is None or not isinstance(compare.right, Constant):
        return None
    amount = compare.right.quantity
    value = amount.value if amount.unit is None or number.unit is None else amount.to(number.unit).value
    return number, _stretches(compare.op, value)


def _stretches(op: str, value: Decimal) -> Stretches:
    if op == "=":
        return (Stretch(value, value),)
    if op[0] == "<":
        return (Stretch(None, value, high_open=op == "<"),)
    return (Stretch(value, None, low_open=op == ">"),)


def _number(compare: Compare, scope: Scope) -> Number | None:
    side = _side(compare.side, compare.op)
    left = compare.left
    if side is None or isinstance(left, Constant):
        return None
    if isinstance(left, Elapsed):
        return Number(left.unit, left.since, side, UNITS[left.unit], True, Decimal(0), None)
    finding = scope.findings.get(left.finding)
    if finding is None:
        return None
    answer = finding.answer
    if isinstance(left, Symmetry):
        return Number("symmetry of ", left.finding, side, UNITS["%"], False, Decimal(0), None)
    if isinstance(left, Measured):
        return Number("", left.finding, side, answer.unit, is_whole(answer), answer.low, answer.high)
    spread = None if answer.low is None or answer.high is None else answer.high - answer.low
    term = "difference of " if isinstance(left, Difference) else _change(left)
    low = None if spread is None else -spread
    return Number(term, left.finding, side, answer.unit, is_whole(answer), low, spread)


def _change(term: Change) -> str:
    return f"change since {term.since} of "


def _side(side: Side | None, op: str) -> str | None:
    """The side that decides: `<=` on either side asks for the lower of the two; None where it is not one side."""
    if side not in (Side.EACH, Side.EITHER):
        return side.value if side else ""
    if op == "=":
        return None
    return LOWEST if (side is Side.EITHER) is (op[0] == "<") else HIGHEST


def without(whole: Stretches, taken: Stretches) -> Stretches:
    """What is left of some stretches once others are taken out."""
    left = list(whole)
    for cut in taken:
        left = [piece for one in left for piece in _cut(one, cut)]
    return tuple(left)


def _join(one: Stretches, other: Stretches) -> Stretches:
    return (*one, *without(other, one))


def _cut(one: Stretch, cut: Stretch) -> list[Stretch]:
    """The parts of a stretch below and above another."""
    pieces = []
    if cut.low is not None:
        high, is_open = _lower_end(one.high, one.high_open, cut.low, not cut.low_open)
        pieces.append(Stretch(one.low, high, one.low_open, is_open))
    if cut.high is not None:
        low, is_open = _higher_end(one.low, one.low_open, cut.high, not cut.high_open)
        pieces.append(Stretch(low, one.high, is_open, one.high_open))
    return [piece for piece in pieces if not _empty(piece)]


def _lower_end(end: Decimal | None, is_open: bool, other: Decimal, other_open: bool) -> tuple[Decimal, bool]:
    if end is None or other < end:
        return other, other_open
    return (end, is_open or other_open) if other == end else (end, is_open)


def _higher_end(end: Decimal | None, is_open: bool, other: Decimal, other_open: bool) -> tuple[Decimal, bool]:
    if end is None or other > end:
        return other, other_open
    return (end, is_open or other_open) if other == end else (end, is_open)


def _empty(one: Stretch) -> bool:
    if one.low is None or one.high is None:
        return False
    return one.low > one.high or (one.low == one.high and (one.low_open or one.high_open))


def _tidy(stretches: Stretches, whole: bool) -> Stretches:
    """From low to high; of whole numbers only those that are whole, with closed ends."""
    found = [_wholly(one) for one in stretches] if whole else list(stretches)
    kept = [one for one in found if not _empty(one)]
    return tuple(sorted(kept, key=lambda one: Decimal("-Infinity") if one.low is None else one.low))


def _wholly(one: Stretch) -> Stretch:
    low, high = one.low, one.high
    if low is not None:
        up = low.to_integral_value(ROUND_CEILING)
        low = up + 1 if one.low_open and up == low else up
    if high is not None:
        down = high.to_integral_value(ROUND_FLOOR)
        high = down - 1 if one.high_open and down == high else down
    return Stretch(low, high)
