"""Replay of dated answers and sessions: every row of the rules, each with a case that would come out otherwise."""

from __future__ import annotations

from datetime import date

from protodsl.decide import latest_date
from tests.unit.decide.cases import case_text, day, exercise, moves, names, person, plan, protocol_text

EXERCISES = exercise("low", "works calf") + exercise("middle", "works calf") + exercise("high", "works calf")
CLIMB = """\
progression climb
  works calf
  down when pain > 5
  up when pain <= 3
  level low
  level middle
  level high
"""


def climb(*lines: str, text: str = CLIMB, more: str = "", head: str = "give climb") -> list[str]:
    """The moves of a progression of three levels, given from the first day on."""
    return moves(plan(protocol_text(EXERCISES + text, f"{head}\n{more}"), case_text("\n".join(lines))))


def levels(found: list[str]) -> list[str]:
    """Only the moves between levels."""
    return [one for one in found if one.split()[1] in ("up", "down", "lowest")]


def climb_levels(*lines: str, text: str = CLIMB) -> list[str]:
    return levels(climb(*lines, text=text))


THREE_IN_A_ROW = CLIMB.replace("up when pain <= 3", "up when pain <= 3, 3 sessions in a row")


# Today.


def test_the_sheet_is_of_the_latest_date_of_an_answer_a_session_or_a_placing() -> None:
    """`next visit`, notes and the ends of personal changes never count."""
    protocol = protocol_text(EXERCISES + CLIMB, "give climb")
    text = """
on 2026-11-04
  pain: 2
from 2026-11-05 to 2026-12-24 leave out climb
  because travelling
note 2026-12-01 called
next visit 2026-12-20
"""
    assert latest_date(person(protocol, case_text(text)).case) == day("04")
    session = text + "session 2026-11-07 climb: as given\n"
    assert latest_date(person(protocol, case_text(session)).case) == day("07")
    placed = session + "place 2026-11-09 climb: middle\n  because seen\n"
    assert latest_date(person(protocol, case_text(placed)).case) == day("09")
    assert latest_date(person(protocol, case_text("")).case) == day("02")


def test_a_correction_is_of_the_date_it_corrects() -> None:
    protocol = protocol_text(EXERCISES + CLIMB, "give climb")
    text = "on 2026-11-04\n  pain: 2\ncorrected 2026-11-04 pain: 3\n  because misread\n"
    assert latest_date(person(protocol, case_text(text)).case) == day("04")


# Order in a day.


def test_sessions_are_at_the_level_held_that_morning() -> None:
    """The session of the first day is done before anybody holds a level: it moves nobody up."""
    assert climb_levels("session 2026-11-02 climb: as given, pain 1") == []
    assert climb_levels("session 2026-11-03 climb: as given, pain 1") == ["03 up climb: low > middle"]


def test_a_first_session_that_hurts_counts_for_going_back() -> None:
    """Any session counts for down; nobody moves before the next date."""
    text = CLIMB.replace("level low", "start at middle if heel raises >= 1 on each side\n  level low")
    first = "on 2026-11-02\n  heel raises: left 5, right 5\nsession 2026-11-02 climb: as given, pain 8\n"
    assert climb_levels(first, text=text) == []
    assert climb_levels(first, "on 2026-11-03\n  unknown: pain next morning", text=text) == [
        "03 down climb: middle > low"
    ]


def test_answers_of_a_date_come_before_its_sessions() -> None:
    """Heel raises measured on the same date let the session count."""
    text = CLIMB.replace("up when pain <= 3", "up when pain <= 3 and heel raises >= 5 on each side")
    lines = "session 2026-11-03 climb: as given, pain 1\non 2026-11-03\n  heel raises: left 6, right 6\n"
    assert climb_levels(lines, text=text) == ["03 up climb: low > middle"]


