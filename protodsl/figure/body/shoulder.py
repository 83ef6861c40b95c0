"""The shoulder blade goes with the arm: the joint of the shoulder rises as the arm is lifted overhead.

The collarbone turns upwards about its inner end. That it begins after the first 30 degrees or so of lifting and goes
on to the top is the scapulohumeral rhythm (Inman, Saunders and Abbott 1944); the amount, 20 degrees at the
collarbone, and the smooth curve are from memory and for drawing alone. A written shoulder angle is that of the upper
arm to the trunk.
"""

from __future__ import annotations

from math import cos, radians, sin

from protodsl.figure.body import lengths as cm
from protodsl.figure.posture import Vector

LIFT = radians(20.0)
# The upper arm's height on a scale from -1 (hanging) to 1 (overhead) at which the collarbone begins to turn: 30
# degrees.
BEGINS = -cos(radians(30.0))


def joint_of_the_shoulder(out: float, flexion: float, abduction: float) -> Vector:
    """Where the joint of the shoulder is in the upper thorax, in cm; angles in radians; `out` is 1 on the left, -1
    on the right.
    """
    lift = LIFT * _smooth(_raised(flexion, abduction))
    reach = cm.HALF_SHOULDERS - cm.CLAVICLE_INNER_END
    return (
        0.0,
        out * (cm.CLAVICLE_INNER_END + reach * cos(lift)),
        cm.SHOULDER_IN_THORAX + reach * sin(lift),
    )


def slopes_of_the_shoulder(out: float, flexion: float, abduction: float) -> tuple[Vector, Vector]:
    """How that joint moves with each of the two angles: cm a radian."""
    part = _raised(flexion, abduction)
    lift = LIFT * _smooth(part)
    reach = cm.HALF_SHOULDERS - cm.CLAVICLE_INNER_END
    by_lift = (0.0, -out * reach * sin(lift), reach * cos(lift))
    slope = LIFT * 6.0 * part * (1.0 - part) / (1.0 - BEGINS)
    by_flexion = slope * sin(flexion) * cos(abduction)
    by_abduction = slope * cos(flexion) * sin(abduction)
    return (
        (0.0, by_lift[1] * by_flexion, by_lift[2] * by_flexion),
        (0.0, by_lift[1] * by_abduction, by_lift[2] * by_abduction),
    )


def _raised(flexion: float, abduction: float) -> float:
    height = -cos(flexion) * cos(abduction)
    return min(1.0, max(0.0, (height - BEGINS) / (1.0 - BEGINS)))


def _smooth(part: float) -> float:
    return part * part * (3.0 - 2.0 * part)
