"""The calendar against RFC 5545, section by section, and read back by the library icalendar.

The library forgives much (it accepts COUNT=-1: tests/evidence/data/10_informatics.csv, ical_neg), so what the standard
says MUST be is looked at in the bytes here.
"""

from __future__ import annotations

import re
from dataclasses import replace
from datetime import date, timedelta
from typing import Any

import icalendar
import pytest
from hypothesis import given
from hypothesis import strategies as some

from protodsl.exchange.calendar import content
from protodsl.exchange.export import export_plan
from tests.unit.exchange import demo

# Section 3.6.1: these MUST NOT occur more than once in a VEVENT; three are REQUIRED, DTSTART as there is no METHOD.
REQUIRED = ("DTSTAMP", "UID", "DTSTART")
ONCE = ("CLASS", "CREATED", "DESCRIPTION", "GEO", "LAST-MODIFIED", "LOCATION", "ORGANIZER", "PRIORITY", "SEQUENCE",
        "STATUS", "SUMMARY", "TRANSP", "URL", "RECURRENCE-ID", "DTEND", "DURATION", *REQUIRED)  # fmt: skip
# Section 3.1, contentline: name *(";" param) ":" value CRLF, without CONTROL characters.
PARAMETER = r';[A-Z-]+=(?:"[^"\x00-\x08\x0a-\x1f\x7f]*"|[^";:,\x00-\x1f\x7f]*)'
LINE = re.compile(rf"[A-Z-]+(?:{PARAMETER})*:[^\x00-\x08\x0a-\x1f\x7f]*")


def unfolded(data: bytes) -> list[str]:
    """The content lines of a file (section 3.1)."""
    return data.decode().replace("\r\n ", "").split("\r\n")[:-1]


def components(data: bytes) -> list[dict[str, list[tuple[str, str]]]]:
    """The properties of each VEVENT: parameters and value by name."""
    found: list[dict[str, list[tuple[str, str]]]] = []
    for line in unfolded(data):
        name, _, value = line.partition(":")
        name, _, parameters = name.partition(";")
        if line == "BEGIN:VEVENT":
            found.append({})
        elif found and name not in ("BEGIN", "END"):
            found[-1].setdefault(name, []).append((parameters, value))
    return found


def read(data: bytes) -> list[Any]:
    """The entries as the library reads them."""
    calendar = icalendar.Calendar.from_ical(data)
    assert isinstance(calendar, icalendar.Calendar)
    return list(calendar.events)


@pytest.mark.parametrize("case", demo.CASES)
def test_content_lines(case: str) -> None:
    """Section 3.1: every line ends with CRLF, is 75 octets long at most without it, and is UTF-8 by itself."""
    data = demo.case_file("ics", case)
    assert data.endswith(b"\r\n")
    physical = data.split(b"\r\n")[:-1]
    assert max(map(len, physical)) <= 75
    assert not [line for line in physical if b"\r" in line or b"\n" in line]
    assert all(line.decode() for line in physical)
    assert [line for line in unfolded(data) if not LINE.fullmatch(line)] == []


@pytest.mark.parametrize("case", demo.CASES)
def test_what_must_be_there(case: str) -> None:
    """Sections 3.4, 3.6 and 3.6.1: the calendar's own properties, what every event needs, and nothing twice."""
    data = demo.case_file("ics", case)
    lines = unfolded(data)
    assert lines[:2] == ["BEGIN:VCALENDAR", "VERSION:2.0"] and lines[-1] == "END:VCALENDAR"
    assert sum(line.startswith("PRODID:") for line in lines) == 1
    events = components(data)
    assert events
    for event in events:
        assert not [name for name in REQUIRED if len(event.get(name, [])) != 1]
        assert not [name for name in ONCE if len(event.get(name, [])) > 1]
        # Section 3.8.7.2: DTSTAMP MUST be in UTC; 3.8.2.2: DTEND is of the same type as DTSTART, and later.
        assert re.fullmatch(r"\d{8}T\d{6}Z", event["DTSTAMP"][0][1])
        assert event["DTSTART"][0][0] == event["DTEND"][0][0] == "VALUE=DATE"
        assert event["DTEND"][0][1] > event["DTSTART"][0][1]
        # Sections 3.8.1.11, 3.8.1.3, 3.8.2.7 and 3.8.7.4: closed lists, and an integer.
        assert event["STATUS"][0][1] in ("TENTATIVE", "CONFIRMED", "CANCELLED")
        assert event["CLASS"][0][1] in ("PUBLIC", "PRIVATE", "CONFIDENTIAL")
        assert event["TRANSP"][0][1] in ("OPAQUE", "TRANSPARENT")
        assert 0 <= int(event["SEQUENCE"][0][1]) < 2**31
        assert event["SUMMARY"][0][0] == "LANGUAGE=en"


@pytest.mark.parametrize("case", demo.CASES)
def test_no_alarm_and_nobody_named(case: str) -> None:
    """Nothing rings, nobody is an organizer or attends, and no METHOD asks for either (RFC 5546, section 3.2.1)."""
    names = {re.split("[;:]", line)[0] for line in unfolded(demo.case_file("ics", case))}
    assert not names & {"METHOD", "ORGANIZER", "ATTENDEE", "CONTACT", "RRULE"}
    assert "BEGIN:VALARM" not in unfolded(demo.case_file("ics", case))