def test_down_is_looked_at_before_up() -> None:
    text = CLIMB.replace("down when pain > 5", "down when pain > 2").replace(
        "level low", "start at middle if heel raises >= 1 on each side\n  level low"
    )
    lines = "on 2026-11-02\n  heel raises: left 5, right 5\nsession 2026-11-03 climb: as given, pain 3"
    assert climb_levels(lines, text=text) == ["03 down climb: middle > low"]


def test_one_move_of_a_progression_a_date() -> None:
    lines = "session 2026-11-03 climb: as given, pain 1\nsession 2026-11-03 climb: as given, pain 2"
    assert climb_levels(lines) == ["03 up climb: low > middle"]


# Rising needs a clear no.


def test_an_unknown_down_holds() -> None:
    """The value of the next morning is missing: nothing rises until there is a session that has it."""
    text = CLIMB.replace("down when pain > 5", "down when pain next morning > pain + 1")
    assert climb_levels("session 2026-11-03 climb: as given, pain 1", text=text) == []
    both = "session 2026-11-04 climb: as given, pain 1, pain next morning 1"
    assert climb_levels("session 2026-11-03 climb: as given, pain 1", both, text=text) == ["04 up climb: low > middle"]


def test_an_unknown_take_off_holds_the_load_and_the_level() -> None:
    text = CLIMB.replace("level low", "level low\n    take off 1 kg when pain next morning > 4")
    lines = "session 2026-11-03 climb: as given, pain 1"
    assert climb_levels(lines, text=text) == []
    assert climb_levels(lines + ", pain next morning 1", text=text) == ["03 up climb: low > middle"]


def test_without_any_down_nothing_holds() -> None:
    text = CLIMB.replace("  down when pain > 5\n", "")
    assert climb_levels("session 2026-11-03 climb: as given, pain 1", text=text) == ["03 up climb: low > middle"]


# One answer moves once.


def test_one_answer_moves_once() -> None:
    """A measurement that lets somebody rise does so once; the next level needs another."""
    text = CLIMB.replace("up when pain <= 3", "up when heel raises >= 5 on each side")
    text = text.replace("down when pain > 5", "down when heel raises < 2 on either side")
    measured = "on 2026-11-03\n  heel raises: left 6, right 6"
    assert climb_levels(measured, "session 2026-11-04 to 2026-11-09 climb: as given", text=text) == [
        "03 up climb: low > middle"
    ]
    again = "on 2026-11-08\n  heel raises: left 6, right 6"
    assert climb_levels(measured, "session 2026-11-04 to 2026-11-07 climb: as given", again, text=text) == [
        "03 up climb: low > middle",
        "08 up climb: middle > high",
    ]


def test_an_answer_from_before_the_start_moves_nobody_up() -> None:
    text = CLIMB.replace("up when pain <= 3", "up when heel raises >= 5 on each side")
    text = text.replace("down when pain > 5", "down when heel raises < 2 on either side")
    lines = "on 2026-11-02\n  heel raises: left 6, right 6\nsession 2026-11-03 climb: as given"
    assert climb_levels(lines, text=text) == []


def test_a_down_that_is_still_yes_keeps_blocking_up() -> None:
    """Down by a measurement; the sessions after it are good, and the measurement still says down."""
    text = CLIMB.replace("down when pain > 5", "down when heel raises < 5 on either side")
    lines = [
        "on 2026-11-03\n  heel raises: left 9, right 9",
        "session 2026-11-04 climb: as given, pain 1",
        "on 2026-11-06\n  heel raises: left 9, right 3",
        "session 2026-11-07 to 2026-11-09 climb: as given, pain 1",
    ]
    assert climb_levels(*lines, text=text) == ["04 up climb: low > middle", "06 down climb: middle > low"]
    better = "on 2026-11-10\n  heel raises: left 9, right 9\nsession 2026-11-10 climb: as given, pain 1"
    assert climb_levels(*lines, better, text=text)[-1] == "10 up climb: low > middle"


# Done as asked.


