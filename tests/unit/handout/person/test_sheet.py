"""One person's sheet: its parts and their order, the week that adds up, dates, sides, what changed, and the diary."""

from __future__ import annotations

from dataclasses import replace
from datetime import date, timedelta
from decimal import Decimal

import pytest

from protodsl.decide.plan import REFER, UNANSWERED, Plan, PlannedItem
from protodsl.handout.blocks import Diary, ExerciseCard, Handout, Row, Section, Stations, Table
from protodsl.handout.person import compose_person
from protodsl.handout.phrase import DoseInWords, InWords, Written
from protodsl.model.case import Affected
from tests.unit.handout import samples
from tests.unit.handout.person import plans
from tests.unit.handout.shown import shown


def _sheet(plan: Plan, previous: Plan | None = None) -> Handout[str]:
    page = compose_person(plan, samples.CLINIC, plans.OPTIONS, previous)
    assert page is not None
    return plans.words(page, plan.protocol)


def _section(page: Handout[str], name: str) -> Section[str]:
    return next(section for section in page.sections if section.id == name)


def _rows(section: Section[str]) -> dict[str, list[str]]:
    return {block.head: [item.text for item in block.lines] for block in section.blocks if isinstance(block, Row)}


def _card(page: Handout[str], name: str) -> ExerciseCard[str]:
    blocks = [block for section in page.sections for block in section.blocks]
    return next(block for block in blocks if isinstance(block, ExerciseCard) and block.id == name)


def _week(page: Handout[str]) -> Table[str]:
    return next(block for block in _section(page, "week").blocks if isinstance(block, Table))


def _diary(page: Handout[str]) -> Diary[str]:
    return next(block for block in _section(page, "diary").blocks if isinstance(block, Diary))


def _with(*changed: PlannedItem) -> Plan:
    """The plan with items of the same exercise put in place of its own."""
    by_name = {item.exercise.name: item for item in changed}
    return replace(plans.plan(), items=tuple(by_name.get(item.exercise.name, item) for item in plans.items()))


def _only(name: str, **changes: object) -> Plan:
    item = next(item for item in plans.items() if item.exercise.name == name)
    return replace(plans.plan(), items=(replace(item, **changes),))  # type: ignore[arg-type]


def test_the_parts_stand_in_one_order() -> None:
    """Safety before welcome, what changed before the week, the diary last on a page of its own."""
    page = _sheet(plans.plan(), plans.last_sheet())
    assert [section.id for section in page.sections] == [
        "stop",
        "changed",
        "week",
        "part",
        "needs",
        "pain",
        "flare",
        "care",
        "advice",
        "exercises",
        "daily",
        "ask",
        "about",
        "diary",
    ]
    assert page.sections[-1].new_page


@pytest.mark.parametrize("kind", [REFER, UNANSWERED])
def test_no_sheet_where_a_flag_is_yes_or_unknown(kind: str) -> None:
    """Nothing that could be done at home is made then."""
    assert compose_person(plans.refused(kind), samples.CLINIC, plans.OPTIONS) is None


def test_whose_sheet_it_is() -> None:
    """The case's id and a line for the name, the period with weekdays, the next visit, the part of the plan.

    The weekdays are those of the Gregorian calendar: 25 November 2026 is a Wednesday (ISO 8601 week 48, day 3).
    """
    page = _sheet(plans.plan())
    assert page.masthead.lines == (
        "Case P-0417. Name: " + "_" * 30,
        "From Wednesday 25 November 2026 to Tuesday 8 December 2026.",
        "Next visit: Wednesday 9 December 2026.",
        "You are in part 2: Build strength.",
    )
    assert any("P-0417" in line for line in page.footer.left)
    assert "01632 960 142" in page.footer.right


@pytest.mark.parametrize("visit", [None, plans.TODAY, plans.START])
def test_a_visit_that_has_passed_is_none(visit: date | None) -> None:
    """Nobody is sent to a visit of the past."""
    page = _sheet(replace(plans.plan(), case=replace(plans.case(), next_visit=visit)))
    assert page.masthead.lines[2] == "Next visit: no date yet. Ask us for one."


def test_the_week_adds_up() -> None:
    """Each column of minutes sums to its last row, exactly; what is not planned is a dash, never a nought."""
    table = _week(_sheet(plans.plan()))
    assert table.heads[1:] == ("Mon", "Tue", "Wed", "Thu", "Fri", "Sat", "Sun")
    for day in range(1, 8):
        cells = [row[day].text for row in table.rows]
        assert sum(Decimal(cell) for cell in cells if cell != "–") == Decimal(table.foot[day].text)
        assert all(row[day].on == (row[day].text != "–") for row in table.rows)


