"""Conditions with every name resolved: what decides, checked for kinds and units."""

from __future__ import annotations

from dataclasses import field
from enum import Enum

from protodsl.frozen import frozen
from protodsl.source import NOWHERE, Span
from protodsl.units import Quantity


class Side(Enum):
    """Which side a sided finding is looked at; affected and other depend on the person."""

    EACH = "each"
    EITHER = "either"
    LEFT = "left"
    RIGHT = "right"
    AFFECTED = "affected"
    OTHER = "other"


@frozen
class Placed:
    """Anything with a place in the protocol's text; places do not count for equality."""

    span: Span = field(default=NOWHERE, compare=False, kw_only=True, repr=False)


@frozen
class Fact(Placed):
    """A yes/no finding that is yes."""

    finding: str
    side: Side | None = None


@frozen
class Not(Placed):
    """The opposite of a condition."""

    of: Condition


@frozen
class All(Placed):
    """Every one of two or more conditions."""

    of: tuple[Condition, ...]


@frozen
class AnyOf(Placed):
    """At least one of two or more conditions."""

    of: tuple[Condition, ...]


@frozen
class AtLeast(Placed):
    """At least `count` of the conditions."""

    count: int
    of: tuple[Condition, ...]


@frozen
class IsOneOf(Placed):
    """A finding with a choice that is (`negated`: is not) one of the values."""

    finding: str
    values: tuple[str, ...]
    negated: bool = False
    side: Side | None = None


@frozen
class Measured(Placed):
    """The value of a finding, with a quantity added to it (negative: taken off)."""

    finding: str
    plus: Quantity | None = None


@frozen
class Constant(Placed):
    """A quantity as written, or the value of a setting (its name kept) with the written offset already added."""

    quantity: Quantity
    setting: str | None = None


@frozen
class Symmetry(Placed):
    """Affected / unaffected x 100 % (inverted where lower is better); with a side: that side / its opposite."""

    finding: str


@frozen
class Difference(Placed):
    """Unaffected - affected (inverted where lower is better); with a side: its opposite - that side."""

    finding: str


@frozen
class Change(Placed):
    """The latest value less the first (`since` start) or less the one before it (`since` last time)."""

    finding: str
    since: str


@frozen
class Elapsed(Placed):
    """Completed weeks or days (`unit`) since `start`, `phase start` or the date in a finding."""

    unit: str
    since: str


Term = Measured | Constant | Symmetry | Difference | Change | Elapsed


@frozen
class Compare(Placed):
    """`left op right`, decided in the unit of `right` as it was written; op is >= <= < > or =."""

    left: Term
    op: str
    right: Term
    side: Side | None = None


Condition = Fact | Not | All | AnyOf | AtLeast | IsOneOf | Compare


def findings_in(condition: Condition) -> tuple[str, ...]:
    """The names of the findings a condition looks at, in text order, each once."""
    return tuple(dict.fromkeys(_names(condition)))


def _names(node: Condition | Term) -> list[str]:
    if isinstance(node, Not):
        return _names(node.of)
    if isinstance(node, (All, AnyOf, AtLeast)):
        return [name for one in node.of for name in _names(one)]
    if isinstance(node, Compare):
        return _names(node.left) + _names(node.right)
    if isinstance(node, Elapsed):
        return [] if node.since in ("start", "phase start") else [node.since]
    return [] if isinstance(node, Constant) else [node.finding]
