"""The other half of each row of the rules: what is not done, what is asked, and what is not forgotten."""

from __future__ import annotations

from decimal import Decimal

import pytest

from protodsl.decide import Plan
from protodsl.decide.plan import REFER, UNANSWERED
from tests.unit.decide.cases import case_text, exercise, moves, names, plan, planned, protocol_text

ASKED = "question torn: Torn?\nquestion sore: Sore?\n  fresh for 1 week\nquestion stiff: Stiff?\n"
EXERCISES = exercise("low") + exercise("middle") + exercise("high")
CLIMB = "progression climb\n{}  level low\n  level middle\n  level high\n"
GOOD = "as given, pain 1, pain next morning 1"


def sheet(declarations: str, lines: str, *answers: str, as_of: str | None = None) -> Plan:
    """The plan of a person with these lines in the case."""
    return plan(protocol_text(ASKED + declarations, lines), case_text("\n".join(answers)), as_of)


def climb(lines: str, *answers: str, head: str = "give climb", as_of: str | None = None) -> list[str]:
    """The moves of three levels with these lines above them."""
    text = CLIMB.format("".join(f"  {one}\n" for one in lines.splitlines()))
    return moves(sheet(EXERCISES + text, head, *answers, as_of=as_of))


def said(*words: str, on: str = "02") -> str:
    return f"on 2026-11-{on}\n" + "\n".join(f"  {one}" for one in words)


def session(days: str, what: str = "climb", how: str = GOOD) -> str:
    """Sessions on one day or (`03-05`) on every day from one to another."""
    return f"session {' to '.join(f'2026-11-{day}' for day in days.split('-'))} {what}: {how}"


def uses(found: Plan) -> dict[str, list[str]]:
    """The kinds of lines that wait for each finding."""
    return {one.finding: sorted({use.kind for use in one.uses}) for one in found.questions}


# Danger signs, cautions, calls.


def test_an_emergency_refers_as_a_red_flag_does() -> None:
    text = protocol_text(EXERCISES, "give low")
    for answer, refused in (("yes", REFER), ("unknown", UNANSWERED), ("no", "")):
        found = plan(text, case_text(said(f"{answer}: chest pain"), answered=False))
        assert (found.refused, names(found)) == (refused, [] if refused else ["low"])


def test_what_keeps_a_sheet_from_being_made_is_asked_first() -> None:
    lines = "red flag if stiff\ngive low if sore"
    text = protocol_text(ASKED + exercise("low") + exercise("high", "avoid if torn"), f"{lines}\ngive high")
    found = plan(text, case_text("", answered=False))
    assert [(one.finding, one.uses[0].kind) for one in found.questions] == [
        ("chest pain", "emergency if"),
        ("stiff", "red flag if"),
        ("torn", "avoid if"),
        ("sore", "give"),
    ]


@pytest.mark.parametrize(("answer", "stays", "asked"), [("yes", True, {}), ("no", False, {}), ("unknown", True, None)])
@pytest.mark.parametrize("place", ["protocol", "phase", "exercise"])
def test_a_caution_wherever_it_stands(place: str, answer: str, stays: bool, asked: dict[str, list[str]] | None) -> None:
    """Nothing in it can grow old, so that only its truth decides whether it is on the sheet."""
    caution = "caution if stiff\n  Mind it.\n"
    if place == "exercise":
        found = sheet(exercise("low", "caution if stiff", "  Mind it."), "give low", said(f"{answer}: stiff"))
        guards = found.items[0].cautions
    else:
        head = (
            f"{caution}give low" if place == "protocol" else "phase one\n  caution if stiff\n    Mind it.\n  give low"
        )
        found = sheet(EXERCISES, head, said(f"{answer}: stiff"))
        guards = found.cautions
    assert [(one.truth.value, one.stays) for one in guards] == [(answer, stays)]
    assert uses(found) == ({"stiff": ["caution"]} if asked is None else {})


@pytest.mark.parametrize("answer", ["yes", "no", "unknown"])
def test_a_call_of_the_phase_is_told_as_one_of_the_protocol(answer: str) -> None:
    found = sheet(EXERCISES, "call if torn\nphase one\n  call if stiff\n  give low", said(f"{answer}: stiff, torn"))
    assert [one.truth.value for one in found.calls] == [answer, answer]
    asked = {"stiff": ["call if"], "torn": ["call if"]}
    assert uses(found) == (asked if answer == "unknown" else {})