def test_what_cannot_be_timed_is_a_word_and_said_not_to_count() -> None:
    """A word in its cells, the reason below the table, and nothing of it in the sum."""
    plan = replace(_only("heel raise both legs", minutes=None), week=())
    section = _section(_sheet(plan), "week")
    table = _week(_sheet(plan))
    assert {cell.text for cell in table.rows[0][1:]} == {"–", "do"}
    assert {cell.text for cell in table.foot[1:]} == {"0"}
    assert "not counted" in shown_text(section)


def test_a_choice_is_one_line_that_counts_once() -> None:
    """Of exercises to choose among one is done: the longest counts, and a card says so."""
    page = _sheet(plans.plan())
    row = _week(page).rows[2]
    assert row[0].text == "1 of these: 3. Brisk walk or 4. Seated heel raise"
    assert {cell.text for cell in row[1:]} == {"20"}
    assert _row(_card(page, "brisk walk"), "Your choice") == [
        "Do only 1 of these: exercise 3 or exercise 4. Choose the one that suits you, and tell us."
    ]


def test_an_option_of_several_exercises_is_one_option() -> None:
    """A choice between two steps of two exercises each: both of one step, or both of the other."""
    walking = plans.items()[2]
    both, squat, walk, seated = (
        replace(
            item, item=name, choice=walking.choice, takes=1, options=2, dates=walking.dates, days=(0,), supervised=False
        )
        for item, name in zip(plans.items(), ("calf strength", "other", "other", "calf strength"), strict=True)
    )
    page = _sheet(replace(plans.plan(), items=(both, squat, walk, seated), week=()))
    (row,) = _week(page).rows
    assert row[0].text == (
        "1 of these: (1. Heel raise on both legs and 4. Seated heel raise) or (2. Squat and 3. Brisk walk)"
    )
    assert row[1].text == "31"
    assert _row(_card(page, "squat"), "Your choice")[0].startswith(
        "Do only 1 of these: exercises 1 and 4 or exercises 2 and 3."
    )
    assert {due for week in _diary(page).weeks for _, due in week.days} == {("1–4",)}


def test_without_exercises_the_sheet_says_so() -> None:
    """No empty table, no diary to fill in; the STOP frame stays."""
    page = _sheet(replace(plans.plan(), items=(), week=()))
    assert "No exercise is planned for you now." in shown_text(_section(page, "week"))
    assert {"diary", "exercises", "needs"}.isdisjoint(section.id for section in page.sections)
    assert page.sections[0].id == "stop"


def test_a_card_says_on_which_days_and_how_long() -> None:
    """Weekdays over the dose instead of a number of days, how often on each, the minutes, and the kilograms in it."""
    page = _sheet(plans.plan())
    alone = _sheet(_with(replace(plans.items()[1], supervised=False)))
    assert _card(alone, "squat").when == "Tuesday, Thursday and Saturday, about 11 minutes each day"
    assert _card(page, "brisk walk").when == "Every day, 2 times a day, about 20 minutes each day"
    assert "Use 12.5 kg." in str(_card(page, "squat").dose)


def test_what_is_done_with_us_only_is_not_for_home() -> None:
    """It has its card, but no minutes at home, no box in the diary, and no weekday on which it could be done alone."""
    page = _sheet(plans.plan())
    row = _week(page).rows[1]
    assert row[0].text == "2. Squat (only with us)" and {cell.text for cell in row[1:]} == {"–"}
    assert _card(page, "squat").when == "On the days you come to us, about 11 minutes each day"
    assert not any("2" in due for week in _diary(page).weeks for _, due in week.days)
    assert "Exercise 2 has no box, because you do it only with us." in shown_text(_section(page, "diary"))


def test_what_it_is_for_and_what_part_it_is_of() -> None:
    """What the give and the protocol say beside the exercise: part, reason, aims."""
    walk = plans.items()[2]
    give = replace(walk.give, why=samples.prose("it keeps you fit"), when=samples.prose("after lunch"))
    plan = _with(replace(walk, give=give, part=samples.prose("Fitness")))
    page = _sheet(replace(plan, protocol=replace(plan.protocol, when=samples.prose("in the evening"))))
    card = _card(page, "brisk walk")
    assert card.when == "Fitness, every day, 2 times a day, after lunch, about 20 minutes each day"
    assert _row(card, "Why in your plan") == ["It keeps you fit."]
    assert _rows(_section(page, "week")) == {
        "What you aim for": ["Walk without a limp."],
        "When": ["In the evening."],
    }


