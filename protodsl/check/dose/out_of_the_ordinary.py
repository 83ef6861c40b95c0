"""Heavy loads are within what is published: what can be lifted that often, and on how many days.

Only what is clearly heavy by its own words is held to a source: a share of 1RM, or nRM. Published ranges for novices
(8 to 12 RM, steps of 2 to 10 %) are not asked for: programmes for injured tendons, and the smallest weights there are,
leave them on purpose.
"""

from __future__ import annotations

from collections.abc import Iterator
from decimal import Decimal

from protodsl.check.context import Context
from protodsl.check.given import Given
from protodsl.diagnostics import dose as say
from protodsl.diagnostics.diagnostic import Diagnostic
from protodsl.dose.one_rep_max import MOST_REPETITIONS, PERCENT_OF_1RM
from protodsl.model.dose import Dose, Load, Range, Sets, SetsOf
from protodsl.model.protocol import Entry
from protodsl.units import plain

# 2 to 3 days a week for novices, 3 to 4 for intermediate, 4 to 5 for advanced training.
DAYS = Range(Decimal(2), Decimal(5))
DAYS_SOURCE = "American College of Sports Medicine. Med Sci Sports Exerc 2009;41:687-708"
CHART_SOURCE = "load chart of the National Strength and Conditioning Association; others differ by up to 2 %"
MEANING_SOURCE = "by definition of nRM, the heaviest load that can be lifted n times"
# What charts differ by among themselves, in percent of 1RM.
_CHARTS_DIFFER = 2


def out_of_the_ordinary(entry: Entry, context: Context) -> Iterator[Diagnostic]:
    """More repetitions than the load allows, and heavy loads on fewer or more days than is published."""
    for one in context.given:
        for week in one.weeks:
            dose = one.dose(week)
            if dose.load is not None and (dose.load.maximum or dose.load.of == "1RM"):
                yield from _repetitions(one, week, dose, dose.load)
                yield from _days(one, week, dose)


def _repetitions(one: Given, week: int, dose: Dose, load: Load) -> Iterator[Diagnostic]:
    count = _most_repetitions(dose)
    if count is None:
        return
    name, place = one.exercise.name, one.place(week)
    if load.maximum is not None:
        if count > load.maximum:
            most = say.exactly_times(load.maximum)
            yield say.too_many_for_load(name, count, f"{load.maximum}RM", most, MEANING_SOURCE, place)
    elif load.percent is not None:
        charted = PERCENT_OF_1RM[min(count, MOST_REPETITIONS)]
        if load.percent > charted + _CHARTS_DIFFER:
            able = [times for times, percent in PERCENT_OF_1RM.items() if percent + _CHARTS_DIFFER >= load.percent]
            most = say.about_times(load.percent, max(able, default=0))
            yield say.too_many_for_load(name, count, f"{plain(load.percent)} % of 1RM", most, CHART_SOURCE, place)


def _most_repetitions(dose: Dose) -> int | None:
    """The most repetitions of any set; None where sets are not counted in repetitions."""
    volume = dose.volume
    if isinstance(volume, SetsOf):
        return max(volume.counts)
    if isinstance(volume, Sets) and volume.unit == "reps" and volume.amount is not None:
        return int(volume.amount.high)
    return None


def _days(one: Given, week: int, dose: Dose) -> Iterator[Diagnostic]:
    days = dose.frequency.days_a_week if dose.frequency else None
    if days is not None and (days.high > DAYS.high or days.low < DAYS.low):
        written = plain(days.low) if days.low == days.high else f"{plain(days.low)} to {plain(days.high)}"
        usual = f"{plain(DAYS.low)} to {plain(DAYS.high)}"
        yield say.unusual_days(one.exercise.name, written, usual, DAYS_SOURCE, one.place(week))
