"""What each segment weighs, as a share of body mass, and where in it.

Dempster (1955) as Winter prints it (table 4.1), whole; never mixed with another set. Limbs: fractions from the
proximal joint, with that set's own end points (hand to the second knuckle, foot from ankle to ball). The trunk and head
are one column there, so the masses are its rows for pelvis, abdomen, thorax and head with neck, while where they
sit along the column is the project's own, laid so that trunk, head and neck together balance at 0.66 of the way from
hip to shoulder, as that set says.
"""

from __future__ import annotations

from dataclasses import dataclass

from protodsl.figure.body import lengths as cm
from protodsl.figure.body.skeleton import SIDES
from protodsl.figure.posture import STATURE, Vector


@dataclass(frozen=True, slots=True)
class Mass:
    """A share of body mass at a point of a segment, in cm in its own axes."""

    segment: str
    at: Vector
    share: float


def _limbs(side: str) -> tuple[Mass, ...]:
    return (
        Mass(f"{side} upper arm", (0.0, 0.0, -0.436 * cm.UPPER_ARM), 0.028),
        Mass(f"{side} forearm", (0.0, 0.0, -0.430 * cm.FOREARM), 0.016),
        Mass(f"{side} hand", (0.0, 0.0, -0.506 * cm.WRIST_TO_KNUCKLE), 0.006),
        Mass(f"{side} thigh", (0.0, 0.0, -0.433 * cm.THIGH), 0.100),
        Mass(f"{side} shank", (0.0, 0.0, -0.433 * cm.SHANK), 0.0465),
        Mass(f"{side} foot", (0.5 * cm.ANKLE_TO_BALL, 0.0, 0.5 * (cm.BALL_RADIUS - cm.ANKLE_HEIGHT)), 0.0145),
    )


MASSES: tuple[Mass, ...] = (
    Mass("pelvis", (-0.008 * STATURE, 0.0, 0.0665 * STATURE), 0.142),
    Mass("lumbar", (0.008 * STATURE, 0.0, 0.050 * STATURE), 0.139),
    Mass("lower thorax", (0.004 * STATURE, 0.0, 0.040 * STATURE), 0.089),
    Mass("upper thorax", (0.002 * STATURE, 0.0, 0.0505 * STATURE), 0.127),
    Mass("head", (0.006 * STATURE, 0.0, 0.018 * STATURE), 0.081),
    *(mass for side in SIDES for mass in _limbs(side)),
)