# Giving inside a level.


def test_a_give_inside_a_level_is_given_by_a_clear_yes_alone() -> None:
    text = "progression climb\n  level both\n    give low\n    give high if stiff\n"
    for answer, printed in (("yes", ["low", "high"]), ("no", ["low"]), ("unknown", ["low"])):
        found = sheet(EXERCISES + text, "give climb", said(f"{answer}: stiff"))
        assert names(found) == printed
        assert uses(found) == ({"stiff": ["give"]} if answer == "unknown" else {})


# Moving.


def test_every_line_that_waits_is_asked_for() -> None:
    """Up, down, until, back to, add and take off, each by a finding of its own that nobody has answered."""
    findings = "".join(f"question q-{word}: So?\n" for word in ("up", "down", "until", "back", "add", "off"))
    low = exercise("low", "add 1 kg when q-add", "take off 1 kg when q-off", dose="3 x 10, load 5 kg, daily")
    text = CLIMB.format("  up when q-up\n  down when q-down\n")
    head = (
        "phase one\n  give climb\n  until heel raises >= 0 on each side\n"
        "phase two\n  give climb\n  until q-until\n  back to one if q-back\nphase three\n  give climb"
    )
    found = sheet(
        findings + low + exercise("middle") + exercise("high") + text, head, said("heel raises: left 1, right 1")
    )
    assert uses(found) == {
        "q-up": ["up when"],
        "q-down": ["down when"],
        "q-until": ["until"],
        "q-back": ["back to"],
        "q-add": ["add"],
        "q-off": ["take off"],
    }
    assert [one.finding for one in found.questions] == ["q-back", "q-down", "q-off", "q-until", "q-up", "q-add"]


def test_an_unknown_up_stays_however_often_it_is_looked_at() -> None:
    assert [
        one
        for one in climb("up when pain next morning <= 3", session("03-08", how="as given, pain 1"))
        if " up " in one
    ] == []


def test_an_unknown_add_stays() -> None:
    lift = exercise("lift", "add 2.5 kg when pain next morning <= 3", dose="3 x 10, load 5 kg, daily")
    assert [
        one for one in moves(sheet(lift, "give lift", session("03-08", "lift", "as given, pain 1"))) if "add" in one
    ] == []


PHASES = """
phase one
  give low
  until heel raises >= 5 on each side
phase two
  give low
  until heel raises >= 5 on each side
  back to one if {}
phase three
  give low
"""
STRONG = "heel raises: left 9, right 9"


def phases(found: Plan) -> list[str]:
    return [one for one in moves(found) if "phase" in one]


def test_phases_run_on_only_where_nothing_leads_back() -> None:
    """On the first date and after it: no goes on, yes and unknown do not, and unknown leads nobody back."""
    for answer, first in (("no", "three"), ("yes", "two"), ("unknown", "two")):
        found = sheet(EXERCISES, PHASES.format("stiff"), said(STRONG, f"{answer}: stiff"))
        assert phases(found) == [f"02 phase start :  > {first}"], answer
    later = sheet(EXERCISES, PHASES.format("stiff"), said(STRONG), said("unknown: stiff", on="04"))
    assert phases(later) == ["02 phase start :  > two"]
    back = sheet(EXERCISES, PHASES.format("stiff"), said(STRONG), said("yes: stiff", on="04"))
    assert phases(back)[-1] == "04 phase back : two > one"


def test_a_phase_without_until_does_not_end() -> None:
    head = "phase one\n  give low\nphase two\n  give high"
    assert phases(sheet(EXERCISES, head, session("03-05", "low"))) == ["02 phase start :  > one"]


def test_the_last_phase_is_the_last_though_its_until_is_yes() -> None:
    head = "phase one\n  give low\n  until pain <= 3\nphase two\n  give low\n  until pain <= 3"
    assert phases(sheet(EXERCISES, head, session("03-06", "low"))) == [
        "02 phase start :  > one",
        "03 phase : one > two",
    ]


