"""Findings: what the patient answers, what the clinician measures, what follows from both."""

from __future__ import annotations

from decimal import Decimal
from enum import Enum

from protodsl.frozen import frozen
from protodsl.model.condition import Condition, Placed
from protodsl.model.text import Prose
from protodsl.units import Quantity, Unit


class Kind(Enum):
    """The kind of value a finding has."""

    YES_NO = "yes or no"
    SCALE = "scale"
    MEASURE = "measure"
    CHOICE = "choice"
    DATE = "date"


@frozen
class Answer:
    """Kind and range of a finding; `unit` for a measure, `choices` for a choice, `sided` for left and right."""

    kind: Kind = Kind.YES_NO
    low: Decimal | None = None
    high: Decimal | None = None
    unit: Unit | None = None
    choices: tuple[str, ...] = ()
    sided: bool = False


@frozen
class Row(Placed):
    """One row of a derived finding."""

    value: str
    condition: Condition


@frozen
class Finding(Placed):
    """A finding; `role` is question, test or finding (derived: `rows` and `otherwise`).

    `fresh` None never grows old; `one_session` counts only from its own session line.
    `better` is higher, lower or "" where none was said.
    """

    name: str
    role: str
    words: Prose | None = None
    answer: Answer = Answer()
    fresh: Quantity | None = None
    one_session: bool = False
    better: str = ""
    means: Prose | None = None
    yes_means: Prose | None = None
    no_means: Prose | None = None
    rows: tuple[Row, ...] = ()
    otherwise: str | None = None
    damaged: tuple[str, ...] = ()
