"""Nobody is sent to an exercise that is left out, or that the very answer which sends them there rules out.

The meaning is that of the language: `instead` is followed to its end, `leave out` bars an exercise as an `instead` too.
"""

from __future__ import annotations

import re

import pytest

from protodsl.handout import Options, compose_clinician, compose_sheet
from protodsl.handout.blocks import ExerciseCard, Handout, Table
from protodsl.handout.implied import implied
from protodsl.localise import localise
from protodsl.model.protocol import Protocol
from protodsl.source import Source
from tests.unit.handout import samples
from tests.unit.handout.shown import shown, shown_lines
from tests.unit.localise.written import PATH, protocol_of

_TEXT = """
question pain: How strong was your worst pain, from 0 to 10?
  answer     0 to 10
  fresh      for one session
  means      your pain

question dizzy: Are you dizzy?
  yes means  you are dizzy

question stiff: Are you stiff?
  yes means  you are stiff

equipment step: a low step
equipment chair: a firm chair

exercise lift
  dose 10 reps, daily
  needs step
    instead deep
  do
    Lift.
  stop pain
  avoid if dizzy or stiff
    instead deep

exercise deep
  dose 10 reps, daily
  needs chair or step
    instead walk
  do
    Go deep.
  stop pain
  avoid if dizzy
    instead walk

exercise walk
  dose 10 min, daily
  do
    Walk.
  stop pain

protocol ankle
  version 1.0.0
  for     adults
  review  2026-10-05 by outpatient lead, next by 2027-10-05
  source  A reference.
  lasts   6 weeks
  give lift
"""
_WITHOUT = "If you do not have a low step"
_PHASES = "  phase early\n    {early}\n    until pain <= 3\n  phase late\n    {late}\n    until pain <= 2\n"


def _in_words(protocol: Protocol, page: str = "sheet") -> Handout[str]:
    options = Options(sources={PATH: Source(PATH, "")})
    made = (
        compose_sheet(protocol, samples.CLINIC, options)
        if page == "sheet"
        else compose_clinician(protocol, samples.CLINIC, (), options)
    )
    words = localise(made, protocol.scope, samples.CLINIC, "en")
    assert words.value is not None
    return words.value


def _lines(page: Handout[str], card: str, head: str) -> list[str]:
    """What a row of a card says."""
    return [
        item.text
        for section in page.sections
        for block in section.blocks
        if isinstance(block, ExerciseCard) and block.id == card
        for row in block.rows
        if row.head == head
        for item in row.lines
    ]


def _rules(page: Handout[str]) -> list[str]:
    tables = (block for section in page.sections for block in section.blocks if isinstance(block, Table))
    return [row[0].text for table in tables if table.kind == "rules" for row in table.rows if "void" in row[0].text]


def _before(page: Handout[str]) -> str:
    return " ".join(shown_lines(next(section for section in page.sections if section.id == "before")))


def test_the_chain_goes_on_past_what_the_same_answer_rules_out() -> None:
    """Dizzy: exercise 2 is ruled out as well, so exercise 3; stiff: exercise 2."""
    page = _in_words(protocol_of(_TEXT))
    assert _lines(page, "lift", "Leave it out if") == [
        "You are dizzy, or you are not sure. Do exercise 3 instead.",
        "You are stiff, or you are not sure. Do exercise 2 instead.",
    ]
    assert "exercises 1 and 2 (do exercise 3 instead)" in _before(page)
    assert "exercise 1 (do exercise 2 instead)" in _before(page)
    assert _rules(_in_words(protocol_of(_TEXT), "clinician")) == [
        "Avoid Lift, Deep; instead Walk",
        "Avoid Lift; instead Deep",
    ]


