"""Minutes, days and jumps: what is said of a dose, and what is left alone."""

from __future__ import annotations

from dataclasses import replace
from decimal import Decimal

import pytest

from protodsl.model.clinic import Limits
from tests.unit.check.saying import CLINIC, PAIN, checked, codes, exercise, messages, protocol

CALF = "target calf: calf\n"


def dosed(*lines: str) -> str:
    """One exercise with these dose lines, given by a protocol."""
    first, *rest = lines
    return exercise("heel raise", *rest, dose=f"dose {first}") + protocol("give heel raise")


@pytest.mark.parametrize(
    ("dose", "budget", "said"),
    [
        ("10 x 60 s, rest 60 s, daily", 19, False),
        ("10 x 60 s, rest 60 s, daily", 18, True),
        ("5 x 60 s, each side, daily", 10, False),
        ("5 x 60 s, each side, daily", 9, True),
        ("10 min, twice a day", 20, False),
        ("10 min, twice a day", 19, True),
        ("3 x to fatigue, daily", 1, False),
    ],
)
def test_a_day_over_the_budget(dose: str, budget: int, said: bool) -> None:
    """Sets, rests between them, both sides and times a day count; what cannot be timed does not."""
    text = exercise(dose=f"dose {dose}") + protocol(f"budget {budget} min a day", "give heel raise")
    assert bool(messages(text, "D701")) is said


def test_days_are_spread_before_they_are_summed() -> None:
    """Two exercises of 15 minutes on 3 days a week each share their days; what is daily comes on top."""
    text = exercise("a", dose="dose 15 min, 3 days a week") + exercise("b", dose="dose 15 min, daily")
    (message,) = messages(text + protocol("budget 29 min a day", "give a", "give b"), "D701")
    assert message == "a day of `calf` takes up to 30 min in week 1, and the budget is 29 min"


@pytest.mark.parametrize(
    ("doses", "said"),
    [
        (("3 x 8, load 10 kg, 3 days a week",), False),
        (("3 x 8, load 10 kg, 4 days a week",), True),
        (("3 x 8, load 10 kg, daily",), True),
        (("3 x 8, load 10 kg, every other day",), False),
        (("3 x 8, load body weight, daily",), False),
        (("3 x 8, daily",), False),
        (("3 x 8, effort 8, daily",), True),
        (("3 x 8, effort 4, daily",), False),
        (("3 x 8, 2 reps in reserve, daily",), True),
        (("3 x 15, load 4 kg, lower 3 s, twice a day",), False),
        (("3 x 8, load 10 kg, 3 days a week", "3 x 8, load 10 kg, 3 days a week"), False),
        (("3 x 8, load 10 kg, 3 days a week", "3 x 8, load 10 kg, 2 days a week"), False),
    ],
)
def test_strength_on_two_days_running(doses: tuple[str, ...], said: bool) -> None:
    """Lowering alone is published as daily work (Alfredson H et al. Am J Sports Med 1998;26:360-366)."""
    names = [f"exercise{letter}" for letter in "ab"[: len(doses)]]
    own = "".join(exercise(name, "works calf", dose=f"dose {dose}") for name, dose in zip(names, doses, strict=True))
    assert bool(messages(CALF + own + protocol(*(f"give {name}" for name in names)), "D702")) is said


def test_levels_of_one_progression_do_not_meet() -> None:
    """A person is at one level at a time, so two levels on other days are no clash; the second by itself may be."""
    text = (
        PAIN + CALF
        + exercise("a", "works calf", dose="dose 3 x 8, load 10 kg, 3 days a week")
        + exercise("b", "works calf", dose="dose 3 x 8, load 10 kg, 2 days a week")
        + "progression steps\n  level a\n    up when pain <= 3\n  level b\n"
        + protocol("give steps")
    )  # fmt: skip
    assert codes(text) == []


@pytest.mark.parametrize(
    ("rows", "percent"),
    [
        (("load 4 kg", "load 6 kg"), None),
        (("load 4 kg", "load 6.5 kg"), "62.5"),
        (("load 6 kg", "load 4 kg"), None),
        (("load 10 lb", "load 7 kg"), "54.3"),
        (("load 40 % of 1RM", "load 70 % of 1RM"), "75"),
        (("load 12RM", "load 5RM"), None),
        (("load 2 kg", "load 12RM"), None),
    ],
)
def test_a_jump_of_the_load(rows: tuple[str, str], percent: str | None) -> None:
    """10 lb are 4.5359237 kg (international pound), so 7 kg are 54.3 % more; loads of two kinds are not compared."""
    first, second = rows
    found = messages(dosed("3 x 5, 3 days a week", f"dose week 1: {first}", f"dose weeks 2 on: {second}"), "D703")
    wanted = f"in week 2 the load of `heel raise` rises by {percent} %, and this clinic allows 50 %"
    assert found == ([wanted] if percent else [])


@pytest.mark.parametrize(
    ("rows", "percent"),
    [
        (("3 x 10, 2 days a week", "3 x 10, 3 days a week"), None),
        (("3 x 10, 2 days a week", "3 x 11, 3 days a week"), "65"),
        (("3 x 10 s, daily", "3 x 20 s, daily"), "100"),
        (("3 x 10, daily", "3 x 20 s, daily"), None),
    ],
)
def test_a_jump_of_the_work(rows: tuple[str, str], percent: str | None) -> None:
    """A week's repetitions, or its time under load; the two are not compared with each other."""
    first, second = rows
    found = messages(dosed("rest 60 s", f"dose week 1: {first}", f"dose weeks 2 on: {second}"), "D704")
    assert len(found) == (1 if percent else 0)
    assert all(f"rises by {percent} % a week" in message for message in found)


