"""Edges of the rules: the last day that counts, the bound of a step, one move where two would do, the smallest load."""

from __future__ import annotations

from dataclasses import replace
from decimal import Decimal

import pytest

from protodsl.decide import Plan, decide
from protodsl.dose.one_rep_max import EQUATIONS
from protodsl.units import UNITS, Quantity
from tests.unit.decide.cases import CLINIC, case_text, exercise, moves, names, person, plan, protocol_text
from tests.unit.decide.test_halves import ASKED, EXERCISES, GOOD, STRONG, phases, said, session, sheet, uses

WEAK = "heel raises: left 1, right 1"


def lifted(
    load: str, *answers: str, below: tuple[str, ...] = (), head: str = "give lift", dose: str = "3 x 10"
) -> Plan:
    """The plan of one exercise with a load."""
    return sheet(exercise("lift", *below, dose=f"{dose}, load {load}, daily"), head, *answers)


def kilograms(found: Plan) -> Decimal | None:
    return found.items[0].load.kilograms if found.items and found.items[0].load else None


# How long the last look counts.


@pytest.mark.parametrize(("measured", "up"), [("10", True), ("11", False)])
def test_the_last_session_speaks_against_going_back_for_seven_days(measured: str, up: bool) -> None:
    """Good on the 3rd: a measurement of the 10th lets somebody rise; on the 11th nobody knows any more."""
    text = (
        "progression climb\n  up when heel raises >= 5 on each side\n  down when pain > 5\n  level low\n  level high\n"
    )
    found = sheet(EXERCISES + text, "give climb", session("03"), said(STRONG, on=measured))
    assert (moves(found)[-1] == f"{measured} up climb: low > high") is up
    assert uses(found) == ({} if up else {"pain": ["down when"]})


def test_two_in_a_row_count_for_seven_days_too() -> None:
    head = "call if pain > 6, 2 sessions in a row\ngive low"
    lines = session("03-04", "low", "as given, pain 7")
    for on, truth in (("11", "yes"), ("12", "unknown")):
        assert [one.truth.value for one in sheet(EXERCISES, head, lines, as_of=on).calls] == [truth]


def test_of_an_answer_and_a_session_on_one_date_the_session_is_the_later() -> None:
    """Answers come before sessions: what stood before the session does not hold the phase back, nor end it."""
    head = "phase one\n  give low\n  until pain <= 3\nphase two\n  give low"
    for answer, value, ended in (("8", "1", True), ("1", "8", False)):
        found = sheet(
            EXERCISES, head, said(f"pain: {answer}", on="03"), session("03", "low", f"as given, pain {value}")
        )
        assert (phases(found)[-1] == "03 phase : one > two") is ended


# Done as asked.


def test_a_session_of_everything_has_to_be_enough_of_everything() -> None:
    head = "phase one\n  give low\n  give high\n  until pain <= 3\nphase two\n  give low"
    text = exercise("low", dose="3 x 10, daily") + exercise("high", dose="3 x 12, daily")
    for done, ended in (("3 x 10", False), ("3 x 12", True)):
        found = sheet(text, head, f"session 2026-11-03: {done}, pain 1")
        assert (phases(found)[-1] == "03 phase : one > two") is ended


def test_a_session_of_an_item_of_which_nothing_may_be_done_ends_no_phase() -> None:
    head = "phase one\n  give climb\n  until pain <= 3\nphase two\n  give low"
    text = exercise("low", "avoid if torn") + "progression climb\n  level low\n"
    for answer, ended in (("yes", False), ("no", True)):
        found = sheet(text, head, said(f"{answer}: torn"), session("03"))
        assert (phases(found)[-1] == "03 phase : one > two") is ended


def test_while_a_lower_level_is_printed_its_dose_of_the_first_week_is_what_is_asked() -> None:
    """The item is in its second week; what stands on the sheet is the first week of the level below."""
    low = exercise("low", "dose week 1: 2 x 5", "dose weeks 2 on: 3 x 8", dose="daily")
    high = exercise("high", "avoid if torn")
    head = "phase one\n  give climb\n  until pain <= 3\nphase two\n  give climb"
    text = low + high + "progression climb\n  level low\n  level high\n"
    place = "place 2026-11-03 climb: high\n  because seen"
    for done, ended in (("2 x 5", True), ("2 x 4", False)):
        found = sheet(text, head, said("yes: torn"), place, f"session 2026-11-12 climb: {done}, pain 1")
        assert names(found) == ["low"]
        assert (phases(found)[-1] == "12 phase : one > two") is ended