def test_a_load_that_nobody_knows_is_printed_as_written() -> None:
    """No kilograms are made up."""
    squat = plans.items()[1]
    assert squat.load is not None
    page = _sheet(_with(replace(squat, load=replace(squat.load, kilograms=None))))
    assert "a weight that you can lift 8 times at most" in str(_card(page, "squat").dose)


def test_later_doses_have_their_date() -> None:
    """What changes within the period stands on the card, with the weekday and date from which it holds."""
    card = _card(_sheet(plans.plan()), "squat")
    (later_words,) = _row(card, "Later")
    assert later_words.startswith("From Tuesday 1 December 2026: ") and later_words.endswith(" Use 15 kg.")
    assert "6 repetitions" in later_words and "4 rounds" in later_words
    later = plans.items()[1].later[0]
    ends = _card(_sheet(_only("squat", later=(replace(later, dose=None),))), "squat")
    assert _row(ends, "Later") == ["From Tuesday 1 December 2026: do not do this one any more. Ask us how to go on."]


def test_sides_are_spoken_as_this_persons() -> None:
    """[affected side] in the steps, the side to work more on, weight: left and right by name."""
    right = shown(_sheet(plans.plan()))
    left = shown(_sheet(replace(plans.plan(), case=replace(plans.case(), side=Affected("left", both=True)))))
    nobody = shown(_sheet(replace(plans.plan(), case=replace(plans.case(), side=Affected(None)))))
    assert "the heel of your right side over its edge" in right
    assert "the heel of your left side over its edge" in left
    assert "the heel of your affected side over its edge" in nobody
    assert "Put no weight on your right side." in right and "Put no weight on your left side." in left
    assert "affected side" not in right + left
    assert "Work more on your left side. Do 1 more round on that side." in right


def test_no_phrase_is_left_without_its_side() -> None:
    """Every condition, dose and line of prose of the whole sheet knows the side."""
    page = compose_person(plans.plan(), samples.CLINIC, plans.OPTIONS, plans.last_sheet())
    found = list(plans.phrases(page))
    assert any(isinstance(one, Written) for one in found) and any(isinstance(one, InWords) for one in found)
    assert {one.side for one in found if isinstance(one, Written | InWords | DoseInWords)} == {"right"}


def test_only_what_stays_is_on_the_card() -> None:
    """An `avoid if` whose no cannot change is gone; one that is open stays, and what to do instead is asked."""
    card = _card(_sheet(plans.plan()), "heel raise both legs")
    assert _row(card, "Leave it out if") == [
        "The answer to “Is the joint swollen?” is yes or you have a fever, or you are not sure. "
        "Ask us what to do in its place."
    ]
    both = plans.items()[0]
    stays = replace(both, avoids=tuple(replace(one, stays=True) for one in both.avoids))
    first = _row(_card(_sheet(_with(stays)), both.exercise.name), "Leave it out if")[0]
    assert "Do exercise 4 instead." in first


def test_the_line_of_stations_is_the_persons_own_step() -> None:
    """One line for the step they are at; who is held at a lower step is not told to move on."""
    (line,) = _card(_sheet(plans.plan()), "heel raise both legs").stations
    assert [stop.role for stop in line.stops] == ["back", "now", "next"]
    assert line.stops[2].what == "to “Heel raise on one leg”, with a new sheet from us"
    both = plans.items()[0]
    assert both.level is not None
    held = replace(both, level=replace(both.level, level="heel raise one leg", number=2, held=True))
    (line,) = _card(_sheet(_with(held)), "heel raise both legs").stations
    assert [stop.role for stop in line.stops] == ["back", "now"]
    assert line.stops[1].when == "We keep you at this step for now."


def test_the_part_of_the_plan_leads_back_and_on() -> None:
    """The phase somebody is in, with every condition that leads out of it."""
    (line,) = (block for block in _section(_sheet(plans.plan()), "part").blocks if isinstance(block, Stations))
    assert [(stop.role, stop.safety) for stop in line.stops] == [("back", "part/back/1"), ("now", ""), ("next", "")]
    settle = replace(plans.plan(), phase=plans.SETTLE)
    (line,) = (block for block in _section(_sheet(settle), "part").blocks if isinstance(block, Stations))
    assert [stop.role for stop in line.stops] == ["now", "next"]
    assert str(line.stops[1].when).count("**when**") == len(plans.SETTLE.until)


