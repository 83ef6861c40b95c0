"""The lengths of the body are those of one published set, and they close.

Drillis and Contini (1966) as Winter prints them (2009, figure 4.1); the rows are copied in tests/evidence/data.
"""

import pytest

from protodsl.figure.body import lengths as cm
from protodsl.figure.body.flesh import FLESH
from protodsl.figure.body.kinematics import frames_of, point_of
from protodsl.figure.posture import STATURE
from tests.evidence.rows import oracle

FRACTIONS = {
    "dc_upper_arm": cm.UPPER_ARM,
    "dc_forearm": cm.FOREARM,
    "dc_hand": cm.HAND,
    "dc_thigh": cm.THIGH,
    "dc_shank": cm.SHANK,
    "dc_foot_height": cm.ANKLE_HEIGHT,
    "dc_foot_length": cm.FOOT,
    "dc_hip_height": cm.HIP_HEIGHT,
    "dc_shoulder_height": cm.SHOULDER_HEIGHT,
    "dc_shoulder_breadth": cm.SHOULDER_BREADTH,
    "dc_hip_breadth": cm.HIP_BREADTH,
    "dc_head_height": cm.HEAD_HEIGHT,
}
STANDING = frames_of({}, (0.0, 0.0, cm.HIP_HEIGHT))


def fraction(row: str) -> float:
    """A published fraction of stature."""
    return float(oracle("05_lengths_closure", row))


@pytest.mark.parametrize("row", FRACTIONS)
def test_a_length_is_the_published_fraction_of_stature(row: str) -> None:
    assert FRACTIONS[row] == pytest.approx(fraction(row) * STATURE)


def test_foot_shank_and_thigh_reach_the_hip_and_foot_and_shank_the_knee() -> None:
    """Rows dc_close_hip and dc_close_knee."""
    hip, knee = cm.ANKLE_HEIGHT + cm.SHANK + cm.THIGH, cm.ANKLE_HEIGHT + cm.SHANK
    assert hip == pytest.approx(fraction("dc_close_hip") * STATURE)
    assert knee == pytest.approx(fraction("dc_close_knee") * STATURE)


def test_the_parts_of_the_trunk_reach_the_shoulder() -> None:
    """Row dc_trunk: hip to shoulder."""
    parts = cm.HIP_TO_LUMBAR + cm.LUMBAR + cm.LOWER_THORAX + cm.SHOULDER_IN_THORAX
    assert parts == pytest.approx(fraction("dc_trunk") * STATURE)


def test_standing_straight_the_joints_are_at_the_published_heights() -> None:
    heights = {name: frame.origin[2] / STATURE for name, frame in STANDING.items()}
    assert heights["right thigh"] == pytest.approx(fraction("dc_hip_height"))
    assert heights["right shank"] == pytest.approx(fraction("dc_knee_height"))
    assert heights["right foot"] == pytest.approx(fraction("dc_foot_height"))
    assert heights["left upper arm"] == pytest.approx(fraction("dc_shoulder_height"))
    assert heights["left forearm"] == pytest.approx(fraction("dc_elbow_gap"))


def test_the_flesh_has_the_stature_and_the_published_breadths() -> None:
    """From the floor to the vertex 170 cm; hips and feet as broad, hands and feet as long as published."""
    reach = {
        axis: [
            (point_of(STANDING[ball.segment], ball.centre)[axis], ball.radius, segment)
            for segment, balls in FLESH.items()
            for ball in balls
        ]
        for axis in range(3)
    }
    assert min(at - radius for at, radius, _ in reach[2]) == pytest.approx(0.0, abs=1e-9)
    assert max(at + radius for at, radius, _ in reach[2]) == pytest.approx(STATURE)
    hips = max(at + radius for at, radius, segment in reach[1] if segment == "pelvis")
    assert 2 * hips == pytest.approx(fraction("dc_hip_breadth") * STATURE, abs=0.6)
    right = [row for row in reach[0] if row[2] in ("right foot", "right toes")]
    long = max(at + radius for at, radius, _ in right) - min(at - radius for at, radius, _ in right)
    assert long == pytest.approx(fraction("dc_foot_length") * STATURE)
    tips = min(at - radius for at, radius, segment in reach[2] if segment == "right hand")
    assert STANDING["right hand"].origin[2] - tips == pytest.approx(fraction("dc_hand") * STATURE, abs=0.2)