def test_less_than_asked_lets_nobody_rise() -> None:
    for done in ("part done", "2 x 10", "3 x 9", "10 then 10 then 9", "10 then 10"):
        assert climb_levels(f"session 2026-11-03 climb: {done}, pain 1") == [], done
    for done in ("as given", "3 x 10", "4 x 12", "10 then 11 then 10", "3 x 10 to 12"):
        assert climb_levels(f"session 2026-11-03 climb: {done}, pain 1") == ["03 up climb: low > middle"], done


def test_any_session_counts_for_down() -> None:
    lines = ("session 2026-11-03 climb: as given, pain 1", "session 2026-11-04 climb: part done, pain 7")
    assert climb_levels(*lines)[-1] == "04 down climb: middle > low"


def test_the_load_that_was_due_has_to_be_lifted() -> None:
    text = CLIMB.replace("level low", "level low\n    dose load 5 kg")
    for load, up in (
        ("", False),
        (", load 4 kg", False),
        (", load 5 kg", True),
        (", load 12 lb", True),
        (", load 11 lb", False),
    ):
        found = climb_levels(f"session 2026-11-03 climb: 3 x 10{load}, pain 1", text=text)
        assert bool(found) is up, load


def test_both_sides_have_to_be_done() -> None:
    text = CLIMB.replace("level low", "level low\n    dose 3 x 10, each side")
    for done, up in (
        ("left 3 x 10, right 3 x 10", True),
        ("left 3 x 10", False),
        ("left 3 x 10, right 3 x 8", False),
        ("3 x 10", True),
    ):
        assert bool(climb_levels(f"session 2026-11-03 climb: {done}, pain 1", text=text)) is up, done
    text = CLIMB.replace("level low", "level low\n    dose 3 x 10, affected side")
    assert climb_levels("session 2026-11-03 climb: left 3 x 2, right 3 x 10, pain 1", text=text)
    assert not climb_levels("session 2026-11-03 climb: left 3 x 10, right 3 x 2, pain 1", text=text)


def test_a_value_of_a_session_not_done_as_asked_ends_no_phase() -> None:
    phases = "phase one\n  give climb\n  until pain <= 3\nphase two\n  give climb"
    bad = climb("session 2026-11-03 climb: part done, pain 1", head=phases)
    assert not [one for one in bad if " phase : " in one]
    good = climb("session 2026-11-03 climb: as given, pain 1", head=phases)
    assert "03 phase : one > two" in good


# Two sessions a day, streaks.


def test_two_sessions_a_day_all_pass_for_up_any_for_down() -> None:
    one_bad = "session 2026-11-03 climb: as given, pain 1\nsession 2026-11-03 climb: as given, pain 4"
    assert climb_levels(one_bad) == []
    both_good = "session 2026-11-03 climb: as given, pain 1\nsession 2026-11-03 climb: as given, pain 3"
    assert climb_levels(both_good) == ["03 up climb: low > middle"]
    lines = "session 2026-11-04 climb: as given, pain 1\nsession 2026-11-04 climb: as given, pain 7"
    assert climb_levels(both_good, lines)[-1] == "04 down climb: middle > low"


def test_two_sessions_on_one_date_are_one_in_a_row() -> None:
    lines = "session 2026-11-03 climb: as given, pain 1\nsession 2026-11-03 climb: as given, pain 1"
    assert climb_levels(lines, "session 2026-11-04 climb: as given, pain 1", text=THREE_IN_A_ROW) == []


def test_a_rising_streak_is_ended_by_no_and_by_unknown_and_not_by_missed() -> None:
    for between, up in (
        ("missed", True),
        ("as given, pain 4", False),
        ("as given", False),
        ("part done, pain 1", False),
    ):
        lines = (
            "session 2026-11-03 to 2026-11-04 climb: as given, pain 1",
            f"session 2026-11-05 climb: {between}",
            "session 2026-11-06 climb: as given, pain 1",
        )
        assert bool(climb_levels(*lines, text=THREE_IN_A_ROW)) is up, between


