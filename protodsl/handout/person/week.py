"""The week in minutes, from Monday to Sunday: a cell for what is planned, and a last row that adds up."""

from __future__ import annotations

from collections.abc import Iterator
from decimal import Decimal

from protodsl.decide.plan import Plan, PlannedItem
from protodsl.dose.weekdays import WEEK
from protodsl.handout.blocks import Block, Cell, Item, Paragraphs, Row, Section, Table
from protodsl.handout.draft import Draft
from protodsl.handout.person.choices import Line, is_open, lines_of
from protodsl.handout.person.dates import dated
from protodsl.handout.phrase import Listed, Number, Phrase, Weekday, Written
from protodsl.handout.words import counted, line, number, say

_FIRST_COLUMN, _DAY = 37, 9


def week(plan: Plan, on: Draft) -> Section[Phrase]:
    """The table of the planned exercises; words alone where nothing is planned."""
    if not plan.items:
        nothing: Block[Phrase] = Paragraphs((Item(say("person.week.nothing")), *_again(plan)))
        return Section("week", say("person.week.head"), (nothing,), whole=True)
    rows = tuple(
        (Cell(_named(on, planned)), *(_cell(planned, day) for day in range(WEEK))) for planned in lines_of(plan.items)
    )
    planned_lines = lines_of(plan.items)
    totals: list[Phrase] = [
        Number(sum((minutes_of(one, day) or Decimal(0) for one in planned_lines), Decimal(0))) for day in range(WEEK)
    ]
    foot = tuple(Cell(text) for text in (say("person.week.minutes"), *totals))
    heads = (say("person.week.exercise"), *(Weekday(day, short=True) for day in range(WEEK)))
    widths = (_FIRST_COLUMN, *([_DAY] * WEEK))
    blocks: list[Block[Phrase]] = [Table(None, heads, rows, foot, "week", widths)]
    words = (*_words(plan, on), *_again(plan))
    if words:
        blocks.append(Paragraphs(words))
    blocks += _aims(plan)
    return Section("week", say("person.week.head"), tuple(blocks), whole=True)


def _aims(plan: Plan) -> Iterator[Row[Phrase]]:
    """What the whole is for, and when in the day it is best done."""
    protocol = plan.protocol
    if protocol.goals:
        yield Row(say("plan.goals"), tuple(Item(line(goal)) for goal in protocol.goals))
    if protocol.why is not None:
        yield Row(say("card.why"), (Item(line(protocol.why)),))
    if protocol.when is not None:
        yield Row(say("card.when"), (Item(line(protocol.when)),))


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


def minutes_of(line: Line, day: int) -> Decimal | None:
    """Minutes at home on a weekday, of a choice the longest it can take; None where nothing due can be timed."""
    timed = [[item.minutes for item in option if _due(item, day) and item.minutes is not None] for option in line]
    if not any(timed):
        return None
    sums = sorted((sum(option, Decimal(0)) for option in timed), reverse=True)
    return sum(sums[: line[0][0].takes or 1], Decimal(0))


def _due(item: PlannedItem, day: int) -> bool:
    """Whether it is done at home that day; what is done with us only has its day with the visit."""
    return day in item.days and not item.supervised


def _cell(line: Line, day: int) -> Cell[Phrase]:
    """Minutes where it is planned, a word where it has no fixed time, else a dash."""
    minutes = minutes_of(line, day)
    if minutes is not None:
        return Cell(Number(minutes), on=True)
    if any(_due(item, day) for option in line for item in option):
        return Cell(say("person.week.untimed"), on=True)
    return Cell(say("dose.none"))


def _again(plan: Plan) -> Iterator[Item[Phrase]]:
    """What was left out for a time and is to be done again before the next sheet."""
    scope = plan.protocol.scope
    for one in plan.returning:
        title = (scope.exercises.get(one.item) or scope.progressions[one.item]).title
        yield Item(say("person.again", date=dated(one.date), title=Written(title)))


def _words(plan: Plan, on: Draft) -> tuple[Item[Phrase], ...]:
    """What the word in a cell means, as a note under the table."""
    found = []
    untimed = tuple(
        number(on.numbers[item.exercise.name])
        for item in plan.items
        if item.minutes is None and item.days and not item.supervised
    )
    if untimed:
        found.append(Item(counted("person.week.not-counted", len(untimed), numbers=Listed(untimed))))
    return tuple(found)