# One move a date.

BOTH = (
    exercise("low", "add 2.5 kg when pain <= 3", "take off 2.5 kg when pain > 6", dose="3 x 10, load 5 kg, daily")
    + exercise("high", "take off 2.5 kg when pain > 6", "add 2.5 kg when pain <= 3", dose="3 x 10, load 5 kg, daily")
    + "progression climb\n  up when pain <= 3\n  down when pain > 6\n  level low\n  level high\n"
)


def test_up_goes_before_add_and_down_before_take_off() -> None:
    up = sheet(BOTH, "give climb", session("03"))
    assert moves(up)[-1] == "03 up climb: low > high"
    assert [one for one in moves(up) if "add" in one] == []
    down = sheet(BOTH, "give climb", session("03"), session("04", how="as given, pain 8"))
    assert moves(down)[-1] == "04 down climb: high > low"
    assert [one for one in moves(down) if "take off" in one] == []


def test_at_the_highest_level_up_moves_nobody_and_add_goes_on() -> None:
    found = sheet(BOTH, "give climb", session("03-05"))
    assert moves(found)[-2:] == ["04 add climb: 5 kg > 7.5 kg", "05 add climb: 7.5 kg > 10 kg"]


def test_at_the_lowest_level_the_load_may_still_be_taken_off() -> None:
    found = sheet(BOTH, "give climb", session("03", how="as given, pain 8"))
    assert moves(found)[-2:] == ["03 lowest climb: low > low", "03 take off climb: 5 kg > 2.5 kg"]
    again = sheet(BOTH, "give climb", session("03", how="as given, pain 8"), as_of="09")
    assert moves(again) == moves(found)


ADJUST = (
    "adjust load by reps in set 2, for next session", "  0 to 4: take off 2.5 kg", "  5 to 7: same load",
    "  8 or more: add 2.5 kg",
)  # fmt: skip


def test_an_adjusted_load_is_the_one_move_of_its_date() -> None:
    text = exercise("low", *ADJUST, dose="2 x to fatigue, load 5 kg, daily") + exercise("high")
    text += "progression climb\n  up when pain <= 3\n  level low\n  level high\n"
    found = sheet(text, "give climb", session("03", how="9 then 8, load 5 kg, pain 1"))
    assert moves(found)[-1] == "03 adjust climb: 5 kg > 7.5 kg"
    then = sheet(text, "give climb", session("03", how="9 then 6, load 5 kg, pain 1"))
    assert moves(then)[-1] == "03 up climb: low > high"


@pytest.mark.parametrize(
    ("first", "second", "load"),
    [
        ("9 then 9 then 8, load 5 kg", "9 then 9 then 8, load 7.5 kg", "10"),
        ("9 then 9 then 8, load 5 kg", "9 then 9 then 6", "7.5"),
        ("9 then 9 then 8, load 5 kg", "9 then 9 then 2", "5"),
        ("9 then 9 then 8, load 5 kg", "2 then 2", "7.5"),
        ("9 then 9 then 8, load 5 kg", "3 x 2", "7.5"),
        ("9 then 9 then 8", "9 then 9 then 6", "5"),  # what was lifted is not known to be what was due
        ("9 then 9 then 4, load 2 kg", "9 then 9 then 4, load 0 kg", "0"),
    ],
)
def test_an_adjusted_load_goes_on_from_the_last_and_never_below_nothing(first: str, second: str, load: str) -> None:
    """Without a load written down what was due is reckoned with; a set that was not done changes nothing."""
    lines = (session("03", "lift", f"{first}, pain 1"), session("05", "lift", f"{second}, pain 1"))
    third = (ADJUST[0].replace("set 2", "set 3"), *ADJUST[1:])
    found = lifted("5 kg", *lines, below=third, dose="3 x to fatigue")
    assert found.items[0].load is not None and found.items[0].load.exact == Decimal(load)


