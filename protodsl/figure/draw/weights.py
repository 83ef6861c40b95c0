"""Weights on the body: a bar with plates through a fist, a quilted cuff above an ankle or a wrist."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import replace
from math import hypot

from protodsl.figure.body import lengths as cm
from protodsl.figure.body.kinematics import point_of
from protodsl.figure.body.skeleton import SIDES
from protodsl.figure.draw import ink
from protodsl.figure.draw.camera import Camera, turned
from protodsl.figure.draw.contour import Point
from protodsl.figure.draw.curve import Pen
from protodsl.figure.draw.layers import Layer
from protodsl.figure.draw.things import Thing
from protodsl.figure.posture import Frame, Sphere, Vector

# Half the length and half the width of a cuff, in centimetres: a little wider than the limb it is round.
_CUFF_LONG, _CUFF_WIDE = 4.2, 4.9
# Neither the shoe's tone nor the skin's: in grey a dark cuff is a boot.
_QUILT = "#c9b48f"
# A cuff is strapped above the joint: the segment it is on, and how far from that segment's own joint (cm).
_ABOVE = {"ankle": ("shank", cm.SHANK - 8.0), "wrist": ("forearm", cm.FOREARM - 6.0)}
# Centimetres by which one fist lies behind the other for its weight to be the far one.
_BEHIND = 8.0


def weights(
    ends: Sequence[str], balls: Sequence[Sphere], places: Sequence[Vector], frames: Mapping[str, Frame], seen: Camera
) -> tuple[Thing, ...]:
    """A weight an end; the far one of two is behind the body, so that they can be told apart.

    A far cuff is, too, where the near limb stands before it; else it would be seen on that one.
    """
    near = max(places, key=lambda at: at[2])
    found = []
    for end, ball, at in zip(ends, balls, places, strict=True):
        far = near[2] - at[2] > _BEHIND
        if ball.segment.endswith("hand"):
            found.append(_bar(ball, at, frames, seen, far))
        else:
            hidden = far and hypot(at[0] - near[0], at[1] - near[1]) < 2 * _CUFF_WIDE
            found.append(replace(cuff(end, ball, frames, seen), before=not hidden))
    return tuple(found)


def cuff(end: str, ball: Sphere, frames: Mapping[str, Frame], seen: Camera, tone: str = _QUILT) -> Thing:
    """A cuff round a limb, quilted where it holds a weight."""
    side, _, name = end.partition(" ")
    segment, down = _ABOVE.get(name, ("", 0.0)) if side in SIDES else ("", 0.0)
    frame = frames[f"{side} {segment}" if segment else ball.segment]
    x, y, _ = seen.point(point_of(frame, (0.0, 0.0, -down) if segment else ball.centre))
    ux, uy = _way(frame, (0.0, 0.0, 1.0), seen)

    def place(along: float, across: float) -> Point:
        return x + ux * along - uy * across, y + uy * along + ux * across

    long, wide = _CUFF_LONG, _CUFF_WIDE
    rim = [place(-long, -wide), place(long, -wide), place(long, wide), place(-long, wide)]
    seams = [[place(0.75 * -long, share * wide), place(0.75 * long, share * wide)] for share in (-0.4, 0.4)]

    def paint(pen: Pen) -> list[Layer]:
        layers = [Layer(pen.fresh().lines(rim, close=True).data, tone, ink.INK, ink.LINE)]
        if tone == _QUILT:
            layers.append(Layer("".join(pen.fresh().lines(seam).data for seam in seams), "", ink.INK, ink.THIN))
        return layers

    return Thing(paint, tuple(rim), True, False)


def _bar(ball: Sphere, at: Vector, frames: Mapping[str, Frame], seen: Camera, far: bool) -> Thing:
    """A hand weight, along the thumb's side of the fist."""
    x, y, _ = at
    ux, uy = _way(frames[ball.segment], (1.0, 0.0, 0.0), seen)
    line = ink.FAINT if far else ink.INK
    bar = [(x - ux * 8, y - uy * 8), (x + ux * 8, y + uy * 8)]
    plates = [[(px - uy * 4, py + ux * 4), (px + uy * 4, py - ux * 4)] for px, py in bar]

    def paint(pen: Pen) -> list[Layer]:
        return [
            Layer(pen.fresh().lines(bar).data, "", line, 7),
            Layer("".join(pen.fresh().lines(plate).data for plate in plates), "", line, 14),
        ]

    return Thing(paint, ((x - 12, y - 8), (x + 12, y + 8)), not far, False)


def _way(frame: Frame, direction: Vector, seen: Camera) -> Point:
    """A direction in a segment as it is seen, of unit length; level where it points at the viewer."""
    dx, dy, _ = seen.turned(turned(frame, direction))
    size = hypot(dx, dy)
    return (dx / size, dy / size) if size > 0.2 else (1.0, 0.0)