def test_daily_life_is_that_of_the_phase() -> None:
    """What holds in the whole protocol, and what holds in the phase; nothing of another phase."""
    page = _sheet(replace(plans.plan(), phase=plans.SETTLE))
    rows = _rows(_section(page, "daily"))
    assert rows["Not yet"] == ["Climb a ladder.", "Run or jump."]
    assert rows["You may"] == ["Swim.", "Walk indoors."]
    items = [item for block in _section(page, "daily").blocks if isinstance(block, Row) for item in block.lines]
    assert [item.safety for item in items if item.safety] == [
        *("daily/not-yet/1", "daily/not-yet/2", "daily/limit/1", "daily/limit/2", "daily/forbid/1", "daily/bearing"),
    ]
    assert rows["Weight"] == ["Put as much weight on your right side as feels all right, and no more."]
    assert "Run or jump." not in shown(_sheet(plans.plan()))


def test_what_is_needed_is_not_printed_to_who_has_it() -> None:
    """Things are listed only where nobody said what there is."""
    assert "A low, firm step or a stair" in shown_text(_section(_sheet(plans.plan()), "needs"))
    page = _sheet(replace(plans.plan(), items=tuple(replace(item, equipment=()) for item in plans.items())))
    assert "needs" not in {section.id for section in page.sections}


def test_what_changed_and_why() -> None:
    """New, more, finished and the same, each exercise once, with the moves dated after the last sheet as reasons."""
    section = _section(_sheet(plans.plan(), plans.last_sheet()), "changed")
    assert section.head == "What changed since 18 November 2026"
    rows = _rows(section)
    assert list(rows) == ["Your part", "New", "More", "Leave out now", "The same"]
    assert rows["Your part"] == [
        "You are now in part 2: Build strength. "
        "Why: 2 full weeks or more have gone by since the start of this programme. And you walk without a limp."
    ]
    assert rows["New"] == ["Exercise 3: Brisk walk.", "Exercise 4: Seated heel raise."]
    (more,) = rows["More"]
    assert more.startswith(
        "Exercise 2: Squat. It was 10 kg. It is now 12.5 kg. On 22 Nov it became more. Why: in 3 sessions"
    )
    assert rows["Leave out now"] == ["Heel raise on one leg. Exercise 2 (Squat) takes its place."]
    assert rows["The same"] == ["Exercise 1."]


def test_less_is_called_less() -> None:
    """The same two sheets the other way round."""
    before = replace(plans.plan(), as_of=date(2026, 11, 18))
    rows = _rows(_section(_sheet(replace(plans.last_sheet(), as_of=plans.TODAY), before), "changed"))
    assert rows["Less"] == ["Exercise 2: Squat. It was 12.5 kg. It is now 10 kg."]
    assert set(rows["Leave out now"]) == {"Brisk walk.", "Seated heel raise."}


def test_moves_up_to_the_last_sheet_are_no_reason_today() -> None:
    """A move on the very day of the last sheet was on that sheet."""
    last = replace(plans.last_sheet(), as_of=date(2026, 11, 22))
    assert "Why: in 3 sessions" not in shown(_sheet(plans.plan(), last))
    last = replace(plans.last_sheet(), as_of=date(2026, 11, 21))
    assert "Why: in 3 sessions" in shown(_sheet(plans.plan(), last))


def test_nothing_changed_is_said_too() -> None:
    """Two sheets alike; and without an earlier sheet nothing is said to have changed."""
    last = replace(plans.plan(), as_of=plans.TODAY - timedelta(7))
    assert _rows(_section(_sheet(plans.plan(), last), "changed")) == {
        "The same": ["Nothing has changed. Go on as before."]
    }
    assert "changed" not in {section.id for section in _sheet(plans.plan()).sections}
    refused = replace(plans.refused(REFER), as_of=date(2026, 11, 18))
    assert "changed" not in {section.id for section in _sheet(plans.plan(), refused).sections}


