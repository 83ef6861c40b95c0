"""The diary of the period: a row for each date, a box for each exercise planned on it, a column for each answer."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace
from datetime import date, timedelta

from protodsl.decide.plan import Plan, PlannedItem
from protodsl.dose.weekdays import WEEK
from protodsl.handout.blocks import Diary, DiaryWeek, Item, Paragraphs, Row, Section
from protodsl.handout.draft import Draft
from protodsl.handout.person.choices import Line, is_open, lines_of
from protodsl.handout.person.dates import short, within
from protodsl.handout.phrase import Listed, Phrase, Written
from protodsl.handout.rules import conditions
from protodsl.handout.words import counted, number, one_after_the_other, say
from protodsl.model import named
from protodsl.model.condition import findings_in
from protodsl.model.finding import Finding, Kind


def diary(plan: Plan, on: Draft) -> Section[Phrase] | None:
    """How to fill it in, then the table; none where no exercise is planned."""
    if not plan.items:
        return None
    asked = asked_for(plan, on)
    intro = Paragraphs((Item(one_after_the_other(say("diary.intro.tick"), *_with_us(plan, on))),))
    scales: tuple[Item[Phrase], ...] = tuple(
        Item(Written(finding.words)) for finding in asked if finding.words is not None
    )
    how: tuple[Row[Phrase], ...] = (Row(say("diary.asked"), scales),) if scales else ()
    blanks = (*(_head(finding) for finding in asked), say("diary.notes"))
    heads = (say("diary.day"), say("diary.done"), *blanks)
    table = Diary(heads, tuple(_weeks(plan, on)), len(blanks))
    return Section("diary", say("diary.head"), (intro, *how, table), new_page=True)


def _with_us(plan: Plan, on: Draft) -> Iterator[Phrase]:
    """Which exercises have no box, because they are done with us only."""
    numbers = tuple(number(on.numbers[item.exercise.name]) for item in plan.items if item.supervised)
    if numbers:
        yield counted("diary.intro.with-us", len(numbers), numbers=Listed(numbers))


def asked_for(plan: Plan, on: Draft) -> tuple[Finding, ...]:
    """What the rules in force look at after each session, in the order in which they first do."""
    ruled = replace(on, protocol=replace(on.protocol, phases=(plan.phase,) if plan.phase else ()))
    names = dict.fromkeys(name for condition in conditions(ruled) for name in findings_in(condition))
    found = (plan.protocol.scope.findings.get(name) for name in names)
    return tuple(
        one
        for one in found
        if one is not None and one.one_session and one.role == "question" and one.answer.kind is not Kind.DATE
    )


def _head(finding: Finding) -> Phrase:
    name = Written(named.finding_name(finding))
    return say("person.diary.sides" if finding.answer.sided else "name", name=name)


def _weeks(plan: Plan, on: Draft) -> Iterator[DiaryWeek[Phrase]]:
    """The dates of the period, Monday to Sunday together."""
    lines = lines_of(plan.items)
    first = plan.first
    while first <= plan.last:
        last = min(first + timedelta(WEEK - 1 - first.weekday()), plan.last)
        dates = [first + timedelta(days) for days in range((last - first).days + 1)]
        days = tuple((within(day), tuple(_boxes(lines, on, day))) for day in dates)
        caption = short(first)
        if first < last:
            caption = say("person.diary.week", first=short(first), last=short(last))
        yield DiaryWeek(caption, days)
        first = last + timedelta(1)


def _boxes(lines: tuple[Line, ...], on: Draft, day: date) -> Iterator[Phrase]:
    """The number of each exercise that is due; of a choice, one box with the numbers there are to choose among."""
    for line in lines:
        due = sorted(on.numbers[item.exercise.name] for option in line for item in option if _due(item, day))
        if is_open(line) and len(due) > 1:
            yield say("diary.box", first=number(due[0]), last=number(due[-1]))
        else:
            yield from (number(at) for at in due)


def _due(item: PlannedItem, day: date) -> bool:
    return day in item.dates and not item.supervised