def test_what_is_missing_is_missing_for_the_next_one_too() -> None:
    """Who has no step may have a chair; who needs the step for both goes on to the end."""
    page = _in_words(protocol_of(_TEXT))
    assert _lines(page, "lift", "You need") == [f"A low step. {_WITHOUT}: do exercise 2 instead."]
    same = protocol_of(_TEXT.replace("needs chair or step", "needs step"))
    assert _lines(_in_words(same), "lift", "You need") == [f"A low step. {_WITHOUT}: do exercise 3 instead."]


@pytest.mark.parametrize("out", ["deep", "deep\n  leave out walk"])
def test_what_is_left_out_is_no_way_on(out: str) -> None:
    """Barred as an `instead` by the whole protocol: nobody is sent there, nor past it."""
    given = _TEXT.replace("give lift\n", "give lift\n  give deep\n  give walk\n")
    page = _in_words(protocol_of(given + f"  leave out {out}\n"))
    (line,) = _lines(page, "lift", "Leave it out if")
    assert line.endswith("There is no other exercise in its place. Ask us.")
    (need,) = _lines(page, "lift", "You need")
    assert need == f"A low step. {_WITHOUT}: leave this one out, with nothing instead. Ask us."
    assert "(nothing instead: ask us)" in _before(page)
    assert not re.search(r"Deep|“deep”", shown(page))


def test_what_one_part_leaves_out_is_a_way_on_in_the_other() -> None:
    """In part 1 nothing is left, in part 2 the exercise is."""
    text = _TEXT.replace(" or stiff", "").replace("  avoid if dizzy\n    instead walk\n", "")
    phases = _PHASES.format(early="leave out deep", late="give deep")
    page = _in_words(protocol_of(text + phases))
    assert _lines(page, "lift", "Leave it out if") == [
        "You are dizzy, or you are not sure. In part 1: nothing instead. Ask us. In part 2: do exercise 2 instead."
    ]
    assert _lines(page, "lift", "You need") == [
        f"A low step. {_WITHOUT}, in part 1: nothing instead. Ask us. {_WITHOUT}, in part 2: do exercise 2 instead."
    ]
    assert "exercise 1 (in part 1 nothing instead: ask us, in part 2 do exercise 2 instead)" in _before(page)
    assert _rules(_in_words(protocol_of(text + phases), "clinician")) == [
        "Avoid Lift; instead nothing in part 1, Deep in part 2"
    ]


def test_a_circle_ends_in_nothing() -> None:
    """Two exercises that stand in for one another upon one answer leave nothing."""
    text = _TEXT.replace("instead walk\n\nexercise walk", "instead lift\n\nexercise walk").replace(" or stiff", "")
    (line,) = _lines(_in_words(protocol_of(text)), "lift", "Leave it out if")
    assert line.endswith("There is no other exercise in its place. Ask us.")


@pytest.mark.parametrize(
    ("reason", "condition", "so"),
    [
        ("pain > 5", "pain > 4", True),
        ("pain > 4", "pain > 5", False),
        ("pain > 5", "pain >= 5", True),
        ("pain >= 5", "pain > 5", False),
        ("pain < 3", "pain <= 3", True),
        ("pain < 3", "pain > 3", False),
        ("pain = 6", "pain > 5", True),
        ("pain = 5", "pain > 5", False),
        ("dizzy and stiff", "stiff", True),
        ("dizzy", "dizzy or stiff", True),
        ("dizzy or stiff", "dizzy", False),
        ("dizzy and pain > 6", "pain > 5 and dizzy", True),
        ("not (dizzy or stiff)", "not dizzy", True),
        ("not dizzy", "dizzy", False),
    ],
)
def test_what_follows_from_what(reason: str, condition: str, so: bool) -> None:
    """Truth tables and the order of numbers."""
    text = _TEXT.replace("avoid if dizzy or stiff", f"avoid if {reason}").replace(
        "avoid if dizzy\n", f"avoid if {condition}\n"
    )
    exercises = protocol_of(text).scope.exercises
    assert implied(exercises["deep"].avoid[0].condition, exercises["lift"].avoid[0].condition) is so