def test_a_streak_does_not_cross_levels() -> None:
    found = climb_levels("session 2026-11-03 to 2026-11-08 climb: as given, pain 1", text=THREE_IN_A_ROW)
    assert found == ["05 up climb: low > middle", "08 up climb: middle > high"]


def test_a_falling_streak_with_an_unknown_inside_is_unknown_never_no() -> None:
    """Two in a row above 5: with an unknown between, nothing falls and nothing rises."""
    text = CLIMB.replace("down when pain > 5", "down when pain next morning > 5, 2 sessions in a row")
    known = "session 2026-11-03 climb: as given, pain 1, pain next morning 1"
    unknown = "session 2026-11-04 climb: as given, pain 1"
    assert climb_levels(known, unknown, text=text) == ["03 up climb: low > middle"]
    good = "session 2026-11-05 climb: as given, pain 1, pain next morning 1"
    assert climb_levels(known, unknown, good, text=text) == ["03 up climb: low > middle"]
    more = "session 2026-11-06 climb: as given, pain 1, pain next morning 1"
    assert climb_levels(known, unknown, good, more, text=text)[-1] == "06 up climb: middle > high"


def test_missed_ends_no_falling_streak() -> None:
    text = CLIMB.replace("down when pain > 5", "down when pain > 5, 2 sessions in a row")
    lines = (
        "session 2026-11-03 climb: as given, pain 1",
        "session 2026-11-04 climb: as given, pain 7",
        "session 2026-11-05 climb: missed",
        "session 2026-11-06 climb: as given, pain 7",
    )
    assert climb_levels(*lines, text=text)[-1] == "06 down climb: middle > low"


def test_for_phases_the_sessions_of_any_item_count() -> None:
    head = "phase one\n  give low\n  give high\n  until pain <= 3, 2 sessions in a row\nphase two\n  give low"
    lines = "session 2026-11-03 low: as given, pain 1\nsession 2026-11-04 high: as given, pain 1"
    found = climb(lines, head=head)
    assert "04 phase : one > two" in found


# Values of a session.


def test_a_session_finding_counts_only_from_its_own_line() -> None:
    """Pain of another item's session on the same date says nothing of this one's."""
    lines = "session 2026-11-03 climb: as given\nsession 2026-11-03 middle: as given, pain 1"
    assert climb_levels(lines) == []


def test_pain_asked_at_a_visit_counts_for_that_date() -> None:
    """A visit without a session: the answers of that date are looked at together."""
    assert climb_levels("on 2026-11-03\n  pain: 2") == ["03 up climb: low > middle"]
    text = CLIMB.replace("up when pain <= 3", "up when pain <= 3 and pain next morning <= 3")
    morning = "session 2026-11-03 climb: as given, pain 4, pain next morning 2"
    assert climb_levels(morning, "on 2026-11-04\n  pain: 2", text=text) == []


def test_a_good_session_moves_nobody_on_a_day_without_one() -> None:
    """Unknown in the session stays unknown; the days after it bring nothing new."""
    text = CLIMB.replace("up when pain <= 3", "up when pain <= 3 and pain next morning <= 3")
    lines = (
        "session 2026-11-03 climb: as given, pain 4, pain next morning 2\nsession 2026-11-04 climb: as given, pain 2"
    )
    assert climb_levels(lines, "on 2026-11-06\n  heel raises: left 5, right 5", text=text) == []


# Start.


def test_the_highest_start_that_is_yes_on_the_first_date() -> None:
    text = CLIMB.replace(
        "  level low",
        "  start at high if heel raises >= 20 on each side\n"
        "  start at middle if heel raises >= 10 on each side\n  level low",
    )
    assert "02 start climb:  > high" in climb("on 2026-11-02\n  heel raises: left 20, right 20", text=text)
    assert "02 start climb:  > middle" in climb("on 2026-11-02\n  heel raises: left 20, right 12", text=text)
    assert "02 start climb:  > low" in climb("on 2026-11-02\n  heel raises: left 20", text=text)
    later = climb("on 2026-11-03\n  heel raises: left 20, right 20", text=text)
    assert levels(later) == []


