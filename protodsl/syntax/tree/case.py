"""The lines of a case file."""

from __future__ import annotations

from datetime import date as Date

from protodsl.frozen import frozen
from protodsl.syntax.tree.base import Amount, Name, Node, Statement, Words
from protodsl.syntax.tree.doses import Intervals, Load, Sets, SetsOf


@frozen
class Value(Node):
    """A value of a finding: form is yes, no, unknown, amount, date or name."""

    form: str
    amount: Amount | None = None
    date: Date | None = None
    name: Name | None = None


@frozen
class CaseDeclaration(Statement):
    """case ID."""

    name: Name
    lines: tuple[Statement, ...]


@frozen
class CaseProtocol(Statement):
    """protocol NAME, version V."""

    name: Name
    version: str


@frozen
class DateLine(Statement):
    """started DATE, next visit DATE."""

    date: Date


@frozen
class LanguageLine(Statement):
    """language TAG (BCP 47)."""

    tag: str


@frozen
class SideLine(Statement):
    """side left / right / none / both, worse left (side both, worse left)."""

    side: str
    worse: str | None = None


@frozen
class Answered(Statement):
    """NAME: value, or values by side (keyword answered); corrected DATE NAME: value (keyword corrected)."""

    name: Name
    values: tuple[tuple[str | None, Value], ...]
    date: Date | None = None
    because: Words | None = None


@frozen
class ListedAnswers(Statement):
    """yes: A, B / no: A, B / unknown: A, B / chose: X (the keyword is the answer)."""

    names: tuple[Name, ...]


@frozen
class OnDate(Statement):
    """on DATE."""

    date: Date
    lines: tuple[Statement, ...]


@frozen
class SessionPart(Node):
    """One part of a session line.

    form is as given, missed, part done, done (`volume`), side done (`side`, `volume`), load (`load`),
    score (`name`, `values` by side), yes or no (`name`).
    """

    form: str
    volume: Sets | SetsOf | Intervals | None = None
    side: str | None = None
    load: Load | None = None
    name: Name | None = None
    values: tuple[tuple[str | None, Value], ...] = ()


@frozen
class Session(Statement):
    """session DATES [ITEM]: parts; `to` is set for `D to D`, else `dates` are listed."""

    dates: tuple[Date, ...]
    to: Date | None
    item: Name | None
    parts: tuple[SessionPart, ...]


@frozen
class Place(Statement):
    """place DATE ITEM: LEVEL with because."""

    date: Date
    item: Name
    level: Name
    because: Words | None


@frozen
class From(Statement):
    """from DATE [to DATE] change / leave out / give X, or from DATE version V."""

    date: Date
    to: Date | None
    change: Statement
    because: Words | None = None


@frozen
class Note(Statement):
    """note DATE prose."""

    date: Date
    words: Words