def test_of_two_sessions_both_have_to_be_as_asked_for_more_load() -> None:
    two = (session("03", "lift", "9 then 8, load 5 kg, pain 1"), session("03", "lift", "8 then 9, load 4 kg, pain 1"))
    found = lifted("5 kg", *two, below=ADJUST, dose="2 x to fatigue")
    assert kilograms(found) == 5 and not [one for one in moves(found) if "adjust" in one]
    both = (two[0], two[1].replace("4 kg", "5 kg"))
    assert kilograms(lifted("5 kg", *both, below=ADJUST, dose="2 x to fatigue")) == Decimal("7.5")


# Steps at their bounds.


def test_a_step_stops_at_its_bound_and_is_told_once() -> None:
    up = lifted("5 kg", session("03-08", "lift"), below=("add 2 kg when pain <= 3, up to 8 kg",))
    assert [one for one in moves(up) if "add" in one] == ["03 add lift: 5 kg > 7 kg", "04 add lift: 7 kg > 8 kg"]
    down = lifted("5 kg", session("03-08", "lift", "as given, pain 8"), below=("take off 2 kg when pain > 6",))
    assert [one.partition(": ")[2] for one in moves(down) if "off" in one] == [
        "5 kg > 3 kg",
        "3 kg > 1 kg",
        "1 kg > 0 kg",
    ]
    assert kilograms(down) == 0


def test_a_step_past_the_other_side_of_its_bound_moves_nothing() -> None:
    """The dose is already past the bound: a step up to it would lower the load, one down to it would raise it."""
    up = lifted("10 kg", session("03-05", "lift"), below=("add 2 kg when pain <= 3, up to 8 kg",))
    assert kilograms(up) == 10 and not [one for one in moves(up) if "add" in one]
    rules = ("take off 1 kg when pain > 6, down to 8 kg",)
    down = lifted("5 kg", session("03-05", "lift", "as given, pain 8"), below=rules)
    assert kilograms(down) == 5 and not [one for one in moves(down) if "off" in one]


def test_a_step_from_a_load_that_nobody_knows_moves_nothing() -> None:
    found = lifted("8RM", session("03-05", "lift"), below=("add 2 kg when pain <= 3",))
    assert (kilograms(found), [one for one in moves(found) if "add" in one]) == (None, [])
    held = sheet(exercise("hold", "add 5 s when pain <= 3", dose="3 x 10, daily"), "give hold", session("03", "hold"))
    assert [one for one in moves(held) if "add" in one] == []
    longer = sheet(
        exercise("hold", "add 5 s when pain <= 3", dose="3 x 1 min, daily"), "give hold", session("03", "hold")
    )
    assert moves(longer)[-1] == "03 add hold: 60 s > 65 s"
    assert str(longer.items[0].dose.volume).count("Decimal('1.08") == 2  # 65 s in minutes


# Loads by what was lifted.


def test_repetitions_that_an_equation_holds_for() -> None:
    """From 1 to 12 (Reynolds JM, Gordon TJ, Robergs RA. J Strength Cond Res 2006;20:584-592)."""
    for counts, load in (("1 then 1", 10), ("12 then 9", Decimal("12.5")), ("13 then 9", None)):
        assert kilograms(lifted("1RM", session("03", "lift", f"{counts}, load 10 kg"))) == load, counts
    ten = session("03", "lift", "10 then 8, load 10 kg")
    for asked, load in (("1RM", Decimal("12.5")), ("12RM", Decimal("7.5")), ("13RM", None)):
        assert kilograms(lifted(asked, ten)) == load, asked


@pytest.mark.parametrize("count", range(1, 13))
def test_a_load_lifted_n_times_is_its_nrm(count: int) -> None:
    """Whatever the equation: the last digit of a division rounds nothing down to the weight below."""
    text = protocol_text(exercise("lift", dose=f"3 x 10, load {count}RM, daily"), "give lift")
    someone = person(text, case_text(session("03", "lift", f"{count} then 1, load 10 kg")))
    (lift,) = someone.case.sessions
    for equation in EQUATIONS:
        for weight in CLINIC.weights:
            case = replace(someone.case, sessions=(replace(lift, load=Quantity(weight, UNITS["kg"])),))
            found = decide(someone.versions, case, replace(CLINIC, one_rep_max=equation)).value
            assert found is not None and kilograms(found) == weight


