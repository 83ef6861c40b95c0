"""Conditions decided for one person: freshness, sides, arithmetic between them, change, time, derived findings."""

from __future__ import annotations

from datetime import date, timedelta
from decimal import Decimal

import pytest

from protodsl.decide.evaluate import evaluate
from protodsl.decide.terms import Moment
from protodsl.decide.truth import NO, UNKNOWN, YES, Truth
from protodsl.decide.values import SESSION
from protodsl.model.case import Affected, Observation, Value
from protodsl.model.condition import Condition
from protodsl.units import UNITS, Quantity
from tests.unit.decide.people import DAY, condition_of, decided, moment, said

TEXT = """\
question limps: Limping?
  fresh for 1 week
question torn: Torn?
question swollen: Swollen?
  answer yes or no, each side
question pain: Pain?
  answer 0 to 10
  fresh for one session
question pain next morning: Pain the next morning?
  answer 0 to 10
  fresh for one session
question checked: Checked?
  fresh for 6 months
test reach: Reach.
  answer cm from -10 to 60, each side
  fresh for 4 weeks
test walk: Walking time.
  answer s from 0 to 60, each side
  better lower
test squats: Squats.
  answer count from 0 to 60, each side
question work: Work?
  answer one of sitting, standing, lifting
question operation: Operation?
  answer date
finding stage
  early if torn
  late if squats >= 20 on each side
  otherwise middle
finding calm
  yes if not limps
"""


def number(value: str, unit: str | None = None) -> Quantity:
    return Quantity(Decimal(value), UNITS[unit] if unit else None)


def both(at: Moment, finding: str, left: str, right: str, unit: str, day: date = DAY) -> None:
    said(at, finding, number(left, unit), "left", day)
    said(at, finding, number(right, unit), "right", day)


def at(written: str, side: Affected | None = None, today: date = DAY) -> tuple[Condition, Moment]:
    condition, findings = condition_of(TEXT, written)
    return condition, moment(findings, today, side)


Answer = tuple[str, Value] | tuple[str, Value, str | None] | tuple[str, Value, str | None, int]


def truth(written: str, *answers: Answer, side: Affected | None = None, today: date = DAY) -> Truth:
    """The truth with some answers: finding, value, side, days ago."""
    condition, now = at(written, side, today)
    full = [(one[0], one[1], one[2] if len(one) > 2 else None, one[3] if len(one) > 3 else 0) for one in answers]
    for finding, value, where, ago in sorted(full, key=lambda one: -one[3]):
        said(now, finding, value, where, today - timedelta(days=ago))
    return decided(condition, now).truth


@pytest.mark.parametrize(("ago", "expected"), [(0, YES), (7, YES), (8, UNKNOWN), (30, UNKNOWN)])
def test_older_than_fresh_allows_is_unknown(ago: int, expected: Truth) -> None:
    """`fresh for 1 week`: a value seven days old still counts, one day more and it does not."""
    assert truth("limps", ("limps", True, None, ago)) is expected


def test_a_month_is_a_calendar_month() -> None:
    """`fresh for 6 months` from the last of August ends with February."""
    condition, now = at("checked", today=date(2027, 2, 28))
    said(now, "checked", True, day=date(2026, 8, 31))
    assert decided(condition, now).truth is YES
    now.date = date(2027, 3, 1)
    assert decided(condition, now).truth is UNKNOWN


def test_a_later_unknown_overrides() -> None:
    assert truth("torn", ("torn", False, None, 3), ("torn", None, None, 1)) is UNKNOWN
    assert truth("torn", ("torn", None, None, 3), ("torn", False, None, 1)) is NO


def test_one_session_counts_for_seven_days_outside() -> None:
    assert truth("pain > 3", ("pain", number("5"), None, 7)) is YES
    assert truth("pain > 3", ("pain", number("5"), None, 8)) is UNKNOWN


