"""Curves through points and the path data that says them, read back with fontTools."""

from __future__ import annotations

from math import cos, hypot, pi, sin

from protodsl.figure.draw.curve import UNITS, Pen
from tests.unit.figure.draw.paths import commands, places, sampled

_WAVY = [
    ((12 + 3 * sin(3 * a)) * cos(a), (12 + 3 * sin(3 * a)) * sin(a)) for a in (2 * pi * i / 180 for i in range(180))
]


def test_a_curve_keeps_to_its_points() -> None:
    """No place of the curve is farther than half a centimetre from the points it was drawn through."""
    data = Pen(0, 0).closed(_WAVY).data
    for x, y in sampled(data):
        assert min(hypot(x / UNITS - px, y / UNITS - py) for px, py in _WAVY) < 0.5
    assert len(commands(data)) < len(_WAVY) / 4


def test_a_closed_curve_ends_where_it_began() -> None:
    """The last place is the first, and the path is closed."""
    data = Pen(0, 0).closed(_WAVY).data
    found = places(data)
    assert found[0] == found[-1] and commands(data)[-1] == "closePath"


def test_mirroring_turns_every_place_round() -> None:
    """The mirrored pen writes the same places with x the other way."""
    plain, mirrored = (places(Pen(0, 50, mirror).closed(_WAVY).data) for mirror in (False, True))
    assert [(-x, y) for x, y in plain] == mirrored


def test_whole_numbers_only() -> None:
    """Path data holds no decimal point."""
    pen = Pen(7, 3)
    data = pen.closed(_WAVY).data + pen.fresh().lines([(0.3, 0.7), (9.1, 0.7), (9.1, -4.0), (1.0, 1.0)]).data
    assert "." not in data and "." not in pen.fresh().circle((1.0, 2.0), 3.0).data


def test_straight_lines() -> None:
    """Level and upright pieces are written as such and read back in place."""
    data = Pen(0, 0).lines([(0.0, 0.0), (2.0, 0.0), (2.0, 5.0), (-1.0, -1.0)], close=True).data
    assert places(data)[:4] == [(0, 0), (2 * UNITS, 0), (2 * UNITS, 5 * UNITS), (-UNITS, -UNITS)]
