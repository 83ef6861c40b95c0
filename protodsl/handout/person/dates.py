"""Dates with their weekdays."""

from __future__ import annotations

from datetime import date

from protodsl.handout.phrase import Day, Phrase, Weekday
from protodsl.handout.words import number, say


def dated(day: date) -> Phrase:
    """`Monday 30 November 2026`."""
    return say("person.date", weekday=Weekday(day.weekday()), date=Day(day))


def within(day: date) -> Phrase:
    """`Mon 30`, where the month stands above."""
    return say("person.day", weekday=Weekday(day.weekday(), short=True), day=number(day.day))


def short(day: date) -> Phrase:
    """`Mon 30 Nov`, for a table."""
    return say("person.date", weekday=Weekday(day.weekday(), short=True), date=Day(day, short=True))