def test_back_to_goes_to_the_phase_that_is_named() -> None:
    head = PHASES.format("torn") + "  back to one if stiff\n"
    found = sheet(EXERCISES, head, said(STRONG, "no: torn, stiff"), said("yes: stiff", on="04"))
    assert phases(found) == ["02 phase start :  > three", "04 phase back : three > one"]


def test_missed_ends_no_streak_of_a_phase() -> None:
    head = "phase one\n  give low\n  until pain <= 3, 2 sessions in a row\nphase two\n  give low"
    found = sheet(EXERCISES, head, session("03", "low"), session("04", "low", "missed"), session("05", "low"))
    assert phases(found)[-1] == "05 phase : one > two"


def test_a_call_begins_its_streak_anew_when_its_phase_comes_back() -> None:
    """Pain above 6 twice in a row, with a phase and its sessions between: not in a row."""
    head = (
        "phase one\n  give low\n  until heel raises >= 5 on each side\n  call if pain > 6, 2 sessions in a row\n"
        "phase two\n  give low\n  back to one if heel raises < 5 on either side"
    )
    lines = (
        said("heel raises: left 1, right 1"), session("03", "low", "as given, pain 8"), said(STRONG, on="04"),
        session("05", "low"), said("heel raises: left 1, right 1", on="06"), session("07", "low", "as given, pain 8"),
    )  # fmt: skip
    found = sheet(EXERCISES, head, *lines)
    assert phases(found)[-1] == "06 phase back : two > one"
    assert [one.truth.value for one in found.calls] == ["no"]
    again = sheet(EXERCISES, head, *lines, session("08", "low", "as given, pain 8"))
    assert [one.truth.value for one in again.calls] == ["yes"]


# One answer moves once.

LIFT = exercise("lift", "add 2.5 kg when heel raises >= 5 on each side", dose="3 x 10, load 5 kg, daily")


def steps(found: Plan) -> list[str]:
    return [one for one in moves(found) if one.split()[1] in ("add", "take")]


def test_a_measurement_adds_once_and_not_where_it_is_older_than_the_item() -> None:
    assert steps(sheet(LIFT, "give lift", said(STRONG), session("03-06", "lift"))) == []
    found = sheet(LIFT, "give lift", said(STRONG, on="03"), session("04-08", "lift"), as_of="09")
    assert steps(found) == ["03 add lift: 5 kg > 7.5 kg"]
    twice = sheet(LIFT, "give lift", said(STRONG, on="03"), said(STRONG, on="05"))
    assert steps(twice) == ["03 add lift: 5 kg > 7.5 kg", "05 add lift: 7.5 kg > 10 kg"]


def test_an_answer_that_led_down_a_level_takes_nothing_off_the_level_below() -> None:
    """It has moved the person once; a newer one may take off."""
    weak = "heel raises: left 1, right 1"
    low = exercise("low", "take off 2.5 kg when heel raises < 3 on either side", dose="3 x 10, load 5 kg, daily")
    text = (
        low
        + exercise("high")
        + ("progression climb\n  down when heel raises < 3 on either side\n  level low\n  level high\n")
    )
    place = "place 2026-11-03 climb: high\n  because seen"
    lines = (said(STRONG), place, said(weak, on="05"), session("06-07"))
    found = sheet(text, "give climb", *lines)
    assert moves(found)[-1] == "05 down climb: high > low"
    assert moves(sheet(text, "give climb", *lines, said(weak, on="08")))[-1] == "08 take off climb: 5 kg > 2.5 kg"


# Start, placing, versions.


def test_a_placing_before_it_is_first_given_stands() -> None:
    head = "phase one\n  give low\n  until heel raises >= 5 on each side\nphase two\n  give climb"
    place = "place 2026-11-03 climb: high\n  because seen"
    found = climb("start at middle if heel raises >= 1 on each side", place, said(STRONG, on="05"), head=head)
    assert found[-1] == "05 given climb:  > climb"
    text = CLIMB.format("")
    assert names(sheet(EXERCISES + text, head, place, said(STRONG, on="05"))) == ["high"]


