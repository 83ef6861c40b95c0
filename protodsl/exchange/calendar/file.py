"""Entries to the bytes of a calendar, to be taken over into any calendar; no entry rings, none names a person.

An entry has the same UID whenever it is made again, and a later sheet a higher SEQUENCE: the days from the start of
the case to the date of the sheet. So taking over the next calendar changes entries instead of doubling them.
"""

from __future__ import annotations

from collections.abc import Iterator
from datetime import timedelta

from protodsl.decide.plan import Plan
from protodsl.diagnostics.exchange import not_handed_on
from protodsl.exchange.calendar.content import day, lines, moment, text
from protodsl.exchange.calendar.events import VISIT, Event, events
from protodsl.exchange.identity import identity
from protodsl.exchange.speech import Speech
from protodsl.outcome import Outcome

# The longest that a day number may get keeps SEQUENCE an INTEGER of RFC 5545, section 3.3.8.
_MOST = 2**31 - 1


def calendar(plan: Plan, speech: Speech, previous: Plan | None = None) -> Outcome[bytes]:
    """The calendar of a plan; none, and a diagnostic, where no exercise may be done.

    `previous` is the plan of the sheet before: days of it that are none any more are taken back.
    """
    if plan.refused:
        return Outcome(None, (not_handed_on(plan.case.id, "calendar", plan.case.span),))
    return Outcome(lines(_calendar(plan, speech, previous)))


def _calendar(plan: Plan, speech: Speech, previous: Plan | None) -> Iterator[tuple[str, str]]:
    yield "BEGIN", "VCALENDAR"
    yield "VERSION", "2.0"
    yield "PRODID", text(f"-//protodsl//protodsl {speech.options.version}//EN")
    yield "CALSCALE", "GREGORIAN"
    for event in events(plan, speech, previous):
        yield from _event(plan, speech, event)
    yield "END", "VCALENDAR"


def _event(plan: Plan, speech: Speech, event: Event) -> Iterator[tuple[str, str]]:
    # The visit is one entry that moves with its date; exercises are an entry a day.
    which = VISIT if event.kind == VISIT else f"{event.kind} {event.date.isoformat()}"
    spoken = f";LANGUAGE={speech.language}"
    yield "BEGIN", "VEVENT"
    yield "UID", identity(speech.clinic, "case", plan.case.id, which)
    yield "DTSTAMP", moment(plan.as_of)
    yield "SEQUENCE", str(min(max((plan.as_of - plan.case.started).days, 0), _MOST))
    yield "DTSTART;VALUE=DATE", day(event.date)
    if event.date.toordinal() < event.date.max.toordinal():
        yield "DTEND;VALUE=DATE", day(event.date + timedelta(1))
    yield f"SUMMARY{spoken}", text(event.summary)
    if event.description:
        yield f"DESCRIPTION{spoken}", text(event.description)
    if event.location:
        yield f"LOCATION{spoken}", text(event.location)
    yield "STATUS", "CANCELLED" if event.cancelled else "CONFIRMED"
    yield "CLASS", "PRIVATE"
    yield "TRANSP", "TRANSPARENT"
    yield "END", "VEVENT"
