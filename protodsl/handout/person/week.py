"""The week in minutes, from Monday to Sunday: a cell for what is planned, and a last row that adds up."""

from __future__ import annotations

from decimal import Decimal

from protodsl.decide.plan import Plan, PlannedItem
from protodsl.dose.weekdays import WEEK
from protodsl.handout.blocks import Block, Cell, Item, Paragraphs, Section, Table
from protodsl.handout.draft import Draft
from protodsl.handout.person.choices import Line, is_open, lines_of
from protodsl.handout.phrase import Listed, Number, Phrase, Weekday, Written
from protodsl.handout.words import counted, number, say

_FIRST_COLUMN, _DAY = 37, 9


def week(plan: Plan, on: Draft) -> Section[Phrase]:
    """The table of the planned exercises; words alone where nothing is planned."""
    if not plan.items:
        nothing: Block[Phrase] = Paragraphs((Item(say("person.week.nothing")),))
        return Section("week", say("person.week.head"), (nothing,), whole=True)
    rows = tuple((Cell(_named(on, line)), *(_cell(line, day) for day in range(WEEK))) for line in lines_of(plan.items))
    minutes = {day.weekday: day.minutes for day in plan.week}
    totals: list[Phrase] = [Number(minutes.get(day, Decimal(0))) for day in range(WEEK)]
    foot = tuple(Cell(text) for text in (say("person.week.minutes"), *totals))
    heads = (say("person.week.exercise"), *(Weekday(day, short=True) for day in range(WEEK)))
    widths = (_FIRST_COLUMN, *([_DAY] * WEEK))
    blocks: list[Block[Phrase]] = [Table(None, heads, rows, foot, "week", widths)]
    words = _words(plan, on)
    if words:
        blocks.append(Paragraphs(words))
    return Section("week", say("person.week.head"), tuple(blocks), whole=True)


def _named(on: Draft, line: Line) -> Phrase:
    """The exercise by number and name; of a choice, what there is to choose among."""
    options = tuple(_together(tuple(_one(on, item) for item in option)) for option in line)
    if not is_open(line):
        return options[0]
    return counted("person.week.choose", line[0][0].takes, exercises=Listed(options, by="or"))


def _together(named: tuple[Phrase, ...]) -> Phrase:
    return named[0] if len(named) == 1 else say("person.week.option", exercises=Listed(named))


def _one(on: Draft, item: PlannedItem) -> Phrase:
    at = number(on.numbers[item.exercise.name])
    key = "person.week.supervised" if item.supervised else "person.week.named"
    return say(key, number=at, title=Written(item.exercise.title))


def _cell(line: Line, day: int) -> Cell[Phrase]:
    """Minutes where it is planned; a word where it has no fixed time; of a choice, the longest it can take."""
    due = [[item.minutes for item in option if day in item.days] for option in line]
    if not any(due):
        return Cell(say("dose.none"))
    timed = [[minutes for minutes in option if minutes is not None] for option in due]
    if not any(timed):
        return Cell(say("person.week.untimed"), on=True)
    sums = sorted((sum(option, Decimal(0)) for option in timed), reverse=True)
    return Cell(Number(sum(sums[: line[0][0].takes or 1], Decimal(0))), on=True)


def _words(plan: Plan, on: Draft) -> tuple[Item[Phrase], ...]:
    """What the word in a cell means, as a note under the table."""
    found = []
    untimed = tuple(number(on.numbers[item.exercise.name]) for item in plan.items if item.minutes is None and item.days)
    if untimed:
        found.append(Item(counted("person.week.not-counted", len(untimed), numbers=Listed(untimed))))
    return tuple(found)
