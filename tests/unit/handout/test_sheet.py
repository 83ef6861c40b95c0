"""The general sheet: its parts and their order, what it says before one starts, its numbers and its diary."""

from __future__ import annotations

from dataclasses import replace

import pytest

from protodsl.handout import Options, compose_sheet
from protodsl.handout.blocks import Bullets, Diary, ExerciseCard, Handout, Paragraphs, Row, Section, Stop
from protodsl.handout.phrase import Phrase
from protodsl.localise import localise
from protodsl.model.protocol import Protocol
from protodsl.source import Source
from tests.unit.handout import samples
from tests.unit.localise.written import PATH, protocol_of

_STEPS = """
question pain: How strong was your worst pain, from 0 to 10?
  answer     0 to 10
  fresh      for one session
  means      your pain

question chest pain: Do you have chest pain?
  yes means  you have chest pain

question fever: Do you have a fever?

question tired: Are you tired?
  yes means  you are tired

exercise circles
  dose 10 reps, daily
  do
    Move your foot in circles.
  stop pain
  avoid if chest pain
  avoid if tired
    instead walk
  caution if not fever
    Go on slowly.

exercise lift
  dose 3 x 10, 3 days a week, rest day between
  do
    Lift.
  stop pain
  avoid if tired
    instead walk

exercise lift more
  dose 3 x 12, 3 days a week, rest day between
  do
    Lift more.
  stop pain

exercise walk
  dose 10 min, twice a day, daily
  do
    Walk.
  stop pain

progression lifting
  up when pain <= 3
  down when pain > 5
  level lift
  level lift more

protocol ankle
  version 1.0.0
  for     adults
  review  2026-10-05 by outpatient lead, next by 2027-10-05
  source  A reference.
  lasts   LASTS
  emergency if chest pain
  red flag if fever
  give lifting
  give circles
"""


def _page(protocol: Protocol, **options: object) -> Handout[str]:
    given = Options(sources={PATH: Source(PATH, ""), **samples.SOURCES}, **options)  # type: ignore[arg-type]
    composed: Handout[Phrase] = compose_sheet(protocol, samples.CLINIC, given)
    words = localise(composed, protocol.scope, samples.CLINIC, "en")
    assert words.value is not None
    return words.value


def _steps(lasts: str = "12 weeks") -> Protocol:
    return protocol_of(_STEPS.replace("LASTS", lasts))


def _section(page: Handout[str], name: str) -> Section[str]:
    return next(section for section in page.sections if section.id == name)


def _cards(page: Handout[str]) -> list[ExerciseCard[str]]:
    return [block for section in page.sections for block in section.blocks if isinstance(block, ExerciseCard)]


def _diary(page: Handout[str]) -> Diary[str]:
    return next(block for block in _section(page, "diary").blocks if isinstance(block, Diary))


def test_the_parts_stand_in_one_order() -> None:
    """Safety before welcome, the plan before the exercises, the diary last."""
    page = _page(samples.protocol())
    assert [section.id for section in page.sections] == [
        "stop",
        "before",
        "plan",
        "plan-1",
        "plan-2",
        "needs",
        "pain",
        "flare",
        "care",
        "advice",
        "exercises",
        "replacements",
        "daily",
        "ask",
        "about",
        "diary",
    ]
    assert page.sections[-1].new_page


def test_a_sheet_is_the_same_twice() -> None:
    """No clock and no chance: the same protocol gives the same sheet."""
    assert _page(samples.protocol()) == _page(samples.protocol())


def test_what_a_protocol_does_not_say_is_not_printed() -> None:
    """Without pain zones there is no pain table, without a flare-up no bad spell, and so on."""
    names = {section.id for section in _page(_steps()).sections}
    assert names.isdisjoint({"pain", "flare", "care", "advice", "daily", "needs"})


def test_exercises_are_numbered_as_they_are_given_and_replacements_come_last() -> None:
    """One card each, printed once; what only takes the place of another follows under a head of its own."""
    page = _page(_steps())
    assert [(card.number, card.id) for card in _cards(page)] == [
        (1, "lift"),
        (2, "lift more"),
        (3, "circles"),
        (4, "walk"),
    ]
    assert [
        card.id for block in _section(page, "replacements").blocks for card in [block] if isinstance(card, ExerciseCard)
    ] == ["walk"]