def test_each_progression_is_placed_in_a_new_version() -> None:
    """L104 for every one that is not, and for one that was placed before the new version only."""
    both = CLIMB.format("") + CLIMB.format("").replace("climb", "stride")
    text = protocol_text(EXERCISES + both, "give climb\ngive stride")
    new = "from 2026-11-10 version 1.0.0\n"
    place = "place 2026-11-{} {}: low\n  because new text\n"

    def codes(*places: str) -> list[str]:
        written = case_text(new + "".join(places)).replace("version 1.0.0\n  started", "version 0.9.0\n  started")
        return [one.code.id for one in planned(text, written)[1]]

    assert codes() == ["L104", "L104"]
    assert codes(place.format("10", "climb")) == ["L104"]
    assert codes(place.format("10", "climb"), place.format("09", "stride")) == ["L104"]
    assert codes(place.format("10", "climb"), place.format("10", "stride")) == []


# Corrections.


def test_what_was_wrong_counts_no_longer_even_where_it_was_the_more_cautious() -> None:
    low = exercise("low", "avoid if torn")
    correction = "corrected 2026-11-02 torn: no\n  because misread"
    assert names(sheet(low, "give low", said("yes: torn"))) == []
    assert names(sheet(low, "give low", said("yes: torn"), correction)) == ["low"]


# Swapping.


def test_what_stands_in_has_its_own_load_without_the_steps_of_the_other() -> None:
    other = exercise("sit", dose="3 x 10, load 2.5 kg, daily")
    lift = exercise(
        "lift", "add 2.5 kg when pain <= 3", "avoid if torn", "  instead sit", dose="3 x 10, load 5 kg, daily"
    )
    lines = (said("no: torn"), session("03", "lift"))
    before = sheet(lift + other, "give lift", *lines)
    assert before.items[0].load is not None and before.items[0].load.kilograms == Decimal("7.5")
    found = sheet(lift + other, "give lift", *lines, said("yes: torn", on="04"))
    (item,) = found.items
    assert item.load is not None
    assert item.exercise.name == "sit"
    assert (item.load.kilograms, item.load.steps) == (Decimal("2.5"), Decimal(0))


def test_left_out_by_the_protocol_or_its_phase_bars_it_as_an_instead_too() -> None:
    stand = exercise("stand", "avoid if torn", "  instead sit") + exercise("sit")
    answers = said("yes: torn")
    assert names(sheet(stand, "phase one\n  give stand", answers)) == ["sit"]
    assert names(sheet(stand, "give sit\nphase one\n  give stand\n  leave out sit", answers)) == []
    mine = (
        "protocol first\n  version 1.0.0\n  review 2026-10-05 by team, next by 2027-10-05\n"
        "  source common practice, no source\n  for adults\n  emergency if chest pain\n  give stand\n  give sit\n"
    )
    text = protocol_text(ASKED + stand + mine, "leave out sit").replace(
        "protocol test protocol\n", "protocol test protocol like first\n"
    )
    assert names(plan(text, case_text(answers))) == []


def test_what_is_given_to_a_person_passes_the_gate_too() -> None:
    stand = exercise("stand", "avoid if torn", "  instead sit") + exercise("sit") + exercise("lie")
    more = "from 2026-11-03 give stand\n  because asked for it\n" + said("{}: torn", on="03")
    for answer, printed in (("no", ["lie", "stand"]), ("yes", ["lie", "sit"]), ("unknown", ["lie", "sit"])):
        assert names(sheet(stand, "give lie", more.format(answer))) == printed


def test_of_two_avoids_whose_chains_both_end_the_first_in_the_text() -> None:
    two = exercise("stand", "avoid if torn", "  instead sit", "avoid if stiff", "  instead lie")
    more = exercise("sit") + exercise("lie")
    assert names(sheet(two + more, "give stand", said("yes: torn, stiff"))) == ["sit"]


def test_sessions_of_a_lower_level_that_is_printed_count_for_none_above() -> None:
    """Two in a row at the level itself, and none while it could not be done."""
    text = exercise("sit") + exercise("stand", "avoid if torn") + exercise("march")
    text += "progression climb\n  up when pain <= 3, 2 sessions in a row\n  level sit\n  level stand\n  level march\n"
    lines = ("place 2026-11-03 climb: stand\n  because seen", said("yes: torn"), session("04-06"))
    assert names(sheet(text, "give climb", *lines)) == ["sit"]
    healed = (*lines, said("no: torn", on="07"), session("08"))
    assert names(sheet(text, "give climb", *healed)) == ["stand"]
    assert moves(sheet(text, "give climb", *healed, session("09")))[-1] == "09 up climb: stand > march"


