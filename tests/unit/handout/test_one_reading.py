"""Words that could be read in two ways are not on the general sheet: steps, weeks, counts and what is forbidden.

What is said is held against section 5.2 of the language reference: start, streak, weeks, one answer moves once.
"""

from __future__ import annotations

import re

import pytest

from protodsl.handout import Options, compose_sheet
from protodsl.handout.blocks import ExerciseCard, Handout, Item, Row
from protodsl.localise import localise
from protodsl.source import Source
from tests.unit.handout import samples
from tests.unit.localise.written import PATH, QUESTIONS, protocol_of

_LINES_OF_STEPS = """
exercise rise
  dose 3 x 8, daily
  do
    Rise.
  stop pain

exercise lift like rise
  do
    Lift.

exercise press like rise
  do
    Press.

progression strength
  start at easy if heel raises >= 5 on the affected side
  start at hard if heel raises >= 10 on the affected side
  down when pain > 5
  up when pain <= 3, 2 sessions in a row
  level first
    give rise
  level easy
    give lift
    give press
      dose week 1: 2 x 6, daily
      dose weeks 2 to 4: 2 x 8, daily
  level hard
    give press
      dose 3 x 10, daily
      add 2 reps when pain <= 2, 3 sessions in a row, up to 20 reps
      take off 2 reps when pain > 4, down to 4 reps

progression balance
  down when pain > 5
  up when pain <= 3
  level rise
  level lift

protocol ankle
  version 1.0.0
  for     adults
  review  2026-10-05 by outpatient lead, next by 2027-10-05
  source  A reference.
  emergency if chest pain
  phase one
    give strength
    until pain <= 2
  phase two
    give strength
    give balance
"""


def _page(text: str) -> Handout[str]:
    protocol = protocol_of(QUESTIONS + text)
    composed = compose_sheet(protocol, samples.CLINIC, Options(sources={PATH: Source(PATH, "")}))
    words = localise(composed, protocol.scope, samples.CLINIC, "en")
    assert words.value is not None
    return words.value


def _plan(page: Handout[str], name: str) -> list[Item[str]]:
    section = next(one for one in page.sections if one.id == name)
    return [item for row in section.blocks if isinstance(row, Row) for item in row.lines]


def _plan_lines(page: Handout[str], name: str) -> list[str]:
    return [item.text for item in _plan(page, name)]


def _press() -> ExerciseCard[str]:
    blocks = [block for section in _page(_LINES_OF_STEPS).sections for block in section.blocks]
    return next(block for block in blocks if isinstance(block, ExerciseCard) and block.number == 3)


def test_only_one_step_at_a_time() -> None:
    """Start is at the highest step whose `start at` is yes, unknown is not used; a step is kept from part to part."""
    page = _page(_LINES_OF_STEPS)
    assert _plan_lines(page, "plan-1")[0] == (
        "Strength. Only one of these steps, the one you are at: exercise 1, later exercises 2 and 3, later exercise 3. "
        "Start at the step “Hard” if the number of heel raises is 10 or more on the affected side. "
        "If not, or you are not sure, start at the step “Easy” if the number of heel raises is 5 or more on the "
        "affected side. If not, or you are not sure, start at the first step."
    )
    assert _plan_lines(page, "plan-2")[:2] == [
        "Strength, begun in part 1. Go on at the step you have reached, and do only that one: exercise 1, later "
        "exercises 2 and 3, later exercise 3.",
        "Balance. Only one of these, the step you are at: exercise 1, later 2.",
    ]
    assert any("Do only the step you are at." in line for line in _plan_lines(page, "plan"))


def test_which_week_is_week_one_and_what_comes_after_the_last() -> None:
    """Weeks count from entry to the item or level, coming back starts at the first, past the last it is not given.

    A step back that is due or unanswered holds the week (language 5.2).
    """
    press = _press()
    assert press.doses is not None
    assert press.doses.caption == (
        "Count the weeks from your first day at this step. A week without it does not count. If you go back to it "
        "later, start again at the first week. As long as you should go back or do less, or are not sure whether you "
        "should, stay at the same week. Where the weeks end, do not do this one any more. Ask us how to go on."
    )


@pytest.mark.parametrize(
    ("line", "counted"),
    [("until pain <= 2, 2 sessions in a row", True), ("call if pain > 6, 2 sessions in a row", True), ("", False)],
)
def test_what_a_session_is(line: str, counted: bool) -> None:
    """One date is one session, and only what was done as asked leads on: said wherever sessions are counted."""
    text = _LINES_OF_STEPS.replace("    until pain <= 2\n", f"    {line}\n" if line else "")
    text = text.replace("    give strength\n", "    give rise\n").replace("    give balance\n", "")
    said = [one for one in _plan_lines(_page(text), "plan") if one.startswith("All that you do on one day is one")]
    assert bool(said) is counted


def test_one_answer_moves_once() -> None:
    """After a step the count of sessions begins again; a step on a single answer is made once for it."""
    press = _press()
    rows = {row.head: [item.text for item in row.lines] for row in press.rows}
    assert rows["Do more when"] == [
        "Add 2 repetitions when in 3 sessions in a row your pain is 2 or less out of 10. Then count from one again. "
        "Never go above 20 repetitions."
    ]
    assert rows["Do less when"] == [
        "Take off 2 repetitions when your pain is more than 4 out of 10. Do this only once for each answer. "
        "Do not go below 4 repetitions."
    ]


@pytest.mark.parametrize("kind", ["passive", "assisted", "active", "resisted"])
def test_what_is_forbidden_can_be_read_by_itself(kind: str) -> None:
    """Without its head it still forbids, and it never says no twice."""
    text = _LINES_OF_STEPS.replace("phase one\n", f"phase one\n    forbid {kind} ankle inversion\n")
    text = text.replace("exercise rise\n", "exercise rise\n  still ankle\n")
    line = next(item for item in _plan(_page(text), "plan-1") if "/forbid/" in item.safety)
    assert line.text.startswith("Never do this in this part: turning the sole of your foot inwards (ankle inversion)")
    assert len(re.findall(r"\b(?:no|not|never|nor)\b", line.text, re.IGNORECASE)) == 1