def test_phases_run_on_on_the_first_date_and_then_one_a_date() -> None:
    head = """
phase one
  give low
  until heel raises >= 5 on each side
phase two
  give low
  until heel raises >= 6 on each side
phase three
  give low
  until heel raises >= 30 on each side
phase four
  give low
"""
    found = climb("on 2026-11-02\n  heel raises: left 7, right 7", head=head)
    assert "02 phase start :  > three" in found
    found = climb("on 2026-11-03\n  heel raises: left 7, right 7", "on 2026-11-05\n  pain: 1", head=head)
    assert [one for one in found if "phase :" in one] == ["03 phase : one > two"]
    again = climb(
        "on 2026-11-03\n  heel raises: left 7, right 7", "on 2026-11-05\n  heel raises: left 7, right 7", head=head
    )
    assert again[-1] == "05 phase : two > three"


PHASES = """
phase one
  give low
  until weeks since start >= 1
phase two
  give climb
  until heel raises >= 20 on each side
  until pain <= 3
  back to one if pain > 6, 2 sessions in a row
phase three
  give climb
  back to one if pain > 8
"""


def test_two_until_lines_are_and() -> None:
    lines = [
        "session 2026-11-09 low: as given, pain 2",
        "session 2026-11-10 climb: as given, pain 2",
        "on 2026-11-11\n  heel raises: left 20, right 20",
    ]
    assert climb(*lines, head=PHASES)[-1].endswith("phase : two > three")
    worse = [*lines[:1], "session 2026-11-10 climb: as given, pain 4", lines[2]]
    assert not [one for one in climb(*worse, head=PHASES) if "three" in one]


def test_time_alone_ends_a_phase_on_the_day_it_is_over() -> None:
    """Nothing was written down on the seventh day; the move is of that day whenever it is asked for."""
    for last in ("09", "15", "30"):
        text = f"on 2026-11-{last}\n  pain: 1"
        assert "09 phase : one > two" in climb(text, head=PHASES)


def test_back_only_by_back_to_and_the_level_is_kept() -> None:
    lines = [
        "session 2026-11-10 climb: as given, pain 1",
        "session 2026-11-11 to 2026-11-12 climb: as given, pain 7",
        "session 2026-11-13 low: as given, pain 1",
    ]
    text = CLIMB.replace("down when pain > 5", "down when pain > 9")
    found = climb(*lines, text=text, head=PHASES)
    assert "12 phase back : two > one" in found
    assert "10 up climb: low > middle" in found
    later = plan(protocol_text(EXERCISES + text, PHASES), case_text("\n".join(lines)), "16")
    assert "16 phase : one > two" in moves(later)  # a newer week was completed
    assert "16 back climb:  > climb" in moves(later)
    assert names(later) == ["middle"]


def test_back_is_looked_at_before_on_and_holds_while_unknown() -> None:
    head = PHASES.replace("back to one if pain > 6, 2 sessions in a row", "back to one if pain next morning > 6")
    lines = ["session 2026-11-10 climb: as given, pain 2", "on 2026-11-11\n  heel raises: left 20, right 20"]
    assert not [one for one in climb(*lines, head=head) if "three" in one]
    known = ["session 2026-11-10 climb: as given, pain 2, pain next morning 2", lines[1]]
    assert [one for one in climb(*known, head=head) if "three" in one]


# The lowest level.


def test_at_the_lowest_level_down_holds_and_tells() -> None:
    protocol = protocol_text(EXERCISES + CLIMB, "give climb")
    found = plan(protocol, case_text("session 2026-11-03 climb: as given, pain 7"))
    assert moves(found)[-1] == "03 lowest climb: low > low"
    assert [one.kind for one in found.told] == ["lowest"]
    assert names(found) == ["low"]


# Weeks.

TABLE = exercise("table", "works calf", "dose weeks 1 to 2: 2 x 5", "dose weeks 3 to 4: 3 x 8", dose="daily")


