"""Static moments against published problems and closed forms: 05_static_moments.csv, with the source in each row.

Worked problems of OpenStax College Physics 9.6 (CC BY) and of courses in biomechanics set their own masses and levers:
here they are weights on a body that has none itself. Rows of a straight leg or arm are closed forms with the lengths of
Drillis and Contini and the masses of Dempster (Winter), for 1.75 m and 9.81 m/s2, and are brought to the drawn body's
1.70 m and 9.80665.
"""

from __future__ import annotations

from collections.abc import Mapping
from math import cos, radians

import pytest

from protodsl.figure.body import lengths as cm
from protodsl.figure.body.kinematics import frames_of
from protodsl.figure.body.skeleton import ANGLES
from protodsl.figure.body.vectors import dot
from protodsl.figure.load.balance import Balance
from protodsl.figure.load.held import BODY_MASS, GRAVITY, Held
from protodsl.figure.load.moments import loads_at
from protodsl.figure.load.supports import Support, Weight
from tests.evidence.rows import oracle

ROWS = "05_static_moments"
# Something far from every joint that is asked for carries the body.
BASE = (Support("pelvis", (0.0, 0.0, 0.0), (0.0, 0.0, 1.0)),)
# From the rows' stature and gravity to those here.
STATURE = 1.70 / 1.75
TO_HERE = STATURE * GRAVITY / 9.81


def held(angles: Mapping[str, float], weights: tuple[Weight, ...] = (), mass: float = 0.0, **lying: bool) -> Held:
    """A body in these angles, standing or (`back`) lying on its back."""
    axes = (0.0, 0.0, -1.0, 0.0, 1.0, 0.0, 1.0, 0.0, 0.0) if lying.get("back") else (1.0, 0, 0, 0, 1.0, 0, 0, 0, 1.0)
    frames = frames_of(angles, (0.0, 0.0, 90.0), axes)
    whole = dict.fromkeys(ANGLES, 0.0) | dict(angles)
    return Held(frames, whole, BASE, weights=weights, mass=mass)


def load(of: Held, joint: str, movement: str) -> float:
    return next(one.estimate for one in loads_at(joint, "right", of) if one.movement == movement)


def hung(segment: str, metres: float, newtons: float) -> Weight:
    """A pull of so many newtons, so far down a segment from its joint."""
    return Weight(segment, (0.0, 0.0, -100 * metres), newtons / GRAVITY)


def test_a_book_in_the_hand() -> None:
    """Row os_moment: forearm 2.50 kg at 0.160 m and book 4.00 kg at 0.380 m, elbow at a right angle, g 9.80."""
    weights = (hung("right forearm", 0.160, 2.50 * 9.80), hung("right forearm", 0.380, 4.00 * 9.80))
    found = load(held({"right elbow flexion": 90}, weights), "elbow", "flexion")
    assert found == pytest.approx(float(oracle(ROWS, "os_moment")), abs=5e-4)


def test_a_press_up() -> None:
    """Row os_push_a: 50 kg that act 0.90 m from the feet, hands 1.50 m from them: 147 N for each hand."""
    place = (Weight("pelvis", (90.0, 0.0, -90.0), 50 * 9.80 / GRAVITY),)
    feet = tuple(Support("pelvis", (0.0, y, 0.0), (0.0, 0.0, 1.0)) for y in (-10.0, 10.0))
    hands = tuple(Support("upper thorax", (150.0, y, 0.0), (0.0, 0.0, 1.0)) for y in (-20.0, 20.0))
    whole = held({}, place)
    body = Held(whole.frames, whole.angles, (*feet, *hands), weights=place, mass=0.0)
    forces = Balance(body).forces()
    for force in forces[2:]:
        assert dot(force, (0.0, 0.0, 1.0)) == pytest.approx(float(oracle(ROWS, "os_push_a")), abs=0.5)


@pytest.mark.parametrize("degrees", [0, 30, 60, 90])
def test_a_leg_with_a_boot(degrees: int) -> None:
    """Rows legext: 50 N at 0.20 m and 100 N at 0.50 m from the knee, the angle being that from the horizontal."""
    weights = (hung("right shank", 0.20, 50), hung("right shank", 0.50, 100))
    found = load(held({"right knee flexion": 90 - degrees}, weights), "knee", "flexion")
    assert found == pytest.approx(float(oracle(ROWS, f"legext_{degrees}")), abs=1e-3)


@pytest.mark.parametrize(("row", "degrees"), [("iphy_2a", 90), ("iphy_2b", 120)])
def test_a_weight_on_a_forearm(row: str, degrees: int) -> None:
    """100 N at 0.3 m from the elbow, horizontal and 30 degrees above."""
    found = load(held({"right elbow flexion": degrees}, (hung("right forearm", 0.3, 100),)), "elbow", "flexion")
    assert found == pytest.approx(float(oracle(ROWS, row)), abs=1e-3)


@pytest.mark.parametrize(("row", "degrees"), [("iphy_3a", 0), ("iphy_3b", 70)])
def test_a_boot_of_150_newtons(row: str, degrees: int) -> None:
    """150 N at 0.35 m and the shank's 40 N at 0.2 m; hanging straight it loads the knee not at all."""
    weights = (hung("right shank", 0.35, 150), hung("right shank", 0.2, 40))
    found = load(held({"right knee flexion": degrees}, weights), "knee", "flexion")
    assert found == pytest.approx(float(oracle(ROWS, row)), abs=1e-3)


@pytest.mark.parametrize("degrees", [0, 30, 45, 60, 90])
@pytest.mark.parametrize("cuff", [0, 2])
def test_a_straight_leg_raised(degrees: int, cuff: int) -> None:
    """Rows slr and slr2, lying on the back: there the foot's mass is at the ankle, here it is in the foot."""
    weights = (Weight("right foot", (0.0, 0.0, 0.0), float(cuff)),) if cuff else ()
    found = load(held({"right hip flexion": degrees}, weights, BODY_MASS, back=True), "hip", "flexion")
    row = float(oracle(ROWS, f"slr{'2' if cuff else ''}_{degrees}")) * TO_HERE
    along, up = 0.5 * (cm.ANKLE_HEIGHT - cm.BALL_RADIUS), 0.5 * cm.ANKLE_TO_BALL
    angle = radians(degrees)
    foot = 0.0145 * BODY_MASS * GRAVITY * 0.01 * (along * cos(angle) - up * cos(radians(90) - angle))
    assert found == pytest.approx(row + foot, abs=0.01)


@pytest.mark.parametrize(("row", "kilograms", "joint"), [("arm90_2kg", 2, "shoulder"), ("elbow90_5kg", 5, "elbow")])
def test_an_arm_held_out_with_a_weight(row: str, kilograms: int, joint: str) -> None:
    """The rows have the centre of the hand at 0.506 of its whole length, Dempster's hand ends at the knuckle."""
    reach = 0.506 * cm.HAND
    weights = (Weight("right hand", (0.0, 0.0, -reach), float(kilograms)),)
    body = held({f"right {joint} flexion": 90}, weights, BODY_MASS)
    found = load(body, joint, "flexion")
    shorter = 0.006 * BODY_MASS * GRAVITY * 0.01 * 0.506 * (cm.HAND - cm.WRIST_TO_KNUCKLE)
    assert found == pytest.approx(float(oracle(ROWS, row)) * TO_HERE - shorter, abs=0.01)