def test_a_step_up_is_more_and_a_step_down_is_less() -> None:
    """Where one step of a progression takes the place of another, the move says which way it went."""
    scope, both = plans.PROTOCOL.scope, plans.items()[0]
    assert both.level is not None
    single = scope.exercises["heel raise one leg"]
    on = replace(both, exercise=single, asked=single.name, level=replace(both.level, level=single.name, number=2))
    before = replace(plans.plan(), as_of=date(2026, 11, 18), items=(both,))
    for kind, head in (("up", "More"), ("down", "Less"), ("place", "Changed")):
        move = replace(plans.plan().moves[3], item="calf strength", kind=kind)
        rows = _rows(_section(_sheet(replace(plans.plan(), items=(on,), moves=(move,)), before), "changed"))
        assert list(rows) == [head]
        assert "It takes the place of “Heel raise on both legs”. " in rows[head][0]
        way = {"up": "On 22 Nov you moved on. ", "down": "On 22 Nov you went back. "}.get(kind, "")
        assert f"{way}Why: in 3 sessions in a row" in rows[head][0]


def test_an_exercise_that_comes_back_says_so() -> None:
    """Where another one stood in for it on the last sheet, it is not new: what kept it off is gone."""
    both, seated = plans.items()[0], plans.PROTOCOL.scope.exercises["seated heel raise"]
    before = replace(plans.plan(), as_of=date(2026, 11, 18), items=(replace(both, exercise=seated),))
    rows = _rows(_section(_sheet(replace(plans.plan(), items=(both,)), before), "changed"))
    assert rows == {
        "Changed": [
            "Exercise 1: Heel raise on both legs. It takes the place of “Seated heel raise”. "
            "What kept it off your sheet is no longer so."
        ]
    }


def test_moves_the_other_way_are_no_reason() -> None:
    """Who does less today is not told of a step up on the way, and who is held is told that alone."""
    move = replace(plans.plan().moves[3], kind="up")
    before = replace(plans.plan(), as_of=date(2026, 11, 18))
    today = replace(plans.last_sheet(), as_of=plans.TODAY, moves=(move,))
    assert _rows(_section(_sheet(today, before), "changed"))["Less"] == [
        "Exercise 2: Squat. It was 12.5 kg. It is now 10 kg."
    ]
    both = plans.items()[0]
    assert both.level is not None
    held = replace(both, minutes=Decimal(4), dose=replace(both.dose, rest=None), level=replace(both.level, held=True))
    rows = _rows(_section(_sheet(_with(held), before), "changed"))
    assert rows["Less"] == ["Exercise 1: Heel raise on both legs. We keep you at this step for now."]


def test_the_diary_has_every_date_of_the_period_once() -> None:
    """Real dates, Monday to Sunday together, from today to the day before the next visit."""
    diary = _diary(_sheet(plans.plan()))
    days = [day for week in diary.weeks for day, _ in week.days]
    assert days[0] == "Wed 25" and days[-1] == "Tue 8" and len(days) == 14
    assert [len(week.days) for week in diary.weeks] == [5, 7, 2]
    assert [week.caption for week in diary.weeks] == [
        "Wed 25 Nov to Sun 29 Nov",
        "Mon 30 Nov to Sun 6 Dec",
        "Mon 7 Dec to Tue 8 Dec",
    ]


def test_boxes_are_printed_only_for_what_is_planned() -> None:
    """A box on a date just where the plan has the exercise on that date."""
    page = _sheet(plans.plan())
    boxes = [due for week in _diary(page).weeks for _, due in week.days]
    for at, due in enumerate(boxes):
        day = plans.FIRST + timedelta(at)
        planned = ["1"] * (day in plans.items()[0].dates) + ["3–4"]
        assert list(due) == planned


def test_the_columns_of_the_diary_are_what_the_rules_look_at() -> None:
    """Pain and pain next morning decide moves here; with no rule that looks at them there is no column for them."""
    assert _diary(_sheet(plans.plan())).heads[2:] == ("Pain", "Pain next morning", "Anything to tell us")
    quiet = replace(plans.PROTOCOL, calls=())
    plan = replace(_only("brisk walk"), protocol=quiet, phase=None)
    assert _diary(_sheet(plan)).heads[2:] == ("Anything to tell us",)


def test_a_sheet_is_the_same_twice() -> None:
    """No clock and no chance."""
    assert _sheet(plans.plan(), plans.last_sheet()) == _sheet(plans.plan(), plans.last_sheet())


def _row(card: ExerciseCard[str], head: str) -> list[str]:
    return [item.text for row in (*card.first, *card.rows) if row.head == head for item in row.lines]


def shown_text(section: Section[str]) -> str:
    """Every word of a section."""
    return " ".join(str(one) for one in plans.strings(section))
