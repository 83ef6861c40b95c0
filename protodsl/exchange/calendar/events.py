"""The entries of a person's calendar: a day of exercises each, the next visit, and days that no longer are any."""

from __future__ import annotations

import datetime
from collections.abc import Iterable, Iterator
from dataclasses import dataclass

from protodsl.decide.plan import Plan, PlannedItem
from protodsl.exchange.doses import dose_on, is_due, of_a_day, set_lines
from protodsl.exchange.safety import stop_lines
from protodsl.exchange.speech import Speech
from protodsl.handout.draft import Draft
from protodsl.handout.person.choices import Line, is_open, lines_of
from protodsl.handout.person.dates import dated
from protodsl.handout.person.today import drafted
from protodsl.handout.person.voice import side_of
from protodsl.handout.phrase import Listed, Literal, Phrase, Written
from protodsl.handout.words import counted, number, one_after_the_other, say

EXERCISES, VISIT = "exercises", "visit"


@dataclass(frozen=True, slots=True)
class Event:
    """An entry for a whole day; `cancelled` takes back the entry of that day that an earlier calendar brought."""

    kind: str
    date: datetime.date
    summary: str
    description: str = ""
    location: str = ""
    cancelled: bool = False


def events(plan: Plan, speech: Speech, previous: Plan | None = None) -> tuple[Event, ...]:
    """The entries in order of their dates; `previous` is the plan of the sheet before."""
    on = drafted(plan, speech.clinic, speech.options)
    days = exercise_days(plan)
    below = _below(plan, on, speech)
    found = [_exercises(plan, on, speech, day, below) for day in days]
    if previous is not None:
        gone = (day for day in exercise_days(previous) if day >= plan.first and day not in days)
        found += [Event(EXERCISES, day, speech.words(say("calendar.none")), cancelled=True) for day in gone]
    visit = plan.case.next_visit
    if visit is not None and visit > plan.as_of:
        found.append(_visit(speech, visit))
    return tuple(sorted(found, key=lambda event: (event.date, event.kind)))


def exercise_days(plan: Plan) -> tuple[datetime.date, ...]:
    """The dates of the period on which something is done at home; none where no exercise may be done."""
    if plan.refused:
        return ()
    dates = (plan.first + datetime.timedelta(days) for days in range((plan.last - plan.first).days + 1))
    return tuple(day for day in dates if any(is_due(item, day) for item in plan.items))


def _below(plan: Plan, on: Draft, speech: Speech) -> tuple[str, ...]:
    """What stands below the exercises of every day: the signs to stop for, and the sheet that says the rest."""
    sheet = say("calendar.sheet", date=dated(plan.as_of), digest=Literal(speech.options.digest))
    return ("", *stop_lines(on, speech), "", speech.words(sheet))


def _exercises(plan: Plan, on: Draft, speech: Speech, day: datetime.date, below: tuple[str, ...]) -> Event:
    due = tuple(_due(lines_of(plan.items), day))
    numbers = tuple(_numbers(on, line) for line in due)
    summary = counted("calendar.exercises", len(numbers), numbers=Listed(numbers))
    said = [speech.words(text) for line in due for text in _line(on, line, day)]
    return Event(EXERCISES, day, speech.words(summary), "\n".join((*said, *below)))


def _due(lines: Iterable[Line], day: datetime.date) -> Iterator[Line]:
    """What is due on a date of each line, without options of which nothing is."""
    for line in lines:
        options = (tuple(item for item in option if is_due(item, day)) for option in line)
        left = tuple(option for option in options if option)
        if left:
            yield left


def _numbers(on: Draft, line: Line) -> Phrase:
    options = tuple(Listed(tuple(number(on.numbers[item.exercise.name]) for item in option)) for option in line)
    return Listed(options, by="or")


def _line(on: Draft, line: Line, day: datetime.date) -> Iterator[Phrase]:
    if is_open(line):
        yield counted("person.choice", line[0][0].takes, options=_numbers(on, line))
    for option in line:
        for item in option:
            yield _exercise(on, item, day)


def _exercise(on: Draft, item: PlannedItem, day: datetime.date) -> Phrase:
    values: dict[str, Phrase] = {
        "number": number(on.numbers[item.exercise.name]),
        "title": Written(item.exercise.title),
        "dose": of_a_day(dose_on(item, day)),
    }
    said = [say("calendar.exercise", **values), *set_lines(item)]
    if item.focus is not None:
        said.append(say("person.focus", side=side_of(item.focus.side)))
        if item.focus.extra_sets:
            said.append(counted("focus.extra", item.focus.extra_sets))
    return one_after_the_other(*said)


def _visit(speech: Speech, day: datetime.date) -> Event:
    clinic = speech.clinic
    summary = speech.words(say("calendar.visit", clinic=Literal(clinic.name)))
    call = speech.words(say("calendar.visit.call", phone=Literal(speech.phone(clinic.contact.phone))))
    return Event(VISIT, day, summary, call, clinic.address)
