"""What a file declares, with what stands in it: findings, exercises, protocols and what they give, libraries."""

from __future__ import annotations

from decimal import Decimal

from protodsl.frozen import frozen
from protodsl.syntax.tree.base import Amount, Name, Statement, Words
from protodsl.syntax.tree.conditions import Condition


@frozen
class AnswerLine(Statement):
    """answer; kind is yes or no, scale, measure, choice or date."""

    kind: str
    low: Decimal | None = None
    high: Decimal | None = None
    unit: str | None = None
    choices: tuple[Name, ...] = ()
    each_side: bool = False


@frozen
class Verdict(Statement):
    """`VALUE if CONDITION` (keyword if), or `otherwise VALUE` (condition None) of a derived finding."""

    value: Name
    condition: Condition | None


@frozen
class Give(Statement):
    """give X [if / unless CONDITION] with its lines."""

    item: Name
    condition: Condition | None = None
    unless: bool = False
    lines: tuple[Statement, ...] = ()


@frozen
class Group(Statement):
    """part TITLE, or choose N, with its gives."""

    title: Words | None
    count: int | None
    lines: tuple[Statement, ...]


@frozen
class Level(Statement):
    """`level EXERCISE`, `level LABEL: EXERCISE`, `level LABEL` with gives; `, after LEVEL`."""

    name: Name
    exercise: Name | None
    after: Name | None
    lines: tuple[Statement, ...]


@frozen
class Declaration(Statement):
    """exercise, progression, protocol, phase, change: a name, `like` another, and lines."""

    name: Name
    like: Name | None
    lines: tuple[Statement, ...]


@frozen
class FindingDeclaration(Statement):
    """question, test, finding."""

    name: Name
    words: Words | None
    lines: tuple[Statement, ...]


@frozen
class Described(Statement):
    """equipment NAME: words, target NAME: words."""

    name: Name
    words: Words


@frozen
class SettingLine(Statement):
    """setting NAME = AMOUNT[, from LOW to HIGH]."""

    name: Name
    value: Amount
    low: Amount | None = None
    high: Amount | None = None


@frozen
class Use(Statement):
    """use PATH, with `with NAME = AMOUNT` and `without A, B` under it."""

    path: Words
    settings: tuple[tuple[Name, Amount], ...] = ()
    without: tuple[Name, ...] = ()
