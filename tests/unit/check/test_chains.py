"""Levels can be reached, phases end, conditions decide something."""

from __future__ import annotations

import pytest

from tests.unit.check.saying import PAIN, codes, exercise, messages, protocol

ILL = "question ill: Are you ill?\n"
THREE = exercise("one") + exercise("two") + exercise("three")
UP = "    up when pain <= 3\n"
DOWN = "    down when pain > 5\n"


def progression(*lines: str) -> str:
    """Three exercises, a progression with these lines, and a protocol that gives it."""
    return PAIN + THREE + "progression steps\n" + "".join(lines) + protocol("give steps")


@pytest.mark.parametrize(
    ("lines", "missed"),
    [
        (("  level one\n", UP, "  level two\n", UP, "  level three\n"), []),
        (("  level one\n", "  level two\n", UP, "  level three\n"), ["two"]),
        (("  start at two if pain < 2\n", "  level one\n", "  level two\n", UP, "  level three\n"), []),
        (("  start at three if pain < 2\n", "  level one\n", "  level two\n", "  level three\n"), ["two"]),
        (("  start at three if pain < 2\n", "  level one\n", "  level two\n", "  level three\n", DOWN), []),
        (("  up when pain <= 3\n", "  level one\n", "  level two\n", "  level three\n"), []),
    ],
)
def test_levels_out_of_reach(lines: tuple[str, ...], missed: list[str]) -> None:
    """By moving up, by starting there, or by moving down from a level where somebody starts."""
    found = messages(progression(*lines), "C401")
    assert found == [f"nobody ever comes to the level `{name}`" for name in missed]


@pytest.mark.parametrize(
    ("up", "down", "said"),
    [
        ("pain <= 3", "pain > 5", False),
        ("pain <= 5", "pain > 5", False),
        ("pain <= 5", "pain >= 5", True),
        ("pain <= 3 and not ill", "ill", False),
        ("pain <= 3", "ill", True),
        ("pain <= 3, 3 sessions in a row", "pain > 2, 2 sessions in a row", True),
    ],
)
def test_up_and_down_at_once(up: str, down: str, said: bool) -> None:
    """The last session of a streak meets both, however long the streaks are."""
    text = ILL + progression(f"  down when {down}\n", "  level one\n", f"    up when {up}\n", "  level two\n")
    assert bool(messages(text, "C403")) is said


@pytest.mark.parametrize(
    ("condition", "code"),
    [
        ("pain >= 0", "C405"),
        ("pain <= 10", "C405"),
        ("pain > 3", None),
        ("ill or not ill", "C405"),
        ("ill and not ill", "C404"),
        ("pain > 3 and pain < 4", "C404"),
        ("pain = 3 and pain <= 2", "C404"),
        ("at least 2 of (pain < 2, pain > 3, pain = 5 and ill)", None),
        ("at least 2 of (pain < 2, pain > 3, ill and not ill)", "C404"),
        ("days since start >= 15 and weeks since start < 2", "C404"),
        ("days since start >= 13 and weeks since start < 2", None),
        ("reach >= 5 cm on each side and reach < 5 cm on either side", "C404"),
        ("reach >= 5 cm on either side and reach < 5 cm on either side", None),
        ("reach > 5 cm on the affected side and reach <= 5 cm on each side", "C404"),
        ("reach > 5 cm on the affected side and reach <= 5 cm on the left side", None),
        ("reach > 50 mm on the left side and reach <= 5 cm on the left side", "C404"),
        ("symmetry of reach >= 90 % and symmetry of reach < 80 %", "C404"),
        ("mood is low and mood is not low", "C404"),
        ("mood is one of (low, high) or mood is middling", "C405"),
    ],
)
def test_conditions_that_decide_nothing(condition: str, code: str | None) -> None:
    asked = "test reach: How far.\n  answer cm from 0 to 25, each side\n"
    asked += "question mood: How are you?\n  answer one of low, middling, high\n"
    found = codes(PAIN + ILL + asked + exercise() + protocol(f"give heel raise if {condition}"))
    assert found == ([code] if code else [])


@pytest.mark.parametrize("keyword", ["emergency if", "red flag if", "call if"])
def test_a_danger_sign_that_warns_nobody(keyword: str) -> None:
    text = PAIN + exercise() + protocol(f"{keyword} pain > 7 and pain < 3", "  Call us.", "give heel raise")
    assert codes(text) == ["S613"]


def test_a_circle_is_named_once() -> None:
    text = (
        ILL
        + exercise("one", "avoid if ill", "  instead two")
        + exercise("two", "avoid if ill", "  instead three")
        + exercise("three", "avoid if ill", "  instead one")
        + protocol("give one")
    )
    (message,) = messages(text, "C402")
    assert message == "`instead` goes round in a circle: `one` to `two` to `three` to `one`"


def test_two_ways_to_one_exercise_are_no_circle() -> None:
    text = (
        ILL
        + PAIN
        + exercise("one", "avoid if ill", "  instead two", "avoid if pain > 5", "  instead three")
        + exercise("two", "avoid if pain > 7", "  instead three")
        + exercise("three")
        + protocol("give one")
    )
    assert messages(text, "C402") == []


def test_the_last_phase_needs_no_end() -> None:
    phases = ("phase first", "  give heel raise", "  until weeks since start >= 2", "phase last", "  give heel raise")
    assert codes(exercise() + protocol(*phases)) == []
    assert codes(exercise() + protocol(*(line for line in phases if "until" not in line))) == ["C406"]
