"""The sums for the clinician: sets a week for each target, and minutes of the longest day against the budget."""

from __future__ import annotations

from decimal import Decimal

from protodsl.dose.plan import Week, sets_per_target, week_of
from protodsl.handout.blocks import Cell, Section, Table
from protodsl.handout.draft import Draft
from protodsl.handout.minutes import untimed, weeks_with_a_change
from protodsl.handout.phrase import Listed, Number, Phrase, Written
from protodsl.handout.words import counted, one_after_the_other, say
from protodsl.model.dose import Range
from protodsl.model.protocol import Phase
from protodsl.model.text import Prose


def totals(draft: Draft) -> Section[Phrase] | None:
    """A table for each phase, a column for each week in which a dose changes."""
    tables = tuple(table for phase in draft.protocol.phases or (None,) if (table := _table(draft, phase)))
    return Section("totals", say("totals.head"), tables) if tables else None


def _table(draft: Draft, phase: Phase | None) -> Table[Phrase] | None:
    numbers = weeks_with_a_change(draft, phase)
    weeks = [week_of(draft.protocol, phase, at) for at in numbers]
    if not any(week.items for week in weeks):
        return None
    sums = [sets_per_target([one.item for one in week.items], at) for at, week in zip(numbers, weeks, strict=True)]
    targets = dict.fromkeys(target for one in sums for target in one)
    rows = tuple((Cell(_target(draft, target)), *(Cell(_sets(one.get(target))) for one in sums)) for target in targets)
    heads = (say("totals.target"), *(counted("totals.week", at) for at in numbers))
    foot = (Cell(say("totals.minutes")), *(Cell(_minutes(draft, week)) for week in weeks))
    return Table(_caption(draft, phase, weeks), heads, rows, foot, "totals")


def _caption(draft: Draft, phase: Phase | None, weeks: list[Week]) -> Phrase:
    """The phase, and what is not in its minutes."""
    said = [say("totals.sets") if phase is None else say("totals.sets.of", title=Written(phase.title))]
    left_out = untimed(draft, weeks)
    if left_out:
        said.append(counted("plan.minutes.not-counted", len(left_out), numbers=Listed(left_out)))
    return one_after_the_other(*said)


def _target(draft: Draft, name: str) -> Phrase:
    term = draft.protocol.scope.targets.get(name)
    return say("name", name=Written(term.words if term else Prose(name, f"target/{name}")))


def _sets(of: Range | None) -> Phrase:
    return say("dose.none") if of is None else Number(of.low, of.high)


def _minutes(draft: Draft, week: Week) -> Phrase:
    """Minutes of the longest day; over the budget it says so in words."""
    longest = week.longest_day
    budget = draft.protocol.budget
    if budget is not None and longest > budget:
        return say("totals.over", minutes=Number(longest), budget=Number(budget))
    return Number(longest) if longest > Decimal(0) else say("dose.none")