def test_each_and_either_side() -> None:
    yes_no = (("swollen", True, "left"), ("swollen", False, "right"))
    assert truth("swollen on each side", *yes_no) is NO
    assert truth("swollen on either side", *yes_no) is YES
    assert truth("swollen on each side", ("swollen", True, "left")) is UNKNOWN
    assert truth("swollen on either side", ("swollen", True, "left")) is YES
    assert truth("swollen on the left side", ("swollen", True, "left")) is YES
    assert truth("swollen on the right side", ("swollen", True, "left")) is UNKNOWN


def test_each_side_keeps_its_own_date() -> None:
    """The left value has grown old, the right one has not."""
    answers = (("reach", number("10", "cm"), "left", 29), ("reach", number("10", "cm"), "right", 28))
    assert truth("reach >= 5 cm on the right side", *answers) is YES
    assert truth("reach >= 5 cm on the left side", *answers) is UNKNOWN


def test_affected_and_other() -> None:
    answers = (("swollen", True, "left"), ("swollen", False, "right"))
    assert truth("swollen on the affected side", *answers, side=Affected("left")) is YES
    assert truth("swollen on the other side", *answers, side=Affected("left")) is NO
    assert truth("swollen on the affected side", *answers, side=Affected("right", True)) is NO
    assert truth("swollen on the affected side", *answers, side=Affected(None)) is UNKNOWN
    assert truth("symmetry of squats >= 1 %", side=Affected(None)) is UNKNOWN


@pytest.mark.parametrize(
    ("written", "expected"),
    [
        # affected (right) 18, other 20
        ("symmetry of squats >= 90 %", YES),
        ("symmetry of squats > 90 %", NO),
        ("symmetry of squats > 100 % on the left side", YES),
        ("symmetry of squats >= 90 % on each side", YES),
        ("difference of squats > 1", YES),
        ("difference of squats = 2", YES),
        ("difference of squats < 0 on the left side", YES),
    ],
)
def test_symmetry_and_difference(written: str, expected: Truth) -> None:
    """Affected / unaffected x 100 %, unaffected - affected; with a side, that side against its opposite."""
    answers = (("squats", number("20", "count"), "left"), ("squats", number("18", "count"), "right"))
    assert truth(written, *answers) is expected


def test_lower_is_better_turns_both_round() -> None:
    """Ten seconds against eight is 80 % of the speed, and two seconds to make good."""
    answers = (("walk", number("8", "s"), "left"), ("walk", number("10", "s"), "right"))
    assert truth("symmetry of walk = 80 %", *answers) is YES
    assert truth("difference of walk = 2 s", *answers) is YES


def test_a_third_is_not_rounded() -> None:
    """One of three is less than 33.34 % and more than 33.33 %; two thirds of 90 are 60 exactly."""
    third = (("squats", number("3", "count"), "left"), ("squats", number("1", "count"), "right"))
    assert truth("symmetry of squats > 33.33 %", *third) is YES
    assert truth("symmetry of squats < 33.34 %", *third) is YES
    assert truth("symmetry of squats > 33.333333 %", *third) is YES


def test_division_by_zero_is_unknown() -> None:
    answers = (("squats", number("0", "count"), "left"), ("squats", number("5", "count"), "right"))
    assert truth("symmetry of squats >= 90 %", *answers) is UNKNOWN
    assert truth("difference of squats < 0", *answers) is YES


def test_a_negative_divisor() -> None:
    """5 against -10 is -50 %, not more than 0."""
    answers = (("reach", number("-10", "cm"), "left"), ("reach", number("5", "cm"), "right"))
    assert truth("symmetry of reach < 0 %", *answers) is YES


def test_decided_in_the_unit_that_was_written() -> None:
    """2 in are exactly 5.08 cm (international yard and pound, 1959)."""
    assert truth("reach >= 2 in on the left side", ("reach", number("5.08", "cm"), "left")) is YES
    assert truth("reach >= 2 in on the left side", ("reach", number("5.07", "cm"), "left")) is NO
    assert truth("reach >= 50.8 mm on the left side", ("reach", number("2", "in"), "left")) is YES


