"""The dose of one item of a plan on a date, as it is handed on."""

from __future__ import annotations

import datetime
from dataclasses import replace

from protodsl.decide.plan import PlannedItem
from protodsl.handout.person.today import printed_dose, with_load
from protodsl.handout.phrase import DoseInWords, Phrase
from protodsl.model.dose import Dose


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
    return DoseInWords(replace(dose, frequency=often, lasting=None, supervised=None), "short")


def is_due(item: PlannedItem, day: datetime.date) -> bool:
    """Whether it is done at home on a date; what is done with a clinician only has its day with the visit."""
    return day in item.dates and not item.supervised
