"""Conditions as they were written.

`side` is one of: each, either, left, right, affected, other, or None where none was written.
"""

from __future__ import annotations

from protodsl.frozen import frozen
from protodsl.syntax.tree.base import Amount, Name, Node


@frozen
class Fact(Node):
    """`X`: a yes/no finding."""

    name: Name
    side: str | None = None


@frozen
class Not(Node):
    """`not X` or `not (...)`."""

    of: Condition


@frozen
class All(Node):
    """Facts joined by `and`."""

    of: tuple[Condition, ...]


@frozen
class AnyOf(Node):
    """Facts joined by `or`."""

    of: tuple[Condition, ...]


@frozen
class AtLeast(Node):
    """`at least 2 of (a, b and c, pain > 3)`."""

    count: int
    of: tuple[Condition, ...]


@frozen
class Is(Node):
    """`X is [not] V` (one value) or `X is one of (V, W)`."""

    name: Name
    values: tuple[Name, ...]
    negated: bool = False
    side: str | None = None


@frozen
class Subject(Node):
    """What stands left of a comparison.

    `form` is value (`X`), symmetry, difference, change since start, change since last time, weeks since or
    days since; after `since`, `name` may also be `start` or `phase start`.
    """

    form: str
    name: Name


@frozen
class Operand(Node):
    """What stands right of a comparison: an amount, or a name with an amount added to it (or, negative, taken off)."""

    name: Name | None
    amount: Amount | None


@frozen
class Compare(Node):
    """`SUBJECT >= OPERAND [on ... side]`; `op` is one of >= <= < > =."""

    subject: Subject
    op: str
    operand: Operand
    side: str | None = None


Condition = Fact | Not | All | AnyOf | AtLeast | Is | Compare
