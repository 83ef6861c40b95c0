"""Which values a test leaves undecided is said exactly, in the unit of the test."""

from __future__ import annotations

import pytest

from tests.unit.check.saying import PAIN, codes, exercise, messages, protocol

REACH = "test reach: From the toe to the wall.\n  answer cm from 0 to 25, each side\n"
LENGTH = "test length: How long.\n  answer cm from 0 to 25\n"


def finding(*rows: str) -> str:
    """A derived finding with these rows."""
    return "finding verdict: what follows\n" + "".join(f"  {row}\n" for row in rows)


@pytest.mark.parametrize(
    ("rows", "left"),
    [
        (("work if length <= 0 cm", "none if length >= 10 cm"), "more than 0 and less than 10 cm"),
        (("work if length < 3 cm", "none if length >= 10 cm"), "from 3 to less than 10 cm"),
        (("work if length <= 3 cm", "none if length > 10 cm"), "more than 3 and at most 10 cm"),
        (("work if length < 3 cm", "none if length > 3 cm"), "exactly 3 cm"),
        (("work if length < 3 cm", "none if length > 4 cm"), "from 3 to 4 cm"),
        (("work if length < 30 mm", "none if length >= 100 mm"), "from 3 to less than 10 cm"),
        (("none if length >= 10 cm",), "from 0 to less than 10 cm"),
        (("a if not (length >= 3 cm)", "mid if length > 4 cm and length < 9 cm"), "from 3 to 4 cm, or from 9 to 25 cm"),
    ],
)
def test_of_a_measure(rows: tuple[str, ...], left: str) -> None:
    """Ends are part of the gap exactly where no row takes them. The gap 0 to 10 cm: common practice, no source."""
    (message,) = messages(LENGTH + finding(*rows), "R509")
    assert message == f"`verdict` is left undecided when `length` is {left}"


@pytest.mark.parametrize(
    ("rows", "left"),
    [
        (("low if pain <= 3", "high if pain >= 5"), "exactly 4"),
        (("low if pain < 3", "high if pain > 5"), "from 3 to 5"),
        (("low if pain <= 3", "high if pain > 3.5 and pain < 10"), "exactly 10"),
    ],
)
def test_of_a_scale_only_whole_points(rows: tuple[str, ...], left: str) -> None:
    (message,) = messages(PAIN + finding(*rows), "R509")
    assert message == f"`verdict` is left undecided when `pain` is {left}"


@pytest.mark.parametrize(
    "rows",
    [
        ("low if pain <= 3", "high if pain > 3"),
        ("low if pain <= 3", "high if pain >= 4"),
        ("low if pain <= 3", "otherwise high"),
        ("low if pain <= 5", "high if pain >= 4"),
    ],
)
def test_nothing_is_said_where_nothing_is_left(rows: tuple[str, ...]) -> None:
    """Whole points have nothing between them, and an overlap leaves nothing out."""
    assert "R509" not in codes(PAIN + finding(*rows))


@pytest.mark.parametrize(
    ("low", "high", "side"),
    [
        ("on the affected side", "on the affected side", "on the affected side"),
        ("on either side", "on each side", "on the side with the lower value"),
    ],
)
def test_of_gives_with_sides(low: str, high: str, side: str) -> None:
    """A reach of 0 on either side and of 10 on each side both ask for the lower of the two."""
    gives = (f"give heel raise if reach <= 0 cm {low}", f"give heel lift if reach >= 10 cm {high}")
    text = REACH + exercise() + exercise("heel lift") + protocol(*gives)
    assert messages(text, "R510") == [f"nothing is given when `reach {side}` is more than 0 and less than 10 cm"]


@pytest.mark.parametrize(
    "gives",
    [
        ("give heel raise if length < 10 cm", "give heel lift if length < 5 cm"),
        ("give heel raise if length < 10 cm", "give heel lift if length >= 10 cm"),
        ("give heel raise if length < 3 cm", "give heel lift"),
        ("give heel raise unless length > 3 cm", "give heel lift unless length <= 3 cm"),
        ("give heel raise if length <= 0 cm", "part Evening", "  give heel lift if length >= 10 cm"),
    ],
)
def test_an_end_left_alone_is_no_gap(gives: tuple[str, ...]) -> None:
    """Who needs nothing is given nothing, and what stands in another part is decided there."""
    text = LENGTH + exercise() + exercise("heel lift") + protocol(*gives)
    assert "R510" not in codes(text)


def test_unless_leaves_a_gap_as_well() -> None:
    gives = ("give heel raise unless length > 0 cm", "give heel lift unless length < 10 cm")
    text = LENGTH + exercise() + exercise("heel lift") + protocol(*gives)
    assert messages(text, "R510") == ["nothing is given when `length` is more than 0 and less than 10 cm"]
