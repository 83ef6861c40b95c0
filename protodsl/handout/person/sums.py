"""The sums of the week: rounds for each target, on the last sheet and now, and minutes against the budget."""

from __future__ import annotations

from decimal import Decimal

from protodsl.decide.plan import Day as PlannedDay
from protodsl.decide.plan import Plan, PlannedItem
from protodsl.dose.totals import week
from protodsl.dose.weekdays import WEEK
from protodsl.handout.blocks import Cell, Section, Table
from protodsl.handout.draft import Draft
from protodsl.handout.person.choices import is_open, lines_of
from protodsl.handout.person.evidence import prose_or_name
from protodsl.handout.phrase import Number, Phrase, Weekday
from protodsl.handout.words import say
from protodsl.model.dose import Range

# In percent: what the row is of, and the days.
_WIDTHS = (23, *([11] * WEEK))
_NO_SETS = Range(Decimal(0), Decimal(0))


def sums(plan: Plan, on: Draft, previous: Plan | None) -> tuple[Section[Phrase], ...]:
    """A table of targets and one of minutes; none where nothing is printed."""
    if plan.refused:
        return ()
    before = previous if previous is not None and not previous.refused else None
    found = [table for table in (_targets(plan, on, before), _minutes(plan, on)) if table is not None]
    return (Section("totals", say("totals.head"), tuple(found)),) if found else ()


def rounds(plan: Plan) -> dict[str, Range]:
    """Rounds of one side in a week for each target; of an open choice, from the least to the most it can come to."""
    totals: dict[str, Range] = {}
    for line in lines_of(plan.items):
        takes = (line[0][0].takes or 1) if is_open(line) else 1
        for target in dict.fromkeys(target for option in line for item in option for target in item.exercise.works):
            options = [_rounds(option, target) for option in line]
            low = sum(sorted(one.low for one in options)[:takes], Decimal(0))
            high = sum(sorted((one.high for one in options), reverse=True)[:takes], Decimal(0))
            totals[target] = _plus(totals.get(target, _NO_SETS), Range(low, high))
    return totals


def _rounds(option: tuple[PlannedItem, ...], target: str) -> Range:
    """What one option does for a target, with the rounds more on the weaker side at the upper end."""
    total = _NO_SETS
    for item in option:
        if target in item.exercise.works:
            sets = week(item.dose).sets
            extra = item.focus.extra_sets * len(item.days) if item.focus else 0
            total = _plus(total, Range(sets.low, sets.high + extra))
    return total


def _plus(one: Range, other: Range) -> Range:
    return Range(one.low + other.low, one.high + other.high)


def _targets(plan: Plan, on: Draft, before: Plan | None) -> Table[Phrase] | None:
    now, then = rounds(plan), rounds(before) if before else {}
    targets = dict.fromkeys((*now, *then))
    if not targets:
        return None
    rows = tuple(
        (
            Cell(prose_or_name(on, target)),
            *((Cell(_sets(then.get(target))),) if before else ()),
            Cell(_sets(now.get(target))),
        )
        for target in targets
    )
    heads = (say("totals.target"), *((say("case.sums.before"),) if before else ()), say("case.sums.now"))
    return Table(say("case.sums.caption"), heads, rows, kind="totals")


def _sets(of: Range | None) -> Phrase:
    return say("dose.none") if of is None else Number(of.low, of.high)


def _minutes(plan: Plan, on: Draft) -> Table[Phrase] | None:
    if not plan.week:
        return None
    budget = plan.protocol.budget
    by_day = {day.weekday: day for day in plan.week}
    heads = (say("case.sums.day"), *(Weekday(day, short=True) for day in range(WEEK)))
    minutes = (Cell(say("case.sums.minutes")), *(Cell(_day(by_day.get(day), budget)) for day in range(WEEK)))
    caption = say("case.sums.budget", budget=Number(budget)) if budget is not None else say("case.sums.no-budget")
    return Table(caption, heads, (minutes,), kind="totals", widths=_WIDTHS)


def _day(day: PlannedDay | None, budget: Decimal | None) -> Phrase:
    if day is None:
        return Number(Decimal(0))
    if day.over_budget and budget is not None:
        return say("totals.over", minutes=Number(day.minutes), budget=Number(budget))
    return Number(day.minutes)