def test_a_share_that_comes_out_even_is_not_a_hair_less() -> None:
    """10 kg ten times are a 1RM of 13.33 kg by Epley 1985 (row rm_epley_100x10); 75 % of it are 10 kg."""
    assert kilograms(lifted("75 % of 1RM", session("03", "lift", "10 then 8, load 10 kg"))) == 10


def test_a_lift_of_the_first_day_counts() -> None:
    assert kilograms(lifted("10RM", session("02", "lift", "10 then 8, load 10 kg"))) == 10


def test_of_one_date_the_lightest_lift_and_the_fewest_repetitions_stand() -> None:
    heavy, light = "10 then 8, load 10 kg", "10 then 8, load 5 kg"
    for first, second in ((heavy, light), (light, heavy)):
        assert kilograms(lifted("10RM", session("03", "lift", first), session("03", "lift", second))) == 5
    many, few = "10 then 8, load 10 kg", "8 then 9, load 10 kg"
    for first, second in ((many, few), (few, many)):
        assert kilograms(lifted("8RM", session("03", "lift", first), session("03", "lift", second))) == 10
    assert kilograms(lifted("10RM", session("03", "lift", light), session("04", "lift", heavy))) == 10


def test_a_lift_is_of_the_exercise_that_was_lifted() -> None:
    """In a level of two exercises only a session by the name of one of them says which."""
    text = exercise("press", dose="3 x 10, load 10RM, daily") + exercise("pull", dose="3 x 10, load 10RM, daily")
    text += "progression climb\n  level both\n    give press\n    give pull\n"
    by_name = sheet(text, "give climb", session("03", "press", "10 then 8, load 10 kg"))
    assert [one.load.kilograms if one.load else None for one in by_name.items] == [10, None]
    together = sheet(text, "give climb", session("03", "climb", "10 then 8, load 10 kg"))
    assert [one.load.kilograms if one.load else None for one in together.items] == [None, None]


def test_a_measured_weight_of_two_sides_is_the_lower_one() -> None:
    test = "test grip: Grip.\n  answer kg from 0 to 60, each side\n"
    text = protocol_text(test + exercise("lift", dose="3 x 10, load 50 % of grip, daily"), "give lift")
    for written, load in (("left 20 kg, right 30 kg", 10), ("left 30 kg, right 20 kg", 10), ("left 20 kg", None)):
        assert kilograms(plan(text, case_text(said(f"grip: {written}")))) == load, written


def test_which_equation_a_load_comes_from() -> None:
    ten = session("03", "lift", "10 then 8, load 10 kg")
    test = "test strength: Strength.\n  answer kg from 0 to 200\n"
    for load, equation in (("10RM", "epley"), ("50 % of 1RM", "epley"), ("5 kg", None), ("50 % of strength", None)):
        lift = exercise("lift", dose=f"3 x 10, load {load}, daily")
        found = plan(protocol_text(test + lift, "give lift"), case_text(f"{said('strength: 20 kg')}\n{ten}"))
        assert found.items[0].load is not None and found.items[0].load.equation == equation, load
    unknown = lifted("10RM").items[0].load
    assert unknown is not None and unknown.equation is None


# Limits on the load.


@pytest.mark.parametrize(
    ("limit", "load", "kilograms_"),
    [
        ("<= 10 kg", "10 kg", "10"),
        ("< 10 kg", "10 kg", "7.5"),
        ("< 10 kg", "7.5 kg", "7.5"),
        ("< 10 kg", "12 kg", "7.5"),
        ("<= 11 kg", "12 kg", "10"),
        ("< 11 kg", "12 kg", "10"),
        ("<= 6 kg", "6 kg", "6"),
        ("< 1 kg", "5 kg", "0"),
        ("<= 10 kg", "8RM up to 10 kg", None),
        ("< 10 kg", "8RM up to 10 kg", "none"),
        ("<= 10 kg", "8RM up to 11 kg", "none"),
        ("<= 10 kg", "8RM", "none"),
        ("<= 10 kg", "light band", "none"),
        ("<= 10 kg", "light band up to 8 kg", None),
    ],
)
def test_a_limit_on_the_load(limit: str, load: str, kilograms_: str | None) -> None:
    """Lowered to what there is under the limit; a load that nobody knows is printed only where it is bound ("none": it
    is not)."""
    found = lifted(load, head=f"phase one\n  limit load {limit}\n  give lift")
    if kilograms_ == "none":
        assert not found.items and found.not_given[0].reasons[-1].kind == "load limit"
    else:
        assert kilograms(found) == (None if kilograms_ is None else Decimal(kilograms_))


