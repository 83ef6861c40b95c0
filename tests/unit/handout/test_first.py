"""For whom and when a card is, said under its title; and what is done with us only is nowhere planned for home."""

from __future__ import annotations

import pytest

from protodsl.handout import Options, compose_clinician, compose_sheet, safety_items
from protodsl.handout.blocks import Diary, ExerciseCard, Handout
from protodsl.handout.strictest import strictest
from protodsl.localise import localise
from protodsl.model.protocol import Limit, Protocol
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

question operation date: On which day was your operation?
  answer     date
  means      your operation

exercise walk
  dose 10 min, daily
  do
    Walk.
  stop pain

exercise press
  dose 20 min, daily
  do
    Press.
  stop pain

exercise deep
  dose 30 min, daily
  do
    Go deep.
  stop pain

protocol ankle
  version 1.0.0
  for     adults
  review  2026-10-05 by outpatient lead, next by 2027-10-05
  source  A reference.
  lasts   6 weeks
"""
_PARTS = """  give walk
  phase one
    until pain <= 3
  phase two
    {two}
    until pain <= 3
  phase three
    {three}
    until pain <= 2
"""
_AVOID = "  avoid if dizzy\n"
_UNSURE = "If you are not sure, leave it out and ask us."


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


def _sheet(end: str, text: str = _TEXT) -> Handout[str]:
    return _in_words(protocol_of(text + end))


def _card(page: Handout[str], name: str) -> ExerciseCard[str]:
    return next(
        block
        for section in page.sections
        for block in section.blocks
        if isinstance(block, ExerciseCard) and block.id == name
    )


def _first(page: Handout[str], name: str) -> list[str]:
    """What stands under the title; every line of it is a safety line."""
    items = [item for row in _card(page, name).first for item in row.lines]
    assert all(item.safety and item in safety_items(page) for item in items)
    return [item.text for item in items]


def _section(page: Handout[str], name: str) -> list[str]:
    return shown_lines(next(section for section in page.sections if section.id == name))


def test_a_card_names_its_parts() -> None:
    """Given in one part or in two of three; given in every part it says nothing."""
    page = _sheet(_PARTS.format(two="give press", three="give press\n    give deep"))
    assert _first(page, "walk") == []
    assert _first(page, "press") == ["Only in part 2 (Two) and part 3 (Three)."]
    assert _first(page, "deep") == ["Only in part 3 (Three)."]


def test_a_card_names_its_condition() -> None:
    """As in the plan; of a part where the parts differ."""
    weeks = "weeks since operation date >= 2"
    said = "2 full weeks or more have gone by since your operation"
    one = _sheet(_PARTS.format(two=f"give press if {weeks}", three="give deep unless dizzy"))
    assert _first(one, "press") == ["Only in part 2 (Two).", f"Only if {said}. {_UNSURE}"]
    no = "Only if the answer to “Are you dizzy?” is no."
    assert _first(one, "deep") == ["Only in part 3 (Three).", f"{no} {_UNSURE}"]
    two = _sheet(_PARTS.format(two=f"give press if {weeks}", three="give press"))
    assert _first(two, "press") == [
        "Only in part 2 (Two) and part 3 (Three).",
        f"In part 2, only if {said}. {_UNSURE}",
    ]


def test_two_ways_to_be_given_are_both_named() -> None:
    """Upon the one condition or the other."""
    page = _sheet("  give press if dizzy\n  give press if pain > 3\n  give walk\n")
    first, second = _first(page, "press")
    assert first == f"Only if you are dizzy. {_UNSURE}"
    assert second.startswith("Or if your pain is more than 3")


def test_a_progression_upon_a_condition_hands_it_to_its_steps() -> None:
    """The condition of the progression and that of the step are both needed."""
    text = _TEXT.replace(
        "protocol ankle", "progression strength\n  up when pain <= 3\n  level press\n  level deep\n\nprotocol ankle"
    )
    page = _sheet("  give walk\n  give strength if dizzy\n", text)
    assert _first(page, "press") == _first(page, "deep") == [f"Only if you are dizzy. {_UNSURE}"]


def test_a_replacement_says_for_which_exercise() -> None:
    """Given in one part, it can stand in for another exercise besides."""
    text = _TEXT.replace("    Go deep.\n  stop pain\n", f"    Go deep.\n  stop pain\n{_AVOID}    instead walk\n")
    sent = "in place of exercise 1, when you are told to do this one instead."
    assert _first(_sheet("  give deep\n", text), "walk") == [f"Only {sent}"]
    parts = "  give deep\n  phase one\n    until pain <= 3\n  phase two\n    give walk\n    until pain <= 2\n"
    assert _first(_sheet(parts, text), "walk") == ["Only in part 2 (Two).", f"Besides, {sent}"]


@pytest.mark.parametrize("where", ["exercise", "give"])
def test_with_us_only(where: str) -> None:
    """It heads its card or the plan, has no box, and is not in the minutes at home, which says so."""
    text = _TEXT.replace("dose 30 min, daily\n", "dose 30 min, daily\n  supervised\n") if where == "exercise" else _TEXT
    given = "  give deep\n" if where == "exercise" else "  give deep\n    supervised\n"
    page = _sheet(f"  give walk\n  give press\n{given}", text)
    if where == "exercise":
        assert _first(page, "deep") == ["Do this one only at the clinic with us."]
    plan = _section(page, "plan")
    assert "Only with us at the clinic: exercise 3 (Deep)." in plan
    assert "Up to 30 minutes on the longest day." in plan
    assert "Not counted, because you do it only with us: exercise 3." in plan
    (table,) = [block for section in page.sections for block in section.blocks if isinstance(block, Diary)]
    assert {boxes for week in table.weeks for _, boxes in week.days} == {("1", "2")}
    assert "Exercise 3 has no box, because you do it only with us." in " ".join(_section(page, "diary"))


def test_a_progression_with_us_only() -> None:
    """Every card of its steps says so, and none has a box."""
    text = _TEXT.replace(
        "protocol ankle", "progression strength\n  up when pain <= 3\n  level press\n  level deep\n\nprotocol ankle"
    )
    page = _sheet("  give walk\n  give strength\n    supervised\n", text)
    for name in ("press", "deep"):
        (line,) = _first(page, name)
        assert "only at the clinic with us" in line
    assert "Up to 10 minutes on the longest day." in _section(page, "plan")


def test_what_is_not_for_everyone_has_no_box() -> None:
    """Conditional exercises and replacements; the intro names them."""
    text = _TEXT.replace("    Walk.\n  stop pain\n", "    Walk.\n  stop pain\n  avoid if dizzy\n    instead deep\n")
    page = _sheet("  give walk\n  give press if pain > 3\n", text)
    (table,) = [block for section in page.sections for block in section.blocks if isinstance(block, Diary)]
    assert {boxes for week in table.weeks for _, boxes in week.days} == {("1",)}
    assert "Exercises 2 and 3 have no box, because they are not for everyone." in " ".join(_section(page, "diary"))


def test_a_step_in_the_middle_without_a_box() -> None:
    """A box names the steps that have one, not a range over the others."""
    steps = "progression strength\n  up when pain <= 3\n  level walk\n  level press\n  level deep\n\nprotocol ankle"
    text = _TEXT.replace("protocol ankle", steps).replace("dose 20 min, daily\n", "dose 20 min, daily\n  supervised\n")
    page = _sheet("  give strength\n", text)
    (table,) = [block for section in page.sections for block in section.blocks if isinstance(block, Diary)]
    assert {boxes for week in table.weeks for _, boxes in week.days} == {("1, 3",)}


def test_a_step_with_a_name_has_its_number() -> None:
    """`to exercise 2 (“Heavy”)`; on a step of two exercises both."""
    progression = (
        "progression strength\n  up when pain <= 3\n  down when pain > 5\n"
        "  level light: walk\n  level heavy: press\n  level all\n    give press\n    give deep\n\nprotocol ankle"
    )
    page = _sheet("  give strength\n", _TEXT.replace("protocol ankle", progression))
    what = {stop.what for name in ("walk", "press", "deep") for one in _card(page, name).stations for stop in one.stops}
    assert {"to exercise 2 (“Heavy”)", "to exercise 1 (“Light”)", "to exercises 2 and 3 (“All”)"} <= what


def test_a_line_of_steps_of_a_later_part_leads_nobody_on_before_it() -> None:
    """Done by itself in part 1, it is a step in part 2 alone: its card says so before it names the next one."""
    steps = "progression strength\n  up when pain <= 3\n  level walk\n  level deep\n\nprotocol ankle"
    text = _TEXT.replace("protocol ankle", steps)
    later = "  phase one\n    give walk\n    until pain <= 3\n  phase two\n    give strength\n"
    page = _sheet(later, text)
    (line,) = _card(page, "walk").stations
    assert line.head.startswith("Only in part 2 (Two).")
    always = later.replace("give walk", "give strength")
    assert all(one.head.startswith("Your line") for one in _card(_sheet(always, text), "walk").stations)


def test_set_lines_are_the_dose() -> None:
    """Said set by set, the volume is not said again; where sets are missing among the lines it stays."""
    lines = "dose 2 x 10, rest 2 min, daily\n  set 1: 10 reps\n  set 2: 8 reps"
    text = _TEXT.replace("dose 20 min, daily", lines)
    card = _card(_sheet("  give press\n", text), "press")
    assert card.dose is not None and "10" not in card.dose and "2 minutes" in card.dose
    rows = {row.head: [item.text for item in row.lines] for row in card.rows}
    assert rows["Round by round"] == ["Round 1: 10 repetitions.", "Round 2: 8 repetitions."]
    part = _card(_sheet("  give press\n", text.replace("\n  set 2: 8 reps", "")), "press")
    assert part.dose is not None and "10" in part.dose


def test_the_set_lines_of_a_weaker_dose_are_not_printed() -> None:
    """Where a give has its own, those of the exercise do not hold."""
    text = _TEXT.replace("dose 20 min, daily", "dose 2 x 10, daily\n  set 1: 10 reps\n  set 2: 10 reps")
    page = _sheet("  give press\n    dose 2 x 6, daily\n    set 1: 6 reps\n    set 2: 6 reps\n", text)
    assert "Round 1: 6 repetitions." in shown(page) and "Round 1: 10 repetitions." not in shown(page)


def test_a_change_keeps_its_reason() -> None:
    """The clinician reads why; so it is with what follows a change."""
    text = _TEXT.replace("exercise deep\n", "exercise deep like press\n")
    change = "  change press\n    dose 5 min, daily\n    because swelling\n"
    text = text.replace("protocol ankle\n", f"protocol ankle\n{change}")
    page = _in_words(protocol_of(text + "  give press\n  give deep\n"), "clinician")
    said = _section(page, "changes")
    assert "Changed: press. Why: swelling." in said


def _limits(*lines: str) -> tuple[Limit, ...]:
    phase = "  give walk\n  phase one\n" + "".join(f"    limit {line}\n" for line in lines) + "    until pain <= 3\n"
    return protocol_of(_TEXT.replace("  stop pain\n", "  stop pain\n  still knee\n") + phase).phases[0].limits


@pytest.mark.parametrize(
    ("lines", "kept"),
    [
        (("knee flexion <= 90 deg", "knee flexion <= 60 deg"), [1]),
        (("knee flexion <= 60 deg", "knee flexion < 60 deg"), [1]),
        (("knee flexion <= 60 deg", "knee flexion <= 60 deg"), [0]),
        (("knee flexion <= 60 deg", "active knee flexion <= 90 deg"), [0]),
        (("knee flexion <= 90 deg", "active knee flexion <= 60 deg"), [0, 1]),
        (("knee flexion <= 60 deg", "knee extension <= 0 deg"), [0, 1]),
        (("load <= 5 kg", "load < 5 kg", "load <= 20 lb"), [1]),
    ],
)
def test_the_strictest_limit_is_printed(lines: tuple[str, ...], kept: list[int]) -> None:
    """A limit that another one keeps anyway says nothing, and beside it would mislead."""
    limits = _limits(*lines)
    assert strictest(limits) == tuple(limits[at] for at in kept)