def test_without_limits_nothing_jumps() -> None:
    text = dosed("3 x 5, daily", "dose week 1: load 1 kg", "dose weeks 2 on: load 90 kg")
    clinic = replace(CLINIC, limits=Limits(load_rise_percent=None, volume_rise_percent=Decimal(1)))
    assert [one.code.id for one in checked(text, clinic=clinic)] == []


@pytest.mark.parametrize(
    ("often", "said"),
    [
        ("3 days a week, rest day between", False),
        ("3 to 4 days a week, rest day between", True),
        ("daily, rest day between", True),
        ("rest day between", False),
        ("every other day", False),
    ],
)
def test_rest_days_need_room(often: str, said: bool) -> None:
    """Of 7 days in a circle at most 3 are all apart: the largest independent set of a cycle of 7 is 7 // 2."""
    assert bool(messages(dosed(f"3 x 5, {often}"), "D707")) is said


def test_what_is_done_in_the_clinic_needs_no_days() -> None:
    assert messages(dosed("3 x 5"), "D705")
    assert not messages(dosed("3 x 5", "supervised"), "D705")


@pytest.mark.parametrize(
    ("gives", "said"),
    [
        (("give heel raise", "give heel raise", "  dose 2 x 5, daily"), True),
        (("give heel raise", "give heel raise"), False),
        (("give heel raise", "give heel raise", "  dose 3 x 12, daily"), False),
        (("give heel raise if ill", "give heel raise unless ill", "  dose 2 x 5, daily"), False),
        (("give heel raise if pain > 3", "give heel raise if pain < 3", "  dose 2 x 5, daily"), False),
        (("give heel raise if pain > 3", "give heel raise if pain > 5", "  dose 2 x 5, daily"), True),
        (("choose 1", "  give heel raise", "  give heel raise", "    dose 2 x 5, daily"), False),
    ],
)
def test_two_doses_at_one_time(gives: tuple[str, ...], said: bool) -> None:
    text = PAIN + "question ill: Are you ill?\n" + exercise() + protocol(*gives)
    assert bool(messages(text, "D709")) is said


def test_two_phases_may_differ() -> None:
    phases = ("phase a", "  give heel raise", "  until weeks since start >= 2", "phase b", "  give heel raise")
    assert codes(exercise() + protocol(*phases, "    dose 2 x 5, daily")) == []


@pytest.mark.parametrize(
    ("lines", "said"),
    [
        (("3 x 10, daily", "set 1: 10 reps", "set 3: 10 reps"), False),
        (("3 x 10, daily", "set 1: 10 reps, load 5 kg"), False),
        (("3 x 10, daily", "set 4: 10 reps"), True),
        (("3 x 10, daily", "set 1: 9 reps"), True),
        (("3 x 10, daily", "set 3: to fatigue"), True),
        (("3 to 4 x 8 to 12, daily", "set 4: 12 reps"), False),
        (("3 to 4 x 8 to 12, daily", "set 4: 13 reps"), True),
        (("4 x to fatigue, daily", "set 1: 10 reps"), False),
        (("12 then 10 then 8, daily", "set 3: 8 reps"), False),
        (("12 then 10 then 8, daily", "set 3: 10 reps"), True),
        (("12 then 10 then 8, daily", "set 4: 8 reps"), True),
        (("3 x 10, load 5 kg, daily", "set 1: load 5 kg"), False),
        (("3 x 10, load 5 kg, daily", "set 1: load 2.5 kg"), True),
        (("daily", "dose week 1: 3 x 10", "dose weeks 2 on: 2 x 10", "set 3: 10 reps"), True),
        (("3 x 10, daily", "adjust load by reps in set 3, for next session", "  0 or more: same load"), False),
        (("3 x 10, daily", "adjust load by reps in set 3, for set 4", "  0 or more: same load"), True),
        (("3 x 10, daily", "adjust load by reps in set 4, for next session", "  0 or more: same load"), True),
    ],
)
def test_set_lines_agree_with_the_dose(lines: tuple[str, ...], said: bool) -> None:
    """A set that the dose has not, another amount or load, an `adjust` for a set that is not there."""
    assert len(messages(dosed(*lines), "D710")) == said


def test_a_dose_written_anew_over_set_lines() -> None:
    """A variant, a change and a give that state the dose again leave the set lines of the old one standing."""
    sets = (f"set {n}: 6 reps, load 4 kg" for n in range(1, 5))
    old = exercise("heel raise", *sets, dose="dose 4 x 6, load 4 kg, daily")
    new = "dose 3 x 8, load 2 kg, daily"
    assert not messages(old + protocol("give heel raise"), "D710")
    assert messages(old + protocol("give heel raise", f"  {new}"), "D710")
    change = ("change heel raise", f"  {new}", "  because we start low")
    assert messages(old + protocol(*change, "give heel raise"), "D710")
    assert messages(old + f"exercise light like heel raise\n  {new}\n" + protocol("give light"), "D710")
