"""Walking around regions of functions whose borders are known."""

from __future__ import annotations

from math import hypot, pi

import pytest

from protodsl.figure.draw.contour import area, inside, outlines


def _circle(x: float, y: float) -> float:
    return hypot(x, y) - 10


def test_a_circle() -> None:
    """The border of a disc lies on its circle, encloses its area, and is walked with the inside on one hand."""
    (loop,) = outlines(_circle, [(0.0, 0.0)], cell=0.5)
    assert all(abs(hypot(x, y) - 10) < 0.06 for x, y in loop)
    assert -area(loop) / 2 == pytest.approx(pi * 100, rel=0.01)
    assert inside(loop, (0.3, 0.2)) and not inside(loop, (11.0, 0.0))


def test_a_hole_is_not_mistaken_for_the_border() -> None:
    """Where a hole lies on the way, the outer border is found all the same."""
    (loop,) = outlines(lambda x, y: max(_circle(x, y), 3 - hypot(x + 3, y)), [(5.0, 0.0)], cell=0.5)
    assert -area(loop) / 2 == pytest.approx(pi * 100, rel=0.01)


def test_each_region_once() -> None:
    """Two discs give two loops, however many seeds lie in them; a seed in neither gives none."""
    two = outlines(lambda x, y: min(hypot(x - 8, y), hypot(x + 8, y)) - 5, [(8, 0), (9, 1), (-8, 0), (-4.2, 0), (0, 0)])
    assert len(two) == 2


def test_nothing_is_no_loop() -> None:
    """A region smaller than the grid is left out."""
    assert outlines(lambda x, y: hypot(x - 0.5, y - 0.5) - 0.2, [(0.5, 0.5)]) == ()