def test_change_since_the_start_and_since_last_time() -> None:
    answers = [("squats", number(value, "count"), "left", ago) for value, ago in (("10", 20), ("14", 10), ("12", 0))]
    assert truth("change of squats since start = 2 on the left side", *answers) is YES
    assert truth("change of squats since last time = -2 on the left side", *answers) is YES
    assert truth("change of squats since start = 0 on the left side", answers[0]) is YES
    assert truth("change of squats since last time >= 0 on the left side", answers[0]) is UNKNOWN


def test_unknown_between_two_values_is_passed_over_by_change() -> None:
    answers = (("squats", number("10", "count"), "left", 9), ("squats", None, "left", 5),
               ("squats", number("13", "count"), "left", 0))  # fmt: skip
    assert truth("change of squats since last time = 3 on the left side", *answers) is YES


@pytest.mark.parametrize(("days", "expected"), [(13, NO), (14, YES), (20, YES)])
def test_completed_weeks(days: int, expected: Truth) -> None:
    condition, now = at("weeks since start >= 2", today=DAY + timedelta(days=days))
    assert decided(condition, now).truth is expected


def test_weeks_since_a_date() -> None:
    assert truth("weeks since operation >= 6", ("operation", DAY - timedelta(days=42))) is YES
    assert truth("weeks since operation >= 6", ("operation", DAY - timedelta(days=41))) is NO
    assert truth("weeks since operation < 6") is UNKNOWN
    assert truth("days since operation < 0", ("operation", DAY + timedelta(days=1))) is YES


def test_a_choice() -> None:
    assert truth("work is sitting", ("work", "sitting")) is YES
    assert truth("work is not sitting", ("work", "lifting")) is YES
    assert truth("work is one of (sitting, standing)", ("work", "lifting")) is NO
    assert truth("work is not sitting") is UNKNOWN


def test_rows_of_a_derived_finding() -> None:
    """A later row wins only where every row above it is a clear no; an unknown above makes it unknown."""
    strong = (("squats", number("25", "count"), "left"), ("squats", number("25", "count"), "right"))
    assert truth("stage is late", *strong, ("torn", False)) is YES
    assert truth("stage is late", *strong) is UNKNOWN
    assert truth("stage is early", *strong, ("torn", True)) is YES
    assert truth("stage is middle", ("torn", False), ("squats", number("3", "count"), "left")) is YES
    assert truth("stage is middle", ("torn", False)) is UNKNOWN


def test_no_row_and_no_otherwise_is_unknown() -> None:
    assert truth("calm", ("limps", False)) is YES
    assert truth("calm", ("limps", True)) is UNKNOWN


def test_at_least_two() -> None:
    written = "at least 2 of (torn, limps, pain > 3)"
    assert truth(written, ("torn", True), ("limps", True)) is YES
    assert truth(written, ("torn", False), ("limps", False)) is NO
    assert truth(written, ("torn", True), ("limps", False)) is UNKNOWN


def test_another_finding_with_an_amount() -> None:
    written = "pain next morning > pain + 1"
    assert truth(written, ("pain", number("2")), ("pain next morning", number("4"))) is YES
    assert truth(written, ("pain", number("2")), ("pain next morning", number("3"))) is NO
    assert truth(written, ("pain", number("2"))) is UNKNOWN


def test_the_values_that_decided_and_those_that_are_missing() -> None:
    """Of `or` only what was yes decided; of an unknown `and` only what nobody knows is asked."""
    condition, now = at("torn or limps")
    said(now, "torn", True)
    said(now, "limps", False)
    assert [one.finding for one in decided(condition, now).deciding] == ["torn"]
    condition, now = at("torn and limps and swollen on the left side")
    said(now, "torn", True)
    found = decided(condition, now)
    assert [(one.finding, one.side) for one in found.unknown] == [("limps", None), ("swollen", "left")]
    assert not found.deciding


def test_a_stale_value_is_kept_as_evidence() -> None:
    condition, now = at("limps")
    said(now, "limps", True, day=DAY - timedelta(days=8))
    (one,) = decided(condition, now).unknown
    assert (one.stale, one.value, one.date) == (True, True, DAY - timedelta(days=8))