def test_given_twice_with_two_loads_is_an_error() -> None:
    """One of them has made a step, the other has not."""
    lift = exercise("lift", "add 2.5 kg when pain <= 3", dose="3 x 10, load 5 kg, daily")
    text = protocol_text(lift + "progression climb\n  level lift\n", "give lift\ngive climb")
    assert names(plan(text, case_text(""))) == ["lift"]
    found, said_ = planned(
        text, case_text("from 2026-11-03 leave out climb\n  because tired\n" + session("03", "lift"))
    )
    assert found is not None and not said_
    back = "from 2026-11-03 to 2026-11-04 leave out climb\n  because tired\n" + session("03", "lift")
    found, said_ = planned(text, case_text(back), "2026-11-05")
    assert found is None and [one.code.id for one in said_] == ["L119"]


def test_another_choice_is_the_reason_where_the_condition_holds() -> None:
    both = exercise("walk") + exercise("ride")
    found = sheet(both, "choose 1\n  give walk unless torn\n  give ride", said("no: torn", "chose: ride"))
    assert [(one.asked, one.reasons[0].kind) for one in found.not_given] == [("walk", "choice")]
    torn = sheet(both, "choose 1\n  give walk unless torn\n  give ride", said("yes: torn", "chose: ride"))
    assert [(one.asked, one.reasons[0].kind) for one in torn.not_given] == [("walk", "condition")]


# Weeks.


def test_a_session_of_what_stands_in_is_one_of_the_item() -> None:
    """Written down by the name that is on the sheet: from then on a week without one does not count."""
    table = exercise("table", "dose week 1: 2 x 5", "dose weeks 2 on: 3 x 5", "avoid if torn", "  instead sit")
    other = exercise("sit", "dose week 1: 2 x 4", "dose weeks 2 on: 3 x 4")
    lines = (said("yes: torn"), session("03", "sit", "as given"))
    assert [sheet(table + other, "give table", *lines, as_of=on).items[0].week for on in ("08", "09", "16", "23")] == [
        1, 2, 2, 2,
    ]  # fmt: skip


def test_given_by_two_lines_with_two_doses_is_an_error() -> None:
    """L119; with one dose it is printed once."""
    more = "from 2026-11-03 give low\n  because asked for it\n"
    text = protocol_text(EXERCISES, "give low")
    assert names(plan(text, case_text(more), "2026-11-03")) == ["low"]
    found, said_ = planned(text, case_text(more + "  dose 2 x 4, daily\n"), "2026-11-03")
    assert found is None and [one.code.id for one in said_] == ["L119"]
    same, said_ = planned(text, case_text(more + "  dose 3 x 10, daily\n"), "2026-11-03")
    assert same is not None and not said_


def test_a_leave_out_that_is_over_is_no_reason() -> None:
    """Left out by the phase; the line of the case ended before."""
    out = "from 2026-11-03 to 2026-11-04 leave out low\n  because tired"
    found = sheet(EXERCISES, "give low\nphase one\n  give high\n  leave out low", out, as_of="2026-11-05")
    assert [[reason.kind for reason in one.reasons] for one in found.not_given] == [["leave out"]]
    then = sheet(EXERCISES, "give low\nphase one\n  give high\n  leave out low", out, as_of="2026-11-04")
    assert [[reason.kind for reason in one.reasons] for one in then.not_given] == [["personal"]]


# Two values of one date, and corrections of one of two.


def test_of_two_sessions_of_one_date_the_more_cautious_value_decides_everywhere() -> None:
    """A danger sign, a call, the end of a phase and the way back, an `avoid if`, a caution, a start."""
    two = (session("03", "low", "as given, pain 9"), session("03", "low", "as given, pain 1"))
    for lines in (two, two[::-1]):
        assert sheet(EXERCISES, "red flag if pain > 8\ngive low", *lines).refused == REFER
        found = sheet(EXERCISES, "call if pain > 8\ncaution if pain > 8\n  Mind it.\ngive low", *lines)
        assert [one.truth.value for one in found.calls] == [one.truth.value for one in found.cautions] == ["yes"]
        head = PHASES.format("pain > 8")
        assert phases(sheet(EXERCISES, head, said(STRONG), *lines))[-1] == "03 phase back : two > one"
        ends = "phase one\n  give low\n  until pain <= 3\nphase two\n  give low"
        assert phases(sheet(EXERCISES, ends, *lines)) == ["02 phase start :  > one"]
        avoided = exercise("low") + exercise("stand", "avoid if pain > 8")
        assert names(sheet(avoided, "give low\ngive stand", *lines)) == ["low"]
        given = "give low\ngive high if pain <= 3\ngive middle unless pain > 8"
        assert names(sheet(EXERCISES, given, *lines)) == ["low"]


