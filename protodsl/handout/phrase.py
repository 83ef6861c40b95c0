"""What a handout says, as data: message keys with values, authored prose, conditions and doses; never a sentence."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from datetime import date
from decimal import Decimal

from protodsl.model.condition import Condition
from protodsl.model.dose import Dose
from protodsl.model.text import Prose
from protodsl.units import Quantity


@dataclass(frozen=True, slots=True)
class Message:
    """A phrase of the product's own, by key; `values` fill its placeholders, `count` chooses its plural form."""

    key: str
    values: Mapping[str, Phrase] = field(default_factory=dict)
    count: Decimal | None = None


@dataclass(frozen=True, slots=True)
class Written:
    """Authored prose; its placeholders take settings from the handout, its sides from `side` (left, right or None)."""

    prose: Prose
    side: str | None = None


@dataclass(frozen=True, slots=True)
class InWords:
    """A condition put into words as a clause about the reader: `your pain is 6 or more`; `negated` for its opposite.

    `side` (left or right) is the affected side where it is known; None prints `the affected side`.
    """

    condition: Condition
    streak: int = 1
    negated: bool = False
    side: str | None = None


@dataclass(frozen=True, slots=True)
class DoseInWords:
    """A dose as sentences; `group` names one group alone, in short (volume, rest, load, frequency ...), "" for all.

    Group `short` is the whole dose in short, `brief` its volume and load; `side` (left or right) is the affected side.
    """

    dose: Dose
    group: str = ""
    side: str | None = None


@dataclass(frozen=True, slots=True)
class Measure:
    """A quantity with its unit in words and digits of the language."""

    quantity: Quantity


@dataclass(frozen=True, slots=True)
class Number:
    """A number without a unit, in the digits of the language; `to` makes it a range."""

    value: Decimal
    to: Decimal | None = None


@dataclass(frozen=True, slots=True)
class Day:
    """A date, written out; `short` is its day and month alone, for a table."""

    date: date
    short: bool = False


@dataclass(frozen=True, slots=True)
class Weekday:
    """A day of the week, 0 Monday to 6 Sunday; `short` for a table."""

    number: int
    short: bool = False


AUTHOR, PROGRAM = "author", "program"


@dataclass(frozen=True, slots=True)
class Literal:
    """Characters that no language changes: a telephone number, a version, a digest, a reference.

    `words_of` says whose language they are in where they are words all the same: AUTHOR or PROGRAM.
    """

    text: str
    words_of: str = ""


@dataclass(frozen=True, slots=True)
class Listed:
    """Phrases joined: as a list by `and` or `or`, as `sentences`, by `comma`, by `then` or by `later`."""

    of: tuple[Phrase, ...]
    by: str = "and"


Phrase = Message | Written | InWords | DoseInWords | Measure | Number | Day | Weekday | Literal | Listed
