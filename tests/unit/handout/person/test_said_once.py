"""From a case to the words of its sheet: a load is said once and as it is to be lifted, and what ends is told."""

from __future__ import annotations

from dataclasses import replace
from itertools import pairwise

import pytest

from protodsl.decide import Plan, decide
from protodsl.handout import Options, compose_sheet, safety_items
from protodsl.handout.blocks import ExerciseCard, Handout, Paragraphs
from protodsl.handout.person import compose_person
from protodsl.localise import localise
from tests.support import entry
from tests.unit.decide import cases
from tests.unit.decide.cases import case_text, exercise, person, protocol_text

# Every weight is to be had, so that nothing is rounded.
CLINIC = replace(cases.CLINIC, weights=())
OPTIONS = Options(digest="12345-67890", version="1.0")


def planned(declarations: str, lines: str, case: str) -> Plan:
    """The plan of the latest line of the case."""
    someone = person(protocol_text(declarations, lines), case_text(case))
    decided = decide(someone.versions, someone.case, CLINIC).value
    assert decided is not None
    return decided


def sheet(declarations: str, lines: str, case: str) -> Handout[str]:
    """Its sheet, in words."""
    decided = planned(declarations, lines, case)
    composed = compose_person(decided, CLINIC, OPTIONS)
    assert composed is not None
    page = localise(composed, decided.protocol.scope, CLINIC, "en").value
    assert page is not None
    return page


def kilograms(text: str) -> list[str]:
    """Every weight in kg that is said."""
    words = text.replace("\u00a0", " ").replace(",", "").replace(".", "").split()
    return [before for before, word in pairwise(words) if word == "kg"]


ADD = "add 1 kg when pain <= 2, up to 10 kg"
DONE = "session 2026-11-03 lift: as given, pain 1"


@pytest.mark.parametrize(
    ("dose", "sets", "case", "head", "rows"),
    [
        # One load for all, said again in every set: each set says it, once.
        ("2 x 8, load 5 kg", ("5 kg", "5 kg"), "", [], ["5", "5"]),
        # Said again for one set: the dose says it.
        ("2 x 8, load 5 kg", ("", "5 kg"), "", ["5"], []),
        # The load has moved: no line stays at the old one.
        ("2 x 8, load 5 kg", ("5 kg", "5 kg"), DONE, [], ["6", "6"]),
        ("2 x 8, load 5 kg", ("", "5 kg"), DONE, ["6"], []),
        # Said by the sets alone, or by one set alone: never of all sets.
        ("2 x 8", ("2 kg", "5 kg"), "", [], ["2", "5"]),
        ("2 x 8", ("", "5 kg"), "", [], ["5"]),
        ("2 x 8", ("2 kg", "5 kg"), DONE, [], ["3", "6"]),
    ],
)
def test_a_load_is_said_once_and_as_it_is_to_be_lifted(
    dose: str, sets: tuple[str, ...], case: str, head: list[str], rows: list[str]
) -> None:
    """Whether the dose says it, the lines of the sets, or both."""
    lines = [f"set {at}: 8 reps, load {load}" for at, load in enumerate(sets, 1) if load]
    page = sheet(exercise("lift", *lines, ADD, dose=f"{dose}, daily"), "give lift", case)
    (card,) = (one for part in page.sections for one in part.blocks if isinstance(one, ExerciseCard))
    by_set = next((row.lines for row in card.rows if row.head == "Round by round"), ())
    assert kilograms(str(card.dose)) == head
    assert [one for item in by_set for one in kilograms(item.text)] == rows


def test_steps_stay_within_the_bound_that_the_sets_are_held_to() -> None:
    """`up to` bounds what is lifted: steps begin at the heaviest set, and no set passes it."""
    lines = ("set 1: 8 reps, load 2 kg", "set 2: 8 reps, load 5 kg", "add 4 kg when pain <= 2, up to 6 kg")
    (item,) = planned(exercise("lift", *lines, dose="2 x 8, daily"), "give lift", DONE).items
    assert [str(row.dose.load) for row in item.sets if row.dose.load]
    assert [row.dose.load.weight.value for row in item.sets if row.dose.load and row.dose.load.weight] == [3, 6]


AGAIN = "again, as on the last sheet that shows it"


def told(page: Handout[str]) -> list[str]:
    """The words under the table of the week."""
    (week,) = (part for part in page.sections if part.id == "week")
    return [item.text for one in week.blocks if isinstance(one, Paragraphs) for item in one.lines]


@pytest.mark.parametrize(
    ("case", "dates"),
    [
        ("from 2026-11-02 to 2026-11-09 leave out lift\n  because travelling", ["Tuesday 10 November 2026"]),
        # Past the end of the period, without an end, and before today: not on this sheet.
        ("from 2026-11-02 to 2026-11-29 leave out lift\n  because travelling", []),
        ("from 2026-11-02 leave out lift\n  because travelling", []),
        # The later of two ends.
        (
            "from 2026-11-02 to 2026-11-04 leave out lift\n  because travelling\n"
            "from 2026-11-02 to 2026-11-07 leave out lift\n  because ill",
            ["Sunday 8 November 2026"],
        ),
        # It would not be given anyhow.
        ("on 2026-11-02\n  heel raises: left 1, right 9\nfrom 2026-11-02 to 2026-11-09 leave out hop\n  because x", []),
    ],
)
def test_what_is_left_out_for_a_time_that_ends_is_told(case: str, dates: list[str]) -> None:
    """The patient has this sheet alone in the days after."""
    declarations = exercise("lift") + exercise("walk") + exercise("hop")
    lines = "give lift\ngive walk\ngive hop if heel raises >= 10 on each side"
    found = [one for one in told(sheet(declarations, lines, f"next visit 2026-11-20\n{case}")) if AGAIN in one]
    assert len(found) == len(dates)
    for one, day in zip(found, dates, strict=True):
        assert one.startswith(f"From {day} on do “Lift” again")


def test_what_is_left_out_of_a_step_comes_back_too() -> None:
    """A level of two exercises, one of which is left out for a few days."""
    declarations = exercise("lift") + exercise("walk")
    declarations += "progression strength\n  level both\n    give lift\n    give walk\n"
    case = "next visit 2026-11-20\nfrom 2026-11-02 to 2026-11-09 leave out lift\n  because travelling"
    assert [one for one in told(sheet(declarations, "give strength", case)) if AGAIN in one]


def test_what_is_given_for_a_time_ends_on_the_sheet() -> None:
    """The last date is told, and no box of the diary is printed after it."""
    case = "next visit 2026-11-20\nfrom 2026-11-02 to 2026-11-09 give lift\n  because asked for"
    found = planned(exercise("lift") + exercise("walk"), "give walk", case)
    (item,) = (one for one in found.items if one.exercise.name == "lift")
    assert [(one.date.day, one.dose) for one in item.later] == [(10, None)]
    assert max(item.dates).day == 9


def test_what_is_given_twice_with_us_only_has_two_safety_lines() -> None:
    """Each is looked for on the page by its own id."""
    declarations = exercise("lift") + exercise("walk")
    lines = (
        "part Morning\n  give lift\n    supervised\n"
        "part Evening\n  give lift\n    supervised\n  give walk"
    )  # fmt: skip
    found = entry(protocol_text(declarations, lines))
    (protocol,) = found.protocols
    items = safety_items(compose_sheet(protocol, CLINIC, OPTIONS))
    ids = [item.safety for item in items if "supervised" in item.safety]
    assert len(ids) == len(set(ids))
    assert sum("give/supervised/lift" in one for one in ids) == 2