def test_two_values_of_one_date_hold_on_the_dates_after_it_too() -> None:
    limps = "question limps: Limping?\n  fresh for 1 week\n"
    text = limps + EXERCISES + "progression climb\n  up when not limps\n  level low\n  level high\n"
    two = (session("03", how="part done, limps"), session("03", how="as given, not limps"))
    for lines in (two, two[::-1]):
        found = sheet(text, "give climb", *lines, session("05", how="as given"), as_of="06")
        assert [one for one in moves(found) if " up " in one] == []


def test_one_of_two_values_of_a_session_is_corrected() -> None:
    lines = (session("03"), session("04"), "corrected 2026-11-04 pain: 8\n  because misread")
    found = climb("up when pain <= 3\ndown when pain > 5", *lines)
    assert found[-2:] == ["03 up climb: low > middle", "04 down climb: middle > low"]


def test_the_first_sessions_count_in_a_row_for_the_way_back() -> None:
    head = PHASES.format("pain > 6, 2 sessions in a row").replace(
        ">= 5 on each side\n  back", ">= 20 on each side\n  back"
    )
    lines = (said(STRONG), session("02-03", "low", "as given, pain 8"))
    assert phases(sheet(EXERCISES, head, *lines)) == ["02 phase start :  > two", "03 phase back : two > one"]


def test_an_item_placed_before_is_first_given_when_it_is_given() -> None:
    head = "phase one\n  give low\n  until heel raises >= 5 on each side\nphase two\n  give climb"
    place = "place 2026-11-03 climb: high\n  because seen"
    text = EXERCISES + CLIMB.format("")
    found = sheet(text, head, place, said(STRONG, on="05"))
    assert [str(one.first_given) for one in found.items] == ["2026-11-05"]
    gone = "from 2026-11-07 to 2026-11-08 leave out climb\n  because away"
    back = sheet(text, head, place, said(STRONG, on="05"), gone, as_of="10")
    assert [(str(one.first_given), str(one.since)) for one in back.items] == [("2026-11-05", "2026-11-09")]


def test_one_movement_of_several_is_enough_to_bar() -> None:
    both = exercise("bend", "moves active ankle dorsiflexion to 10 deg, active ankle plantarflexion to 30 deg")
    for line, printed in (
        ("forbid active ankle plantarflexion", []),
        ("forbid active ankle dorsiflexion", []),
        ("limit ankle plantarflexion <= 20 deg", []),
        ("limit ankle plantarflexion <= 30 deg", ["bend"]),
    ):
        assert names(sheet(both, f"phase one\n  {line}\n  give bend")) == printed, line


def test_what_is_asked_is_what_the_line_itself_does_not_know() -> None:
    """An unknown inside a row of sessions is asked though the last session was known, and the other way round."""
    lines = "up when pain <= 3, 2 sessions in a row\ndown when pain > 5, 2 sessions in a row"
    text = EXERCISES + CLIMB.format("".join(f"  {one}\n" for one in lines.splitlines()))
    gap = (session("03", how="as given"), session("04", how="as given, pain 4"))
    assert uses(sheet(text, "give climb", *gap)) == {"pain": ["down when"]}
    known = (session("03-04", how="as given, pain 4"), said("unknown: pain", on="05"))
    assert uses(sheet(text, "give climb", *known)) == {}
    head = (
        "phase one\n  give low\n  until heel raises >= 5 on each side\n"
        "phase two\n  give low\n  until pain <= 3, 2 sessions in a row\n"
        "  back to one if pain > 5, 2 sessions in a row\nphase three\n  give low"
    )
    more = (said(STRONG), *(one.replace("climb", "low") for one in gap))
    assert uses(sheet(EXERCISES, head, *more)) == {"pain": ["back to"]}
    sure = (said(STRONG), *(one.replace("climb", "low") for one in known))
    assert uses(sheet(EXERCISES, head, *sure)) == {}


