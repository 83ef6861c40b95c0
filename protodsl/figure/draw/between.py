"""Poses between two poses: every joint turned part of the way about one axis, as a limb swings."""

from __future__ import annotations

from collections.abc import Mapping
from math import acos, cos, sin, sqrt

from protodsl.figure.body.skeleton import BONES
from protodsl.figure.body.vectors import add, after, minus, times, turned
from protodsl.figure.posture import SEGMENTS, Frame, Matrix, Vector


def between(start: Mapping[str, Frame], end: Mapping[str, Frame], share: float) -> dict[str, Frame]:
    """The frames `share` (0 to 1) of the way from one pose to the next."""
    found: dict[str, Frame] = {}
    for bone in BONES:
        a, b = start[bone.segment], end[bone.segment]
        if bone.parent < 0:
            at = add(a.origin, times(minus(b.origin, a.origin), share))
            found[bone.segment] = Frame(at, _part_way(a.axes, b.axes, share))
            continue
        parent = SEGMENTS[bone.parent]
        p, q, r = start[parent], end[parent], found[parent]
        joint_a, joint_b = (turned(_back(one.axes), minus(c.origin, one.origin)) for one, c in ((p, a), (q, b)))
        joint = add(joint_a, times(minus(joint_b, joint_a), share))
        own = _part_way(after(_back(p.axes), a.axes), after(_back(q.axes), b.axes), share)
        found[bone.segment] = Frame(add(r.origin, turned(r.axes, joint)), after(r.axes, own))
    return found


def _back(m: Matrix) -> Matrix:
    """The turn the other way: of a turning matrix, its transpose."""
    return (m[0], m[3], m[6], m[1], m[4], m[7], m[2], m[5], m[8])


def _part_way(a: Matrix, b: Matrix, share: float) -> Matrix:
    """Part of the shortest turn from one to the other."""
    d = after(_back(a), b)
    angle = acos(max(-1.0, min(1.0, (d[0] + d[4] + d[8] - 1) / 2)))
    axis = (d[7] - d[5], d[2] - d[6], d[3] - d[1])
    size = sqrt(axis[0] ** 2 + axis[1] ** 2 + axis[2] ** 2)
    # No turn at all, or half a turn, which has no shortest way: nothing that a joint does between two poses.
    if size < 1e-9:
        return a if share < 0.5 else b
    return after(a, _about(times(axis, 1 / size), angle * share))


def _about(axis: Vector, angle: float) -> Matrix:
    """A turn about any axis (Rodrigues)."""
    x, y, z = axis
    c, s = cos(angle), sin(angle)
    v = 1 - c
    return (
        c + x * x * v, x * y * v - z * s, x * z * v + y * s,
        y * x * v + z * s, c + y * y * v, y * z * v - x * s,
        z * x * v - y * s, z * y * v + x * s, c + z * z * v,
    )  # fmt: skip