def test_of_two_values_on_one_date_the_more_cautious_decides() -> None:
    """Two sessions with pain 2 and 6: whether to go on is answered with no, whether to go back with yes."""
    condition, now = at("pain > 4")
    for value in ("2", "6"):
        now.values.record(Observation("pain", None, number(value), DAY), SESSION)
    assert evaluate(condition, now, YES).truth is YES
    assert evaluate(condition, now, NO).truth is NO
    condition, _ = at("not (pain > 4)")
    assert evaluate(condition, now, YES).truth is YES
    assert evaluate(condition, now, NO).truth is NO


def test_a_doubtful_value_lets_nobody_rise() -> None:
    """The value of a session that was not done as asked can hold somebody back, and cannot let anybody go on."""
    condition, now = at("pain <= 4")
    now.values.record(Observation("pain", None, number("2"), DAY), SESSION, doubtful=True)
    assert evaluate(condition, now, NO).truth is YES
    now.rising = True
    assert evaluate(condition, now, NO).truth is UNKNOWN
    condition, _ = at("pain > 4")
    assert evaluate(condition, now, NO).truth is NO


def unknown_of(written: str, *answers: Answer, side: Affected | None = None) -> list[tuple[str, str | None]]:
    """What nobody knows of a condition."""
    condition, now = at(written, side)
    for one in answers:
        said(now, one[0], one[1], one[2] if len(one) > 2 else None)
    return [(one.finding, one.side) for one in decided(condition, now).unknown]


def test_what_is_asked_where_arithmetic_has_no_answer() -> None:
    zero = (("squats", number("0", "count"), "left"), ("squats", number("5", "count"), "right"))
    assert unknown_of("symmetry of squats >= 90 %", *zero) == [("squats", "right"), ("squats", "left")]
    assert unknown_of("symmetry of squats >= 90 %", zero[0]) == [("squats", "right")]
    assert unknown_of("symmetry of squats >= 90 %", side=Affected(None)) == [("squats", None)]
    assert unknown_of("reach >= 5 cm on the affected side", side=Affected(None)) == [("reach", None)]
    assert unknown_of("change of squats since last time > 1 on the left side", zero[0]) == [("squats", "left")]
    assert unknown_of("weeks since operation >= 6") == [("operation", None)]


def test_the_date_of_time_that_has_passed_is_when_so_many_weeks_were_completed() -> None:
    condition, now = at("weeks since start >= 1", today=DAY + timedelta(days=16))
    (passed,) = decided(condition, now).deciding
    assert (str(passed.value), passed.date) == ("2 weeks", DAY + timedelta(days=14))


def test_doubt_spreads_through_arithmetic() -> None:
    """A doubtful side makes the symmetry doubtful, and a clear no stays a no."""
    for written, expected in (("symmetry of squats >= 90 %", UNKNOWN), ("symmetry of squats > 100 %", NO),
                              ("difference of squats <= 0", UNKNOWN), ("difference of squats > 0", NO)):  # fmt: skip
        condition, now = at(written)
        said(now, "squats", number("20", "count"), "left")
        now.values.record(Observation("squats", "right", number("20", "count"), DAY), SESSION, doubtful=True)
        now.rising = True
        assert evaluate(condition, now, NO).truth is expected, written


def test_a_row_that_two_values_of_one_date_decide_otherwise_is_unknown() -> None:
    """Torn by one session and not by the other: neither the first row nor those below it are known."""
    for written in ("stage is early", "stage is middle", "stage is not early"):
        condition, now = at(written)
        for value in (True, False):
            now.values.record(Observation("torn", None, value, DAY), SESSION)
        said(now, "squats", number("3", "count"), "left")
        assert evaluate(condition, now, YES).truth is UNKNOWN
        assert evaluate(condition, now, NO).truth is UNKNOWN


def test_one_doubtful_value_of_two_lets_nobody_rise() -> None:
    condition, now = at("pain <= 4")
    for doubtful in (False, True):
        now.values.record(Observation("pain", None, number("2"), DAY), SESSION, doubtful)
    assert evaluate(condition, now, NO).truth is YES
    now.rising = True
    assert evaluate(condition, now, NO).truth is UNKNOWN
