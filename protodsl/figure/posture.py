"""A body in a pose, solved: where every segment is. What the solver makes and the artist and the statics read.

World axes: x forward for somebody standing, y to that person's left, z up; the floor is z = 0. Lengths in centimetres
for a stature of 170 cm. A segment's own axes in the anatomical position are the same: x forward, y left, z towards the
head; its origin is its proximal joint (pelvis: midway between the hip joints).
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

from protodsl.model.figure import Figure, Pose

STATURE = 170.0

Vector = tuple[float, float, float]
# Row by row; its columns are the segment's own axes in world axes.
Matrix = tuple[float, float, float, float, float, float, float, float, float]

MIDDLE_SEGMENTS: tuple[str, ...] = ("pelvis", "lumbar", "lower thorax", "upper thorax", "neck", "head")
LIMB_SEGMENTS: tuple[str, ...] = ("upper arm", "forearm", "hand", "thigh", "shank", "foot", "toes")
SEGMENTS: tuple[str, ...] = MIDDLE_SEGMENTS + tuple(
    f"{side} {name}" for side in ("right", "left") for name in LIMB_SEGMENTS
)


@dataclass(frozen=True, slots=True)
class Frame:
    """Where a segment is: its origin and its turned axes."""

    origin: Vector
    axes: Matrix


@dataclass(frozen=True, slots=True)
class Sphere:
    """Flesh: a ball fixed in a segment, centre in the segment's own axes; a segment's hull is that of its spheres."""

    segment: str
    centre: Vector
    radius: float


@dataclass(frozen=True, slots=True)
class SolvedPose:
    """One pose as the body does it: frames by segment, angles in degrees by `side joint movement`, what it stands on.

    `contacts` are the landmarks that touch and the surface each touches; `balanced` is how many centimetres the centre
    of mass is inside (negative: outside) the base of support.
    """

    pose: Pose
    frames: Mapping[str, Frame]
    angles: Mapping[str, float]
    contacts: tuple[tuple[str, str], ...]
    centre_of_mass: Vector
    balanced: float


@dataclass(frozen=True, slots=True)
class PlacedProp:
    """A prop where it stands: `at` is the middle of its foot on the floor, `facing` points from it to the body."""

    kind: str
    at: Vector
    facing: Vector
    height: float
    ends: tuple[str, ...] = ()
    kilograms: float = 0.0


@dataclass(frozen=True, slots=True)
class SolvedFigure:
    """All poses of a figure that can be, with the props around them; drawn as written for the right side."""

    figure: Figure
    poses: tuple[SolvedPose, ...]
    props: tuple[PlacedProp, ...]