# Sessions in a row.


def test_in_a_row_counts_sessions_and_no_days_without_one() -> None:
    measured = (said(STRONG, on="03"), said(STRONG, on="04"), said(STRONG, on="05"))
    line = "up when heel raises >= 5 on each side, 2 sessions in a row"
    assert [one for one in climb(line, *measured) if " up " in one] == []
    assert climb(line, measured[0], session("03-04"))[-1] == "04 up climb: low > middle"


def test_two_values_of_one_date_keep_holding_somebody_back() -> None:
    """Limping by one session of the 3rd and not by the other: as long as nothing newer is said, nothing rises."""
    limps = "question limps: Limping?\n  fresh for 1 week\n"
    text = (
        limps
        + EXERCISES
        + ("progression climb\n  up when heel raises >= 5 on each side\n  down when limps\n  level low\n  level high\n")
    )
    two = (session("03", how="part done, limps"), session("03", how="as given, not limps"))
    for lines in (two, two[::-1]):
        for later in (said(STRONG, on="04"), f"{said(STRONG, on='05')}\n{session('05', how='as given')}"):
            found = sheet(text, "give climb", *lines, later)
            assert [one for one in moves(found) if " up " in one] == []
        assert moves(sheet(text, "give climb", *lines, said(STRONG, "no: limps", on="05")))[-1].startswith("05 up")


def test_a_line_that_a_personal_change_leaves_as_it_is_goes_on_with_its_streak() -> None:
    lines = "up when pain <= 3, 3 sessions in a row\ndown when pain > 5"
    change = "from 2026-11-05 change climb\n  {}\n  because so"
    other = climb(lines, session("03-05"), change.format("down when pain > 6"))
    assert other[-1] == "05 up climb: low > middle"
    same = climb(lines, session("03-05"), change.format("up when pain <= 2, 3 sessions in a row"))
    assert [one for one in same if " up " in one] == []


def test_the_last_phase_is_the_last_on_the_first_date_too() -> None:
    head = "phase one\n  give low\n  until heel raises >= 5 on each side\n"
    head += "phase two\n  give low\n  until heel raises >= 5 on each side"
    assert phases(sheet(EXERCISES, head, said(STRONG))) == ["02 phase start :  > two"]


def test_a_line_of_its_own_moves_nobody_up_from_the_highest_level() -> None:
    text = "progression climb\n  level low\n    up when pain <= 3\n  level high\n    up when pain <= 3\n"
    assert moves(sheet(EXERCISES + text, "give climb", session("03-05")))[-1] == "03 up climb: low > high"


def test_what_held_somebody_is_gone_and_the_next_session_moves_him() -> None:
    """A good session whose way was barred moves nobody on a date without a session, neither up nor a load."""
    lift = exercise("lift", "add 2.5 kg when pain <= 3", "take off 2.5 kg when stiff", dose="3 x 10, load 5 kg, daily")
    lines = (session("03", "lift"), said("no: stiff", on="04"))
    assert steps(sheet(lift, "give lift", *lines)) == []
    assert steps(sheet(lift, "give lift", *lines, session("05", "lift"))) == ["05 add lift: 5 kg > 7.5 kg"]
    held = climb("up when pain <= 3\ndown when stiff", session("03"), lines[1])
    assert [one for one in held if " up " in one] == []
    again = climb("up when pain <= 3\ndown when stiff", session("03"), lines[1], session("05"))
    assert again[-1] == "05 up climb: low > middle"


def test_a_streak_does_not_go_on_over_the_time_a_lower_level_was_printed() -> None:
    text = exercise("sit") + exercise("stand", "avoid if torn") + exercise("march")
    text += "progression climb\n  up when pain <= 3, 2 sessions in a row\n  level sit\n  level stand\n  level march\n"
    place = "place 2026-11-03 climb: stand\n  because seen"
    lines = (place, said("no: torn"), session("04"), said("yes: torn", on="05"), said("no: torn", on="06"))
    assert [one for one in moves(sheet(text, "give climb", *lines, session("07"))) if " up " in one] == []
    assert moves(sheet(text, "give climb", *lines, session("07-08")))[-1] == "08 up climb: stand > march"
