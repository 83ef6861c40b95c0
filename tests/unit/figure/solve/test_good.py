"""The figures of the good cases: each can be done, stands firm, and comes out the same every time."""

from __future__ import annotations

from math import isfinite

import pytest

from protodsl.diagnostics.diagnostic import Severity
from protodsl.figure.body.kinematics import point_of
from protodsl.figure.body.landmarks import LANDMARKS
from protodsl.figure.posture import SEGMENTS, SolvedFigure
from protodsl.figure.solve.solve import _solved_at, solve
from protodsl.model.figure import Figure
from tests.unit.resolve.test_figures import FILES, exercises

FIGURES: dict[str, Figure] = {
    name: exercise.figure
    for path in FILES
    for name, exercise in exercises(path.read_text(encoding="utf-8")).items()
    if exercise.figure is not None
}
# Nobody stands in these, and the trunk hangs over the hips before the belly pulls: looked at, and as they should be.
RISES_FROM_THE_FLOOR = ("half sit-up",)


def solved(name: str) -> SolvedFigure:
    """A figure in which nothing is wrong."""
    found = solve(FIGURES[name])
    errors = [one.message for one in found.diagnostics if one.severity is Severity.ERROR]
    assert found.value is not None and not errors, errors
    return found.value


def test_there_are_thirty() -> None:
    assert len(FIGURES) >= 30


@pytest.mark.parametrize("name", FIGURES)
def test_a_good_figure_can_be_done_and_nothing_is_to_be_said_of_it(name: str) -> None:
    assert [one.message for one in solve(FIGURES[name]).diagnostics] == []
    for pose in solved(name).poses:
        assert tuple(pose.frames) == SEGMENTS
        assert all(isfinite(value) for frame in pose.frames.values() for value in (*frame.origin, *frame.axes))
        assert pose.contacts


@pytest.mark.parametrize("name", FIGURES)
def test_nothing_is_below_the_floor(name: str) -> None:
    """By a centimetre: flesh gives way."""
    for pose in solved(name).poses:
        for mark, ball in LANDMARKS.items():
            assert point_of(pose.frames[ball.segment], ball.centre)[2] - ball.radius > -1.0, mark


@pytest.mark.parametrize("name", FIGURES)
def test_the_centre_of_mass_is_over_the_base_of_support(name: str) -> None:
    for pose in solved(name).poses:
        if name not in RISES_FROM_THE_FLOOR:
            assert pose.balanced > -1.0


def test_the_same_figure_comes_out_the_same() -> None:
    for name in ("hip lift on both feet", "long step"):
        first = solved(name)
        _solved_at.cache_clear()
        assert solved(name) == first
