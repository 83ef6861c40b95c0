"""The slopes that least squares goes by are those of the body: held against small differences."""

from math import radians

import pytest

from protodsl.figure.body.kinematics import frames_of
from protodsl.figure.body.landmarks import LANDMARKS
from protodsl.figure.body.positions import ON_RIGHT_SIDE
from protodsl.figure.body.skeleton import ANGLES, SEGMENT_NUMBER
from protodsl.figure.body.vectors import dot
from protodsl.figure.posture import SEGMENTS
from protodsl.figure.solve.demands import Balance, Beneath, Demand, Level, Meeting, axis_of, on_plane, place
from protodsl.figure.solve.motion import NUMBERS, PELVIS, Placement, no_slopes

# Some state in which nothing is zero and the arms are half up.
STATE = tuple(
    [3.0, -2.0, 80.0, 0.2, -0.1, 0.15]
    + [radians((number * 37) % 50 - 20 + (70 if "shoulder" in name else 0)) for number, name in enumerate(ANGLES)]
)
STEP = 1e-6


def nudged(number: int, by: float) -> Placement:
    """The body with one number changed a little."""
    return Placement([value + (by if at == number else 0.0) for at, value in enumerate(STATE)], ON_RIGHT_SIDE)


@pytest.mark.parametrize("landmark", ["right fingertips", "left toes", "chin", "pubis", "left elbow"])
def test_how_a_point_moves(landmark: str) -> None:
    ball = LANDMARKS[landmark]
    along = (0.48, -0.6, 0.64)
    body = Placement(STATE, ON_RIGHT_SIDE)
    slopes = no_slopes()
    body.slopes(SEGMENT_NUMBER[ball.segment], body.centre(ball), along, slopes)
    for number in range(NUMBERS):
        moved = dot(nudged(number, STEP).centre(ball), along) - dot(nudged(number, -STEP).centre(ball), along)
        assert slopes[number] == pytest.approx(moved / (2 * STEP), abs=1e-4)


DEMANDS: dict[str, Demand] = {
    "on a plane": on_plane(LANDMARKS["left heel"], (0.0, 0.0, 1.0), 5.0, 1.0),
    "apart": Level(
        (place(LANDMARKS["right palm"], (1.0, 0.0, 0.0)), place(LANDMARKS["chin"], (1.0, 0.0, 0.0), -1.0)), 9.0, 1.0
    ),
    "a direction": Level((axis_of("left shank", 2, (0.0, 0.6, 0.8)),), 3.0, 1.0),
    "meeting": Meeting(LANDMARKS["right palm"], LANDMARKS["left seat"], LANDMARKS["right seat"], 1.0),
    "beneath": Beneath(LANDMARKS["right palm"], LANDMARKS["right fingertips"], LANDMARKS["right shoulder"], 1.0),
}


@pytest.mark.parametrize("name", DEMANDS)
def test_how_a_demand_changes(name: str) -> None:
    demand = DEMANDS[name]
    rows = demand.rows(Placement(STATE, ON_RIGHT_SIDE), 1.0)
    for number in range(NUMBERS):
        up, down = (demand.rows(nudged(number, by), 1.0) for by in (STEP, -STEP))
        for row, above, below in zip(rows, up, down, strict=True):
            # The nearest part of a hand may move along it: to first order that does not count for a distance.
            tolerance = 2.5 if isinstance(demand, Beneath) else 1e-3
            assert row[1][number] == pytest.approx((above[0] - below[0]) / (2 * STEP), abs=tolerance)


def test_how_the_centre_of_mass_changes() -> None:
    demand = Balance(("right heel", "left toes"), 0.48, 1.0)
    rows = demand.rows(Placement(STATE, ON_RIGHT_SIDE), 1.0)
    legs = [PELVIS + number for number, name in enumerate(ANGLES) if "hip" in name or "knee" in name or "back" in name]
    for number in (*range(PELVIS), *legs):
        up, down = (demand.rows(nudged(number, by), 1.0) for by in (STEP, -STEP))
        for axis in (0, 1):
            share = 0.02 if axis == 0 else 0.0
            change = (up[axis][0] - down[axis][0]) / (2 * STEP)
            # The target lies at 0.48 of the base and its slope at the half of it: close enough for a wish.
            assert rows[axis][1][number] == pytest.approx(change, abs=0.01 + share * 100)


def test_the_quick_and_the_plain_kinematics_agree() -> None:
    """`Placement` is written for speed; `frames_of` is plain."""
    angles = {name: (number * 29) % 90 - 30.0 for number, name in enumerate(ANGLES)}
    state = [1.0, 2.0, 90.0, 0.0, 0.0, 0.0, *(radians(angles[name]) for name in ANGLES)]
    body = Placement(state, ON_RIGHT_SIDE)
    plain = frames_of(angles, (1.0, 2.0, 90.0), ON_RIGHT_SIDE)
    for number, name in enumerate(SEGMENTS):
        assert body.frame(number).origin == pytest.approx(plain[name].origin)
        assert body.frame(number).axes == pytest.approx(plain[name].axes)
