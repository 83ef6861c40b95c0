"""Regions of skin that the camera sees, as functions that are negative inside: garment, shoes, hair, what works."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from math import acos, degrees, sqrt

from protodsl.figure.draw.camera import Camera, placed, turned
from protodsl.figure.draw.contour import Field
from protodsl.figure.draw.shape import Part
from protodsl.figure.draw.solid import Ball, Cone, Skin, Solid
from protodsl.figure.posture import STATURE, Frame, Vector

# Where on an arm and a leg the garment ends, along upper arm and thigh.
_SLEEVE, _HEM = 0.40, 0.46
# How far down a foot the shoe begins.
_ANKLE = 0.22
# Two planes of the head by a normal and thousandths of stature from its joint: over the brow, and behind the ear.
_HAIR_PLANES = (((-0.34, 0.0, 0.94), 45.0), ((-0.90, 0.0, 0.43), 9.0))
_HAIR_BALLS = (("head", -8, 35, 54), ("head", 12, 39, 51))
# A patch that is seen edge on, neither facing the viewer by this much nor turned away by that much (cosines), counts
# as facing the viewer a little: of a muscle that wraps round a limb a rim alone says nothing.
_FACING, _AWAY = 0.2, -0.5
# How many centimetres a whole segment is, roughly: it only scales how steeply a region ends.
_SEGMENT = 40.0


def garment(part: Part, rim: float) -> tuple[tuple[str, Field], ...]:
    """The segment and the region of the sleeve of an arm or the leg of the garment; none for a part without.

    `rim` is how far it reaches past the outline; below 0 it keeps within it.
    """
    ends = {"arm": ("upper arm", _SLEEVE), "leg": ("thigh", _HEM)}.get(part.limb)
    if ends is None:
        return ()
    name, end = f"{part.side} {ends[0]}", ends[1]

    def covered(skin: Skin) -> float:
        return (skin.along - end) * _SEGMENT if skin.segment == name else 1.0

    return ((name, on_skin(part.solid, covered, rim)),)


def shod(skin: Skin) -> float:
    """Negative on the skin of a foot below the ankle."""
    return (_ANKLE - skin.along) * 8 if skin.segment.endswith((" foot", " toes")) else 1.0


def on_skin(solid: Solid, covered: Callable[[Skin], float], rim: float = 0.0) -> Field:
    """The skin for which `covered` (about centimetres) is negative, `rim` past its outline or, below 0, within it."""

    def field(x: float, y: float) -> float:
        outside = solid.distance(x, y) - rim
        if outside > -0.05:
            return max(outside, 0.05)
        skin = solid.skin(x, y)
        return max(outside, covered(skin)) if skin else 0.05

    return field


def hair(frames: Mapping[str, Frame], seen: Camera) -> tuple[Field, Solid]:
    """Hair down to the hairline, and the cap it is part of."""
    frame, k = frames["head"], STATURE / 1000
    balls = [Ball("head", seen.point(placed(frame, (x * k, 0.0, z * k))), r * k, 0.0) for _, x, z, r in _HAIR_BALLS]
    cap = Solid([Cone(*balls)])
    planes = [(seen.turned(turned(frame, normal)), k * from_joint) for normal, from_joint in _HAIR_PLANES]
    ox, oy, oz = seen.point(frame.origin)

    def field(x: float, y: float) -> float:
        outside = cap.distance(x, y)
        near = cap.near(x, y)
        if near is None:
            return max(outside, 0.02)
        dx, dy, dz = x - ox, y - oy, near - oz
        return max(outside, min(least - dx * a - dy * b - dz * c for (a, b, c), least in planes))

    return field, cap


def angle_from(frame: Frame, seen: Camera, direction: Vector) -> Callable[[Skin], float]:
    """How many degrees skin faces away from a direction in a segment's own axes; one seen edge on is turned a little
    towards the viewer.
    """
    x, y, z = direction
    size = sqrt(x * x + y * y + z * z)
    dx, dy, dz = seen.turned(turned(frame, (x / size, y / size, z / size)))
    if _AWAY < dz < _FACING:
        kept = sqrt((1 - _FACING * _FACING) / (1 - dz * dz))
        dx, dy, dz = dx * kept, dy * kept, _FACING

    def angle(skin: Skin) -> float:
        x, y, z = skin.facing
        return degrees(acos(max(-1.0, min(1.0, x * dx + y * dy + z * dz))))

    return angle