def test_before_you_start() -> None:
    """Each question once, in the order of danger, under what a yes, a no or not being sure means."""
    rows = [row for row in _section(_page(_steps()), "before").blocks if isinstance(row, Row)]
    said = [(row.head, item.text, [one.text for one in item.under]) for row in rows for item in row.lines]
    assert said == [
        (
            "Is it an emergency?",
            "**Yes to this question:** Do not exercise. Call for help now: 112. "
            "**Not sure:** do not start. Ask us first.",
            ["Do you have chest pain?"],
        ),
        (
            "Is it safe to start?",
            "**Yes to this question:** Stop all exercises. Call us today: 01632 960 142. "
            "Do what STOP on this sheet says. **Not sure:** do not start. Ask us first.",
            ["Do you have a fever?"],
        ),
        ("If yes, or not sure", "Are you tired? **Leave out** exercises 1 and 3 (do exercise 4 instead).", []),
        ("If no, or not sure", "Do you have a fever? **Read “Take care”** at exercise 3 before you do it.", []),
    ]


def test_questions_that_mean_the_same_stand_together() -> None:
    """What to do is said once, after the questions; the order of danger stays, and every question its id."""
    text = _STEPS.replace("LASTS", "12 weeks")
    text = text.replace("red flag if fever", "red flag if fever or not tired").replace(
        "  avoid if chest pain\n", "  avoid if steady\n  avoid if stiff\n"
    )
    asked = "".join(f"question {name}: Are you {name}?\n  yes means you are {name}\n\n" for name in ("steady", "stiff"))
    rows = [row for row in _section(_page(protocol_of(asked + text)), "before").blocks if isinstance(row, Row)]
    said = [(item.text, [(one.text, one.safety) for one in item.under]) for row in rows[1:] for item in row.lines]
    assert said[0][1] == [
        ("Do you have a fever?", "before/2"),
        ("Are you tired? Here **no** counts as yes.", "before/3"),
    ]
    assert said[2] == (
        "Yes to one or more of these, or not sure:",
        [
            ("Are you steady?", "before/5"),
            ("Are you stiff?", "before/6"),
            ("**Then:** **Leave out** exercise 3 (nothing instead: ask us).", "before/5/told"),
        ],
    )


def test_signs_with_the_same_words_stand_before_them() -> None:
    """What to do is said once, after the signs; each cause is a sign; every sign keeps its id and its place."""
    text = _STEPS.replace("LASTS", "12 weeks").replace(
        "  red flag if fever\n",
        "  red flag if fever\n    See us.\n  red flag if chest pain\n    Rest first.\n"
        "  red flag if tired or pain > 8\n    See us.\n",
    )
    (frame,) = _section(_page(protocol_of(text)), "stop").blocks
    assert isinstance(frame, Stop)
    said = [(item.text, item.safety, [(one.text, one.safety) for one in item.under]) for item in frame.groups[1].lines]
    assert said == [
        (
            "One of these is enough:",
            "stop/red-flag/1/any",
            [
                ("The answer to “Do you have a fever?” is yes.", "stop/red-flag/1"),
                ("You are tired.", "stop/red-flag/3/1"),
                ("Your pain is more than 8 out of 10.", "stop/red-flag/3/2"),
                ("**If one of these is so:** See us.", "stop/red-flag/1/told"),
            ],
        ),
        ("You have chest pain. Rest first.", "stop/red-flag/2", []),
    ]


def test_the_stop_frame_has_a_group_for_each_thing_to_do() -> None:
    """Emergency first and urgent; the flag's own words, else the clinic's."""
    frame, lead, calls = _section(_page(samples.protocol()), "stop").blocks
    assert isinstance(frame, Stop) and isinstance(lead, Paragraphs) and isinstance(calls, Bullets)
    assert [(group.head, group.phone, group.urgent) for group in frame.groups] == [
        ("Call for help now", "112", True),
        ("Stop all exercises. Call us today", "01632 960 142", False),
        ("Stop the exercise you are doing", "", False),
    ]
    assert lead.lines[0].text == "**Call us, 01632 960 142, when:**"
    assert calls.lines and all(item.safety.startswith("stop/call/") for item in calls.lines)
    assert frame.groups[1].other_phone == "01632 960 199"