@pytest.mark.parametrize("case", demo.CASES)
def test_the_days_are_those_of_the_plan(case: str) -> None:
    """An entry a day on which something is due at home, and the next visit; each lasts one whole day."""
    plan = demo.decided(case).plan
    due = {day for item in plan.items if not item.supervised for day in item.dates}
    events = [one for one in read(demo.case_file("ics", case)) if one["STATUS"] == "CONFIRMED"]
    starts = [one["DTSTART"].dt for one in events]
    assert sorted(starts) == sorted([*due, *((plan.case.next_visit,) if plan.case.next_visit else ())])
    assert all(one["DTEND"].dt - one["DTSTART"].dt == timedelta(1) for one in events)


@pytest.mark.parametrize("case", demo.CASES)
def test_each_day_lists_what_is_due_and_when_to_stop(case: str) -> None:
    """What is due on a day stands in its entry by number and title, nothing else, and the danger signs below it."""
    plan = demo.decided(case).plan
    clinic = demo.clinic()
    for event in read(demo.case_file("ics", case)):
        if not event["SUMMARY"].startswith("Exercise"):
            continue
        text = str(event["DESCRIPTION"]).split("\n")
        listed = [line.partition(". ")[2] for line in text if re.match(r"\d+\. ", line)]
        due = [item.exercise.title.text for item in plan.items if event["DTSTART"].dt in item.dates]
        assert [title for title, line in zip(due, listed, strict=True) if not line.startswith(title)] == []
        assert any(line.endswith(clinic.emergency.phone) for line in text)
        assert any(line.endswith(clinic.contact.phone) for line in text)
        assert "- You have chest pain." in text


def test_sessions_that_are_with_us_are_said_in_the_entry() -> None:
    """Of an exercise that is done at home, too, every day of it has an entry: which are at the clinic is said there."""
    decided = demo.decided("P-0417")
    first, *others = (item for item in decided.plan.items if not item.supervised)
    plan = replace(decided.plan, items=(replace(first, dose=replace(first.dose, supervised=1)), *others))
    file = export_plan("ics", plan, demo.clinic(), demo.options()).value
    assert file is not None
    days = [one for one in read(file) if one["DTSTART"].dt in first.dates and one["SUMMARY"].startswith("Exercise")]
    assert days and all("1 of the sessions only at the clinic, with us" in one["DESCRIPTION"] for one in days)


def test_the_same_entry_when_it_is_made_again() -> None:
    """The same bytes; and from a later sheet the same UID for a day, with a higher SEQUENCE (section 3.8.7.4)."""
    plan = demo.decided("P-0417").plan
    data = demo.plan_file("ics", plan)
    assert data == demo.plan_file("ics", plan) and data is not None
    later = demo.plan_file("ics", replace(plan, as_of=plan.as_of + timedelta(2)))
    assert later is not None
    first, second = ({one["DTSTART"].dt: one for one in read(made)} for made in (data, later))
    for day, event in first.items():
        assert second[day]["UID"] == event["UID"]
        assert second[day]["SEQUENCE"] == event["SEQUENCE"] + 2


def test_entries_have_names_of_their_own() -> None:
    """Section 3.8.4.7: UIDs are globally unique, of days and of people, and tell nothing of whose they are."""
    found = [str(one["UID"]) for case in demo.CASES for one in read(demo.case_file("ics", case))]
    assert len(found) == len(set(found))
    # RFC 7986, section 5.3: a UUID, and no host or person in it.
    shape = re.compile(r"[0-9a-f]{8}-[0-9a-f]{4}-5[0-9a-f]{3}-[89ab][0-9a-f]{3}-[0-9a-f]{12}")
    assert all(shape.fullmatch(one) for one in found)


def test_a_day_that_is_none_any_more_is_taken_back() -> None:
    """A day of the sheet before on which nothing is due now is cancelled under its old UID."""
    plan = demo.decided("P-0417").plan
    before = demo.plan_file("ics", plan)
    now = replace(plan, items=tuple(replace(item, dates=(plan.first,)) for item in plan.items))
    after = demo.plan_file("ics", now, plan)
    assert before is not None and after is not None
    old = {str(one["UID"]) for one in read(before)}
    cancelled = [one for one in read(after) if one["STATUS"] == "CANCELLED"]
    assert {str(one["UID"]) for one in cancelled} <= old
    assert len(cancelled) == len({day for item in plan.items for day in item.dates}) - 1
    assert not any("DESCRIPTION" in one for one in cancelled)


def test_the_visit_moves_with_its_date() -> None:
    """The next visit is one entry: another date changes it and adds none."""
    plan = demo.decided("P-0417").plan
    other = replace(plan, case=replace(plan.case, next_visit=date(2026, 12, 11)))
    visits = [
        [one for one in read(demo.plan_file("ics", one) or b"") if "Visit" in one["SUMMARY"]] for one in (plan, other)
    ]
    assert [len(found) for found in visits] == [1, 1]
    assert visits[0][0]["UID"] == visits[1][0]["UID"]
    assert visits[1][0]["DTSTART"].dt == date(2026, 12, 11)


@given(some.text(some.characters(exclude_categories=("Cs", "Cc"), include_characters="\n"), max_size=200))
def test_any_text_comes_back(text: str) -> None:
    """Section 3.3.11: what is escaped and folded is read back as it was, and no character is cut in two."""
    head = [("BEGIN", "VCALENDAR"), ("BEGIN", "VEVENT"), ("SUMMARY", content.text(text))]
    data = content.lines([*head, ("END", "VEVENT"), ("END", "VCALENDAR")])
    assert max(map(len, data.split(b"\r\n"))) <= 75
    assert all(line.decode() is not None for line in data.split(b"\r\n"))
    assert str(read(data)[0].get("SUMMARY", "")) == text
