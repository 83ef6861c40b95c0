"""The bones: which segment hangs on which, where its joint is, and the joint angles that turn it, in order.

Angles are in degrees by the neutral-zero method: zero is standing straight with the palms to the thighs and the
thumbs forward, so a hand's own x points to its thumb. An angle is named for its movement in the positive direction;
extension of a hip is `hip flexion` below zero. Turns are nested: a joint's later turn is about axes that its earlier
turns have moved, so abduction of a flexed hip or shoulder goes out to the side, as a clinician says it.
"""

from __future__ import annotations

from dataclasses import dataclass

from protodsl.figure.body import lengths as cm
from protodsl.figure.posture import SEGMENTS, STATURE, Vector

SIDES: tuple[str, ...] = ("right", "left")

MIDDLE_ANGLES: tuple[str, ...] = tuple(
    f"{joint} {movement}"
    for joint in ("lower back", "upper back", "neck")
    for movement in ("flexion", "side bending right", "rotation right")
)
LIMB_ANGLES: tuple[str, ...] = (
    "shoulder flexion", "shoulder abduction", "shoulder external rotation", "elbow flexion", "forearm pronation",
    "wrist extension", "wrist radial deviation",
    "hip flexion", "hip abduction", "hip external rotation", "knee flexion",
    "ankle dorsiflexion", "ankle inversion", "toe extension",
)  # fmt: skip
# The 37 joint angles of the body.
ANGLES: tuple[str, ...] = MIDDLE_ANGLES + tuple(f"{side} {angle}" for side in SIDES for angle in LIMB_ANGLES)
ANGLE_NUMBER: dict[str, int] = {name: number for number, name in enumerate(ANGLES)}

X, Y, Z = 0, 1, 2


@dataclass(frozen=True, slots=True)
class Turn:
    """A turn of a segment about one of its axes by `share` times the joint angle `angle` (a number in ANGLES)."""

    axis: int
    share: float
    angle: int


@dataclass(frozen=True, slots=True)
class Bone:
    """A segment, the number of the segment that it hangs on (-1: none), its joint there, and its turns in order."""

    segment: str
    parent: int
    joint: Vector
    turns: tuple[Turn, ...]


def _bones() -> tuple[Bone, ...]:
    return tuple(
        Bone(
            name,
            SEGMENTS.index(parent) if parent else -1,
            joint,
            tuple(Turn(a, s, ANGLE_NUMBER[n]) for a, s, n in turns),
        )
        for name, parent, joint, turns in (*_middle(), *_side("right", -1.0), *_side("left", 1.0))
    )


_Row = tuple[str, str, Vector, tuple[tuple[int, float, str], ...]]


def _middle() -> tuple[_Row, ...]:
    """The trunk: the lower back bends at its two ends, the upper back mostly at its middle."""
    small = STATURE / 1000
    return (
        ("pelvis", "", (0.0, 0.0, 0.0), ()),
        ("lumbar", "pelvis", (-12 * small, 0.0, cm.HIP_TO_LUMBAR), _spine("lower back", 0.5)),
        ("lower thorax", "lumbar", (4 * small, 0.0, cm.LUMBAR), _spine("lower back", 0.5) + _spine("upper back", 0.3)),
        ("upper thorax", "lower thorax", (-4 * small, 0.0, cm.LOWER_THORAX), _spine("upper back", 0.7)),
        ("neck", "upper thorax", (-6 * small, 0.0, cm.UPPER_THORAX), _spine("neck", 0.5)),
        ("head", "neck", (12 * small, 0.0, cm.NECK), _spine("neck", 0.5)),
    )


def _spine(joint: str, share: float) -> tuple[tuple[int, float, str], ...]:
    return (
        (Y, share, f"{joint} flexion"),
        (X, share, f"{joint} side bending right"),
        (Z, -share, f"{joint} rotation right"),
    )


def _side(side: str, out: float) -> tuple[_Row, ...]:
    """An arm and a leg; `out` is the sign of y on that side."""
    return (
        (f"{side} upper arm", "upper thorax", (0.0, out * cm.HALF_SHOULDERS, cm.SHOULDER_IN_THORAX),
            _ball(side, "shoulder", out)),
        (f"{side} forearm", f"{side} upper arm", (0.0, 0.0, -cm.UPPER_ARM), (
            (Y, -1.0, f"{side} elbow flexion"), (Z, -out, f"{side} forearm pronation"))),
        (f"{side} hand", f"{side} forearm", (0.0, 0.0, -cm.FOREARM), (
            (X, out, f"{side} wrist extension"), (Y, -1.0, f"{side} wrist radial deviation"))),
        (f"{side} thigh", "pelvis", (0.0, out * cm.HALF_HIPS, 0.0), _ball(side, "hip", out)),
        (f"{side} shank", f"{side} thigh", (0.0, 0.0, -cm.THIGH), ((Y, 1.0, f"{side} knee flexion"),)),
        (f"{side} foot", f"{side} shank", (0.0, 0.0, -cm.SHANK), (
            (Y, -1.0, f"{side} ankle dorsiflexion"), (X, -out, f"{side} ankle inversion"))),
        (f"{side} toes", f"{side} foot", (cm.ANKLE_TO_BALL, 0.0, cm.BALL_RADIUS - cm.ANKLE_HEIGHT), (
            (Y, -1.0, f"{side} toe extension"),)),
    )  # fmt: skip


def _ball(side: str, joint: str, out: float) -> tuple[tuple[int, float, str], ...]:
    return (
        (Y, -1.0, f"{side} {joint} flexion"),
        (X, out, f"{side} {joint} abduction"),
        (Z, out, f"{side} {joint} external rotation"),
    )


BONES: tuple[Bone, ...] = _bones()
SEGMENT_NUMBER: dict[str, int] = {name: number for number, name in enumerate(SEGMENTS)}
assert tuple(bone.segment for bone in BONES) == SEGMENTS