def test_a_known_load_is_lowered_to_up_to_and_to_the_strictest_limit() -> None:
    ten = session("03", "lift", "10 then 8, load 10 kg")
    assert kilograms(lifted("10RM up to 8 kg", ten)) == Decimal("7.5")
    assert kilograms(lifted("10RM up to 20 kg", ten)) == 10
    for limits, load in (
        (("<= 8", "<= 6"), "5"),
        (("<= 6", "<= 8"), "5"),
        (("<= 5", "< 10"), "5"),
        (("< 5", "<= 5"), "2.5"),
    ):
        lines = "".join(f"  limit load {one} kg\n" for one in limits)
        found = lifted("10RM", ten, head=f"phase one\n{lines}  give lift")
        assert kilograms(found) == Decimal(load)
        strictest = found.items[0].load
        assert strictest is not None and strictest.capped_by is not None
        text = protocol_text(
            ASKED + exercise("lift", dose="3 x 10, load 10RM, daily"), f"phase one\n{lines}  give lift"
        )
        said_ = text[strictest.capped_by.start : strictest.capped_by.end]
        assert said_ == f"limit load {min(limits, key=lambda one: (int(one.split()[1]), one))} kg"


# Where it stands.


def test_left_out_says_by_which_line_of_the_case() -> None:
    text = protocol_text(ASKED + exercise("stand", "avoid if torn", "  instead sit") + exercise("sit"), "give stand")
    lines = (
        "from 2026-11-03 leave out stand\n  because one\n"
        "from 2026-11-04 to 2026-11-20 leave out sit\n  because two\n"
        "from 2026-11-15 leave out sit\n  because three"
    )
    case = case_text(f"{said('yes: torn')}\n{lines}")
    found = plan(text, case, "2026-11-10")
    assert [case[one.span.start : one.span.end].strip() for one in found.not_given[0].reasons] == [
        "from 2026-11-03 leave out stand"
    ]
    only_sit = case.replace("2026-11-03 leave out stand", "2026-12-03 leave out stand")
    reasons = plan(text, only_sit, "2026-11-10").not_given[0].reasons
    assert [case[one.span.start : one.span.end].strip() for one in reasons if one.kind == "leave out"] == [
        "from 2026-11-04 to 2026-11-20 leave out sit"
    ]


# What is asked.


def test_nothing_is_asked_of_what_is_not_given_now() -> None:
    text = EXERCISES + "progression climb\n  up when stiff\n  level low\n  level high\n"
    assert uses(sheet(text, "give climb")) == {"stiff": ["up when"]}
    out = "from 2026-11-03 leave out climb\n  because travelling"
    assert uses(sheet(text, "give climb\ngive low", out, said("no: sore", on="04"))) == {}


def test_what_a_session_left_open_is_asked_and_what_it_answered_is_not() -> None:
    text = EXERCISES + "progression climb\n  up when pain <= 3\n  down when pain > 5\n  level low\n  level high\n"
    assert uses(sheet(text, "give climb")) == {"pain": ["down when", "up when"]}
    assert uses(sheet(text, "give climb", session("03", how="as given, pain 4"))) == {}
    assert uses(sheet(text, "give climb", session("03", how="as given"))) == {"pain": ["down when", "up when"]}
    assert uses(sheet(text, "give climb", session("03", how="as given, pain 4"), as_of="11")) == {
        "pain": ["down when", "up when"]
    }


def test_two_values_of_one_date_leave_a_step_unasked_where_either_would_do() -> None:
    """Pain 1 and 8 on one date: for going on it is a no, for going back a yes, and nothing is unknown."""
    text = EXERCISES + "progression climb\n  up when pain <= 3\n  down when pain > 5\n  level low\n  level high\n"
    two = (session("03", "low", GOOD), session("03", "low", "as given, pain 8, pain next morning 8"))
    assert uses(sheet(text, "give climb", *two)) == {}
