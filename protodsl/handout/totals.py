"""The sums for the clinician: sets a week for each target, and minutes of the longest day against the budget."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from decimal import Decimal

from protodsl.dose.plan import Week, sets_per_target, week_of
from protodsl.handout.blocks import Cell, Item, Paragraphs, Section, Table
from protodsl.handout.draft import Draft
from protodsl.handout.minutes import untimed, weeks_with_a_change
from protodsl.handout.phrase import Listed, Number, Phrase, Written
from protodsl.handout.titles import phase_number
from protodsl.handout.words import counted, number, say
from protodsl.model.dose import Range
from protodsl.model.protocol import Phase
from protodsl.model.text import Prose

_MOST_COLUMNS = 5


@dataclass(frozen=True, slots=True)
class _Column:
    """A week of a phase (None: the protocol without phases) in which a dose changes, with its sums."""

    phase: Phase | None
    number: int
    week: Week
    sums: Mapping[str, Range]


def totals(draft: Draft) -> Section[Phrase] | None:
    """One table: a row for each target, a column for each week of each phase in which a dose changes.

    Where that is too many columns for the page, a table for each phase.
    """
    phases = [columns for phase in draft.protocol.phases or (None,) if (columns := _columns(draft, phase))]
    if not phases:
        return None
    every = [column for columns in phases for column in columns]
    tables = [_table(draft, every)] if len(every) <= _MOST_COLUMNS else [_table(draft, columns) for columns in phases]
    notes = tuple(note for columns in phases for note in _left_out(draft, columns))
    blocks: tuple[Table[Phrase] | Paragraphs[Phrase], ...] = tuple(tables)
    return Section("totals", say("totals.head"), (*blocks, Paragraphs(notes)) if notes else blocks)


def _columns(draft: Draft, phase: Phase | None) -> list[_Column]:
    """The weeks of a phase in which a dose changes; none where it gives nothing."""
    numbers = weeks_with_a_change(draft, phase)
    weeks = [week_of(draft.protocol, phase, at) for at in numbers]
    if not any(week.items for week in weeks):
        return []
    return [
        _Column(phase, at, week, sets_per_target([one.item for one in week.items], at))
        for at, week in zip(numbers, weeks, strict=True)
    ]


def _table(draft: Draft, columns: list[_Column]) -> Table[Phrase]:
    targets = dict.fromkeys(target for column in columns for target in column.sums)
    rows = tuple(
        (Cell(_target(draft, target)), *(Cell(_sets(column.sums.get(target))) for column in columns))
        for target in targets
    )
    heads = (say("totals.target"), *(_head(draft, column, columns) for column in columns))
    foot = (Cell(say("totals.minutes")), *(Cell(_minutes(draft, column.week)) for column in columns))
    return Table(say("totals.sets"), heads, rows, foot, "totals")


def _head(draft: Draft, column: _Column, columns: list[_Column]) -> Phrase:
    """`Part 2` where it has one column, else `Part 2, week 3`; the week alone where there are no parts."""
    if column.phase is None:
        return counted("totals.week", column.number)
    part = phase_number(draft, column.phase)
    if sum(one.phase is column.phase for one in columns) == 1:
        return say("totals.part", part=part)
    return say("totals.part.week", part=part, week=number(column.number))


def _left_out(draft: Draft, columns: list[_Column]) -> Iterator[Item[Phrase]]:
    """What is not in the minutes of a phase."""
    left_out = untimed(draft, [column.week for column in columns])
    if left_out:
        note = counted("plan.minutes.not-counted", len(left_out), numbers=Listed(left_out))
        phase = columns[0].phase
        yield Item(note if phase is None else say("totals.note", part=phase_number(draft, phase), note=note))


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