def test_the_line_of_stations() -> None:
    """At the lowest step one stays and tells the clinic; the condition stands at the station it leads to."""
    first, second = (card.stations[0] for card in _cards(_page(_steps()))[:2])
    assert [(stop.role, stop.head, stop.what, stop.when) for stop in first.stops] == [
        ("back", "Stay, and tell us", "01632 960 142", "**when** your pain is more than 5 out of 10."),
        ("now", "This step", "Lift.", None),
        ("next", "Move on", "to exercise 2", "**when** your pain is 3 or less out of 10."),
    ]
    assert [(stop.role, stop.what, stop.when) for stop in second.stops] == [
        ("back", "to exercise 1", "**when** your pain is more than 5 out of 10."),
        ("now", "Lift more.", None),
    ]


def test_the_diary_has_a_box_for_what_is_due() -> None:
    """The steps of a progression share a box on its days (three, spread evenly); a daily item has one every day."""
    table = _diary(_page(_steps()))
    assert table.heads == ("Day", "Tick what you did", "Pain", "Anything to tell us")
    assert table.blanks == 2
    assert table.weeks[0].days == (
        ("Mon", ("1–2", "3")),
        ("Tue", ("3",)),
        ("Wed", ("1–2", "3")),
        ("Thu", ("3",)),
        ("Fri", ("1–2", "3")),
        ("Sat", ("3",)),
        ("Sun", ("3",)),
    )


def test_in_parts_the_boxes_are_left_to_write_in() -> None:
    """Nobody knows beforehand in which part somebody is on which day."""
    table = _diary(_page(samples.protocol()))
    assert table.heads[1] == "Exercises you did"
    assert {boxes for week in table.weeks for _, boxes in week.days} == {()}


@pytest.mark.parametrize(
    ("lasts", "compact", "weeks"),
    [("12 weeks", False, 4), ("12 weeks", True, 2), ("3 weeks", False, 3), ("1 week", True, 1), ("10 days", False, 2)],
)
def test_the_diary_covers_the_first_weeks(lasts: str, compact: bool, weeks: int) -> None:
    """Four weeks, two in the compact form, and never more than the protocol lasts; it says how many."""
    page = _page(_steps(lasts), compact=compact)
    assert len(_diary(page).weeks) == weeks
    words = f"The table is for {weeks} week{'s' if weeks > 1 else ''}."
    assert words in str(_section(page, "diary").blocks[0])


def test_a_dose_that_differs_by_part_is_a_table() -> None:
    """What is the same everywhere is a sentence; what is not stands in a row for each part."""
    text = _STEPS.replace("LASTS", "12 weeks").replace(
        "  give lifting\n  give circles\n",
        "  phase early\n    give circles\n    until pain <= 3\n"
        "  phase late\n    give circles\n      dose 20 reps, daily\n    give walk\n",
    )
    card = _cards(_page(protocol_of(text)))[0]
    assert card.when == "Every day"
    assert card.dose is None
    assert card.doses is not None
    assert card.doses.heads == ("Where in your plan", "How much")
    assert [[cell.text for cell in row] for row in card.doses.rows] == [
        ["Part 1 (Early)", "10 repetitions"],
        ["Part 2 (Late)", "20 repetitions"],
    ]


def test_a_dose_table_that_ends_says_so() -> None:
    """Past the last week of a table the exercise is no longer given."""
    text = _STEPS.replace("LASTS", "12 weeks").replace(
        "dose 10 reps, daily", "dose daily\n  dose weeks 1 to 2: 10 reps\n  dose weeks 3 to 4: 12 reps"
    )
    card = next(card for card in _cards(_page(protocol_of(text))) if card.id == "circles")
    assert card.doses is not None
    assert [[cell.text for cell in row] for row in card.doses.rows] == [
        ["Weeks 1 to 2", "10 repetitions"],
        ["Weeks 3 to 4", "12 repetitions"],
    ]


def test_the_usual_caution_is_always_there() -> None:
    """Whatever the protocol leaves out, the sheet says for whom it is and whom to call."""
    bare = replace(_steps(), audience=None, sources=(), review=None, goals=())
    first = _section(_page(bare), "about").blocks[0]
    assert isinstance(first, Row)
    assert "does not take the place of care" in first.lines[0].text
    assert "01632 960 142" in first.lines[0].text and "112" in first.lines[0].text