def week_of(*lines: str, as_of: str | None = None, item: str = "give table", text: str = TABLE) -> int | None:
    """The week of the one exercise on the sheet; None where it is not on it."""
    found = plan(protocol_text(text, item), case_text("\n".join(lines)), as_of)
    return found.items[0].week if found.items else None


def test_week_one_is_the_first_seven_days() -> None:
    assert [week_of(as_of=on) for on in ("08", "09", "15", "16")] == [1, 2, 2, 3]


def test_past_its_end_the_item_is_no_longer_given() -> None:
    assert week_of(as_of="29") == 4
    found = plan(protocol_text(TABLE, "give table"), case_text(""), "30")
    assert not found.items
    assert [one.reasons[-1].kind for one in found.not_given] == ["table ended"]
    assert [one.kind for one in found.told] == ["ended"]


def test_once_sessions_are_written_down_a_week_without_one_does_not_count() -> None:
    assert week_of("session 2026-11-03 table: as given", as_of="16") == 2
    assert week_of("session 2026-11-03 table: as given\nsession 2026-11-12 table: as given", as_of="16") == 3
    assert week_of("session 2026-11-03 table: missed", as_of="16") == 1


def test_weeks_hold_while_down_is_yes_or_unknown() -> None:
    text = TABLE + "progression climb\n  down when pain > 5, 2 sessions in a row\n  level table\n"
    good = "session 2026-11-03 to 2026-11-08 climb: as given, pain 1\n"
    assert week_of(good, as_of="09", item="give climb", text=text) == 2
    unknown = good.replace("2026-11-08", "2026-11-07") + "session 2026-11-08 climb: as given\n"
    assert week_of(unknown, as_of="09", item="give climb", text=text) == 1
    assert (
        week_of(unknown, "session 2026-11-10 to 2026-11-11 climb: as given, pain 1", item="give climb", text=text) == 1
    )
    cleared = (unknown, "session 2026-11-10 to 2026-11-12 climb: as given, pain 1")
    assert week_of(*cleared, item="give climb", text=text, as_of="13") == 2


def test_coming_back_starts_at_week_one() -> None:
    lines = "from 2026-11-20 to 2026-11-22 leave out table\n  because travelling"
    assert week_of(lines, as_of="19") == 3
    assert week_of(lines, as_of="21") is None
    assert week_of(lines, as_of="23") == 1


def test_conditions_count_completed_weeks() -> None:
    head = "give low if weeks since start >= 2"
    text = protocol_text(EXERCISES, head)
    assert not plan(text, case_text(""), "15").items
    assert names(plan(text, case_text(""), "16")) == ["low"]


# Placing, versions, corrections.


def test_replay_begins_anew_at_a_placing() -> None:
    lines = [
        "session 2026-11-03 to 2026-11-04 climb: as given, pain 1",
        "place 2026-11-05 climb: low\n  because seen in the clinic",
        "session 2026-11-05 climb: as given, pain 1",
    ]
    assert climb(*lines)[-1] == "05 place climb: high > low"
    assert climb(*lines, "session 2026-11-06 climb: as given, pain 1")[-1] == "06 up climb: low > middle"


def test_a_session_of_the_date_of_the_placing_is_at_the_placed_level() -> None:
    lines = [
        "place 2026-11-05 climb: middle\n  because seen",
        "session 2026-11-05 to 2026-11-07 climb: as given, pain 1",
    ]
    assert levels(climb(*lines, text=THREE_IN_A_ROW)) == ["07 up climb: middle > high"]


def test_what_was_wrong_is_corrected_in_every_date_after_it() -> None:
    lines = ["session 2026-11-03 climb: as given, pain 1", "session 2026-11-04 climb: as given, pain 2"]
    right = "corrected 2026-11-03 pain: 7\n  because misread"
    assert climb_levels(*lines, right) == ["03 lowest climb: low > low", "04 up climb: low > middle"]


