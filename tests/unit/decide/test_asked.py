"""Whether what was done is at least what was due, for every form that an amount can have."""

from __future__ import annotations

from decimal import Decimal

import pytest

from protodsl.decide.asked import as_asked
from protodsl.model.case import Affected, Done, Session
from protodsl.units import UNITS, Quantity
from tests.support import dose
from tests.unit.decide.people import DAY

RIGHT = Affected("right")


def done(written: str, side: str | None = None) -> Done:
    """What was done, from how it is written."""
    volume = dose(written).volume
    assert volume is not None
    return Done(volume, side)


def asked(due: str, *parts: Done, load: Quantity | None = None, kilograms: str | None = None) -> bool:
    """Whether a session with these parts is as asked."""
    session = Session(DAY, None, "done", parts, load)
    return as_asked(session, dose(due), Decimal(kilograms) if kilograms else None, RIGHT)


@pytest.mark.parametrize(
    ("due", "had", "enough"),
    [
        ("3 x 10", "3 x 10", True),
        ("3 x 10", "3 x 9", False),
        ("3 x 10", "2 x 20", False),
        ("3 x 10", "4 x 11", True),
        ("3 x 8 to 12", "3 x 8", True),
        ("3 x 8 to 12", "3 x 7", False),
        ("2 to 3 x 8", "2 x 8", True),
        ("3 x 10", "10 then 10 then 10", True),
        ("3 x 10", "12 then 10 then 9", False),
        ("3 x 10", "10 then 9 then 10 then 10", True),
        ("3 x 10", "3 x to fatigue", False),
        ("3 x to fatigue", "3 x 4", True),
        ("3 x to fatigue", "2 x 4", False),
        ("3 x to fatigue", "5 then 4 then 2", True),
        ("3 x to fatigue", "5 then 4", False),
        ("12 then 10 then 8", "12 then 10 then 8", True),
        ("12 then 10 then 8", "12 then 10 then 7", False),
        ("12 then 10 then 8", "12 then 10", False),
        ("12 then 10 then 8", "3 x 12", True),
        ("12 then 10 then 8", "3 x 11", False),
        ("12 then 10 then 8", "2 x 12", False),
        ("3 x 30 s", "3 x 30 s", True),
        ("3 x 30 s", "3 x 29 s", False),
        ("3 x 30 s", "3 x 1 min", True),
        ("3 x 30 s", "3 x 30", False),
        ("3 x 30 s", "30 then 30 then 30", False),
        ("3 x 10", "3 x 10 s", False),
        ("20 min", "20 min", True),
        ("20 min", "1199 s", False),
        ("400 m", "0.4 km", True),
        ("400 m", "399 m", False),
        ("1000 steps", "1000 steps", True),
        ("1000 steps", "999 steps", False),
        ("5 x (4 min walk + 1 min run)", "5 x (4 min walk + 1 min run)", True),
        ("5 x (4 min walk + 1 min run)", "4 x (4 min walk + 1 min run)", False),
        ("5 x (4 min walk + 1 min run)", "6 x (4 min walk + 1 min run)", True),
        ("5 x (4 min walk + 1 min run)", "5 x (4 min walk + 2 min run)", False),
        ("5 x (4 min walk + 1 min run)", "25 min", False),
        ("20 min", "5 x (4 min walk + 1 min run)", False),
        ("daily", "1 x 1", True),
    ],
)
def test_at_least_what_was_due(due: str, had: str, enough: bool) -> None:
    assert asked(due, done(had)) is enough


def test_nothing_done_is_not_as_asked() -> None:
    assert not asked("3 x 10")
    for outcome, expected in (("as given", True), ("part done", False), ("missed", False)):
        assert as_asked(Session(DAY, None, outcome), dose("3 x 10"), Decimal(5), RIGHT) is expected


def test_sides() -> None:
    left, right, short = done("3 x 10", "left"), done("3 x 10", "right"), done("3 x 9", "right")
    assert asked("3 x 10, each side", left, right)
    assert asked("3 x 10, each side", done("3 x 10"))
    assert not asked("3 x 10, each side", left)
    assert not asked("3 x 10, each side", left, short)
    assert asked("3 x 10, affected side", right)
    assert not asked("3 x 10, affected side", left)
    assert not asked("3 x 10, affected side", left, short)
    assert not asked("3 x 10", left, short)


def test_the_load() -> None:
    had = done("3 x 10")
    assert asked("3 x 10", had, kilograms="0")
    assert not asked("3 x 10", had, kilograms="5")
    assert asked("3 x 10", had, kilograms="5", load=Quantity(Decimal(5), UNITS["kg"]))
    assert not asked("3 x 10", had, kilograms="5", load=Quantity(Decimal("4.9"), UNITS["kg"]))
    assert asked("3 x 10", had, kilograms="5", load=Quantity(Decimal(12), UNITS["lb"]))
    assert not asked("3 x 10", had, kilograms="5", load=Quantity(Decimal(11), UNITS["lb"]))
