"""The doses of one item of a plan over its period, as they are handed on."""

from __future__ import annotations

import datetime
from dataclasses import dataclass, replace
from decimal import Decimal

from protodsl.decide.plan import Plan, PlannedItem
from protodsl.dose.plan import minutes_of_day
from protodsl.handout.person.today import printed_dose, with_load
from protodsl.handout.phrase import DoseInWords, Phrase
from protodsl.handout.words import number, say
from protodsl.model.dose import Dose


@dataclass(frozen=True, slots=True)
class Stretch:
    """One dose of an item from a date to a date, both included, and the dates on which it is done.

    `minutes` are those of one of its days, None where it cannot be timed.
    """

    first: datetime.date
    last: datetime.date
    week: int
    dose: Dose
    dates: tuple[datetime.date, ...]
    minutes: Decimal | None


def stretches(plan: Plan, item: PlannedItem) -> tuple[Stretch, ...]:
    """The doses of an item in order of their dates."""
    starts = [(plan.first, item.week), *((one.date, one.week) for one in item.later if one.dose is not None)]
    ended = [one.date - datetime.timedelta(1) for one in item.later if one.dose is None]
    lasts = [*(first - datetime.timedelta(1) for first, _ in starts[1:]), min((*ended, plan.last))]
    found = []
    for (first, week), last in zip(starts, lasts, strict=True):
        dates = tuple(day for day in item.dates if first <= day <= last)
        dose = dose_on(item, first)
        # What the plan says of today counts more sets of a weaker side in.
        minutes = item.minutes if first == plan.first else minutes_of_day(dose)
        found.append(Stretch(first, last, week, dose, dates, minutes))
    return tuple(found)


def dose_on(item: PlannedItem, day: datetime.date) -> Dose:
    """The dose in force on a date of the period, its load in kilograms where they are known."""
    dose = printed_dose(item)
    for later in item.later:
        if later.dose is not None and later.date <= day:
            dose = with_load(later.dose, later.load)
    return dose


def of_a_day(dose: Dose) -> Phrase:
    """A dose in short, without the days: whoever reads it has the date already."""
    often = dose.frequency
    if often is not None:
        often = replace(often, days_a_week=None, every_other_day=False, rest_day_between=False)
        often = often if often.times_a_day is not None or often.every_hours is not None else None
    return DoseInWords(replace(dose, frequency=often, lasting=None), "short")


def set_lines(item: PlannedItem) -> tuple[Phrase, ...]:
    """What is said set by set, each with its load as it is to be lifted."""
    return tuple(say("steps.set", number=number(row.number), dose=DoseInWords(row.dose, "short")) for row in item.sets)


def is_due(item: PlannedItem, day: datetime.date) -> bool:
    """Whether it is done at home on a date; what is done with a clinician only has its day with the visit."""
    return day in item.dates and not item.supervised
