"""Doses as data: how much, how, how often, with what load."""

from __future__ import annotations

from decimal import Decimal

from protodsl.frozen import frozen
from protodsl.model.condition import Condition, Placed
from protodsl.units import Quantity


@frozen
class Range:
    """`low` to `high`, both included; equal where one number was written."""

    low: Decimal
    high: Decimal


@frozen
class Sets:
    """`sets` times `amount` of `unit`; `amount` None is until tired.

    `unit` is reps, s, min, breaths, steps or a length as written (m, km, cm, mm, ft, in). A bare amount (`20 min`,
    `12 reps`, `to fatigue`) is one set with `bare` true.
    """

    sets: Range
    amount: Range | None
    unit: str = "reps"
    bare: bool = False


@frozen
class SetsOf:
    """Repetitions of each set in turn: 12 then 10 then 8."""

    counts: tuple[int, ...]


@frozen
class Leg(Placed):
    """One stretch of an interval: an amount (a time, a length, steps) of an activity."""

    amount: Quantity
    activity: str


@frozen
class Intervals:
    """Rounds of legs: 5 x (4 min walk + 1 min run)."""

    rounds: Range
    legs: tuple[Leg, ...]


Volume = Sets | SetsOf | Intervals


@frozen
class Repetition:
    """Seconds of each part of a repetition; None where not said; `settled` names parts held until settled."""

    lift: Range | None = None
    hold: Range | None = None
    lower: Range | None = None
    settled: tuple[str, ...] = ()


@frozen
class Rest:
    """Rest between sets in seconds, or (None) until settled."""

    seconds: Range | None


@frozen
class Load:
    """What is lifted: one of kilograms (`weight`), `percent` of a finding or of 1RM, `maximum` n of nRM, or a `name`.

    `name` is a band or `body weight`, with `weight` added to it; `up_to` bounds what is not known beforehand.
    """

    weight: Quantity | None = None
    percent: Decimal | None = None
    of: str | None = None
    maximum: int | None = None
    name: str | None = None
    up_to: Quantity | None = None


@frozen
class Effort:
    """Effort from 0 to 10 (`reserve` False), or repetitions left in reserve (`reserve` True)."""

    amount: Range
    reserve: bool = False


@frozen
class Frequency:
    """How often.

    `times_a_day` and `days_a_week` as ranges (None: not said); `every_hours` n, 1 for hourly; `every_other_day`;
    `rest_day_between`. `daily` is days_a_week 7.
    """

    times_a_day: Range | None = None
    days_a_week: Range | None = None
    every_hours: int | None = None
    every_other_day: bool = False
    rest_day_between: bool = False


@frozen
class Dose:
    """Parts of a dose in groups; None or empty where a group was not said.

    When one dose stands over another (week row over common line, level over give over exercise over phase over
    protocol), a group that is said replaces that group whole.
    """

    volume: Volume | None = None
    repetition: Repetition | None = None
    rest: Rest | None = None
    sides: str | None = None
    load: Load | None = None
    effort: Effort | None = None
    frequency: Frequency | None = None
    supervised: int | None = None
    lasting: Quantity | None = None


NO_DOSE = Dose()


@frozen
class WeekRow(Placed):
    """The dose of weeks `first` to `last` (None: and on), counted from 1."""

    first: int
    last: int | None
    dose: Dose


@frozen
class SetRow(Placed):
    """The dose of one set, counted from 1."""

    number: int
    dose: Dose


@frozen
class AdjustRow(Placed):
    """For `low` to `high` repetitions (None: or more) change the load by `change` (None: same load)."""

    low: int
    high: int | None
    change: Quantity | None


@frozen
class Adjust(Placed):
    """Adjust the load by the repetitions reached in a set, for another set or (None) the next session."""

    by_set: int
    for_set: int | None
    rows: tuple[AdjustRow, ...]


@frozen
class LoadStep(Placed):
    """A step of load, repetitions or time: `change` is negative for `take off`; `bound` is up to / down to."""

    change: Quantity
    condition: Condition
    streak: int = 1
    bound: Quantity | None = None


@frozen
class Dosage(Placed):
    """Everything one layer says on dose: a common dose, week rows, set rows, adjustments and steps."""

    common: Dose = NO_DOSE
    weeks: tuple[WeekRow, ...] = ()
    sets: tuple[SetRow, ...] = ()
    adjusts: tuple[Adjust, ...] = ()
    steps: tuple[LoadStep, ...] = ()


NO_DOSAGE = Dosage()
