"""Days of the week, dates of the period, and the minutes of each day against the budget."""

from __future__ import annotations

import datetime
from collections.abc import Sequence
from dataclasses import replace
from decimal import ROUND_CEILING, Decimal

from protodsl.decide.plan import Day, PlannedItem
from protodsl.dose.plan import is_strength
from protodsl.dose.totals import day, days_a_week
from protodsl.dose.weekdays import WEEK, Weekly, schedule
from protodsl.model.dose import Dose, Range, Sets

DAYS_WITHOUT_VISIT = 14
LONGEST = datetime.timedelta(days=365)


def period(as_of: datetime.date, next_visit: datetime.date | None) -> tuple[datetime.date, datetime.date]:
    """From today to the day before the next visit, a year at most, else 14 days (5.7)."""
    if next_visit is not None and next_visit > as_of:
        last = next_visit - datetime.timedelta(days=1)
        return as_of, as_of + min(last - as_of, LONGEST)
    left = (datetime.date.max - as_of).days
    return as_of, as_of + datetime.timedelta(days=min(DAYS_WITHOUT_VISIT - 1, left))


def scheduled(items: Sequence[PlannedItem], first: datetime.date, last: datetime.date) -> tuple[PlannedItem, ...]:
    """The items with their weekdays, the dates of the period, and the minutes of one of their days."""
    days = schedule([_weekly(item) for item in items])
    dates = [first + datetime.timedelta(days=number) for number in range((last - first).days + 1)]
    return tuple(
        replace(
            item,
            days=mine,
            dates=tuple(date for date in dates if date.weekday() in mine and not _over(item, date)),
            minutes=_minutes(item),
        )
        for item, mine in zip(items, days, strict=True)
    )


def week(items: Sequence[PlannedItem], budget: Decimal | None) -> tuple[Day, ...]:
    """The seven days: what can be timed is summed, what cannot is named."""
    found = []
    for number in range(WEEK):
        here = [item for item in items if number in item.days and not _alternative(item)]
        minutes = sum((item.minutes for item in here if item.minutes is not None), Decimal(0))
        minutes += sum((_longest(group) for group in _choices(items, number)), Decimal(0))
        untimed = tuple(item.exercise.name for item in items if number in item.days and item.minutes is None)
        found.append(Day(number, minutes, untimed, budget is not None and minutes > budget))
    return tuple(found)


def _alternative(item: PlannedItem) -> bool:
    return item.options > 0


def _choices(items: Sequence[PlannedItem], number: int) -> list[list[PlannedItem]]:
    """The items of each open choice that fall on a weekday."""
    groups: dict[object, list[PlannedItem]] = {}
    for item in items:
        if _alternative(item) and number in item.days:
            groups.setdefault(item.choice, []).append(item)
    return list(groups.values())


def _longest(group: list[PlannedItem]) -> Decimal:
    """The day is never longer than said: of a choice the longest count, all exercises of an option together."""
    options: dict[str, Decimal] = {}
    for item in group:
        options[item.item] = options.get(item.item, Decimal(0)) + (item.minutes or Decimal(0))
    return sum(sorted(options.values(), reverse=True)[: group[0].takes], Decimal(0))


def _over(item: PlannedItem, date: datetime.date) -> bool:
    """Whether the item has ended by a date."""
    return any(one.dose is None and one.date <= date for one in item.later)


def _weekly(item: PlannedItem) -> Weekly:
    often = item.dose.frequency
    days = int(days_a_week(often).high.to_integral_value(ROUND_CEILING))
    rest = bool(often and (often.rest_day_between or often.every_other_day))
    return Weekly(item.exercise.name, days, rest, item.exercise.works if is_strength(item.dose) else ())


def _minutes(item: PlannedItem) -> Decimal | None:
    """Whole minutes of one day, rounded up, with the extra sets of the weaker side."""
    seconds = day(item.dose).seconds
    if seconds is None:
        return None
    total = seconds.high
    if item.focus is not None and item.focus.extra_sets:
        extra = day(_extra(item.dose, item.focus.extra_sets)).seconds
        total += extra.high if extra is not None else Decimal(0)
    return (total / 60).to_integral_value(ROUND_CEILING)


def _extra(dose: Dose, sets: int) -> Dose:
    """Some more sets of one side."""
    if not isinstance(dose.volume, Sets):
        return replace(dose, volume=None, sides=None)
    return replace(dose, volume=replace(dose.volume, sets=Range(Decimal(sets), Decimal(sets))), sides=None)