def test_a_version_begins_and_replay_restarts_at_the_place() -> None:
    protocol = protocol_text(EXERCISES + CLIMB, "give climb")
    case = case_text(
        "session 2026-11-03 to 2026-11-04 climb: as given, pain 1\n"
        "from 2026-11-10 version 1.0.0\nplace 2026-11-10 climb: middle\n  because the text has changed\n"
        "session 2026-11-10 to 2026-11-11 climb: as given, pain 1\n"
    ).replace("version 1.0.0\n  started", "version 0.9.0\n  started")
    found = plan(protocol, case)
    assert moves(found) == ["10 place climb: high > middle", "11 up climb: middle > high"]


# Every move keeps its reasons.


def test_a_move_keeps_its_date_condition_values_and_line() -> None:
    protocol = protocol_text(EXERCISES + CLIMB, "give climb")
    found = plan(protocol, case_text("session 2026-11-03 climb: as given, pain 2"))
    (up,) = [one for one in found.moves if one.kind == "up"]
    assert protocol[up.span.start : up.span.end] == "up when pain <= 3"
    (value,) = up.deciding
    assert (value.finding, str(value.value), value.date) == ("pain", "2", date(2026, 11, 3))
    assert up.condition is not None and up.streak == 1


def test_a_level_put_in_by_a_personal_change_moves_nobody() -> None:
    """The person stays on the level of that name, which now is another step from the bottom."""
    lines = [
        "session 2026-11-03 climb: as given, pain 1",
        "from 2026-11-05 change climb",
        "  level half way: low, after low",
        "  because the step was too high",
        "session 2026-11-06 climb: as given, pain 8",
    ]
    assert levels(climb(*lines)) == ["03 up climb: low > middle", "06 down climb: middle > half way"]


def test_a_changed_line_begins_its_streak_anew_and_the_others_go_on() -> None:
    lines = [
        "session 2026-11-03 to 2026-11-04 climb: as given, pain 1",
        "from 2026-11-05 change low",
        "  dose 2 x 4, daily",
        "  because tired",
        "session 2026-11-05 climb: as given, pain 1",
    ]
    assert levels(climb(*lines, text=THREE_IN_A_ROW)) == ["05 up climb: low > middle"]
    changed = [
        *lines[:1],
        "from 2026-11-05 change climb",
        "  up when pain <= 2, 3 sessions in a row",
        lines[3],
        lines[4],
    ]
    assert levels(climb(*changed, text=THREE_IN_A_ROW)) == []


def test_a_week_that_turns_on_the_date_of_an_unknown_does_not_turn() -> None:
    """Nothing held the week that morning; what is written down of the same date does, until a clear no."""
    text = TABLE + "progression climb\n  down when pain > 5\n  level table\n"
    good = "session 2026-11-03 to 2026-11-08 climb: as given, pain 1\n"
    for that_day, expected in (("as given", 1), ("as given, pain 8", 1), ("as given, pain 1", 2)):
        lines = f"{good}session 2026-11-09 climb: {that_day}"
        assert week_of(lines, item="give climb", text=text) == expected, that_day
    later = f"{good}session 2026-11-09 climb: as given\nsession 2026-11-10 climb: as given, pain 1"
    assert week_of(later, item="give climb", text=text, as_of="10") == 1
    assert week_of(later, item="give climb", text=text, as_of="11") == 2


def test_a_week_that_is_over_and_held_is_not_forgotten() -> None:
    """A second week passes without a session; the first one still counts once nothing holds it."""
    text = TABLE + "progression climb\n  down when pain > 5\n  level table\n"
    lines = (
        "session 2026-11-03 climb: as given, pain 1",
        "session 2026-11-08 climb: as given",
        "session 2026-11-17 climb: as given, pain 1",
    )
    assert week_of(*lines, item="give climb", text=text, as_of="17") == 1
    assert week_of(*lines, item="give climb", text=text, as_of="18") == 2


def test_of_several_starts_the_highest_counts_whatever_their_order() -> None:
    low, high = "start at middle if heel raises >= 1 on each side", "start at high if heel raises >= 2 on each side"
    for first, second in ((low, high), (high, low)):
        text = CLIMB.replace("  level low", f"  {first}\n  {second}\n  level low")
        assert "02 start climb:  > high" in climb("on 2026-11-02\n  heel raises: left 5, right 5", text=text)
    lowest = CLIMB.replace("  level low", "  start at low if heel raises >= 1 on each side\n  level low")
    found = plan(
        protocol_text(EXERCISES + lowest, "give climb"), case_text("on 2026-11-02\n  heel raises: left 5, right 5")
    )
    assert [one.condition is not None for one in found.moves if one.kind == "start"] == [True]


def test_a_start_leans_to_caution_where_two_sessions_differ() -> None:
    text = CLIMB.replace("  level low", "  start at high if pain <= 3\n  level low")
    for second, level in (("pain 2", "high"), ("pain 6", "low")):
        lines = f"session 2026-11-02 middle: as given, pain 1\nsession 2026-11-02 high: as given, {second}"
        assert f"02 start climb:  > {level}" in climb(lines, text=text), second


def test_a_level_of_two_exercises_needs_both() -> None:
    """A session of one exercise alone is not the level; both on one date are, and so is the progression's name."""
    text = CLIMB.replace("level low", "level low\n    give low\n    give high")
    one, other = "session 2026-11-03 low: as given, pain 1", "session 2026-11-03 high: as given, pain 1"
    assert climb_levels(one, text=text) == []
    assert climb_levels(one, other, text=text) == ["03 up climb: low > middle"]
    assert climb_levels(one, other.replace("as given", "part done"), text=text) == []
    assert climb_levels("session 2026-11-03 climb: 3 x 10, pain 1", text=text) == ["03 up climb: low > middle"]
    assert climb_levels("session 2026-11-03: as given, pain 1", text=text) == ["03 up climb: low > middle"]


def test_one_answer_leads_back_once() -> None:
    """The answer that led back is still yes when the phase ends again: it holds there and leads back no second time."""
    head = """
phase one
  give low
  until days since phase start >= 3
phase two
  give low
  until heel raises >= 5 on each side
  back to one if heel raises < 3 on either side
phase three
  give low
"""
    text = protocol_text(EXERCISES, head)
    lines = "on 2026-11-06\n  heel raises: left 2, right 9"
    found = [one for one in moves(plan(text, case_text(lines), "20")) if "phase" in one]
    assert found == [
        "02 phase start :  > one",
        "05 phase : one > two",
        "06 phase back : two > one",
        "09 phase : one > two",
    ]
    again = f"{lines}\non 2026-11-12\n  heel raises: left 2, right 9"
    assert moves(plan(text, case_text(again), "12"))[-1] == "12 phase back : two > one"
    better = f"{lines}\non 2026-11-12\n  heel raises: left 5, right 9"
    assert moves(plan(text, case_text(better), "12"))[-1] == "12 phase : two > three"


def test_a_streak_ends_a_phase_on_the_date_of_a_session_only() -> None:
    """Two good sessions, and what leads back not known until the day after: the next session ends the phase."""
    head = """
phase one
  give low
  until pain <= 3, 2 sessions in a row
phase two
  give low
  until pain <= 3, 2 sessions in a row
  back to one if heel raises < 3 on either side
phase three
  give low
"""
    text = protocol_text(EXERCISES, head)
    lines = "session 2026-11-03 to 2026-11-06 low: as given, pain 1\non 2026-11-07\n  heel raises: left 9, right 9"
    found = [one for one in moves(plan(text, case_text(lines))) if "phase" in one]
    assert found == ["02 phase start :  > one", "04 phase : one > two"]
    more = f"{lines}\nsession 2026-11-08 low: as given, pain 1"
    assert moves(plan(text, case_text(more)))[-1] == "08 phase : two > three"
