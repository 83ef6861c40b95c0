"""The flesh: balls fixed in the segments, so that a segment's outline is that of the hull of its balls.

Their radii are drawn, not measured; they keep the breadths of `lengths.py` at the hips, shoulders and feet, the
height of the head, and the length of hand and foot.
"""

from __future__ import annotations

from protodsl.figure.body import lengths as cm
from protodsl.figure.body.skeleton import SIDES
from protodsl.figure.posture import STATURE, Sphere

_Ball = tuple[float, float, float, float]

# Thousandths of stature: x, y (mirrored where it is not 0), z, radius.
_MIDDLE: dict[str, tuple[_Ball, ...]] = {
    "pelvis": ((-18, 46, -4, 50), (0, 50, 30, 45), (10, 0, 18, 46)),
    "lumbar": ((14, 34, 24, 46), (12, 32, 80, 45)),
    "lower thorax": ((6, 40, 18, 48), (6, 42, 58, 50)),
    "upper thorax": ((4, 48, 16, 55), (-2, 62, 50, 42), (-4, 26, 76, 33)),
    "neck": ((0, 0, 0, 32), (10, 0, 52, 30)),
    "head": ((-6, 0, 35, 48), (14, 0, 37, 46), (28, 0, -27, 20)),
}
_BALL_X, _BALL_Z, _BALL_R = (
    1000 * value / STATURE for value in (cm.ANKLE_TO_BALL, cm.BALL_RADIUS - cm.ANKLE_HEIGHT, cm.BALL_RADIUS)
)
_LIMB: dict[str, tuple[_Ball, ...]] = {
    "upper arm": ((0, 0, 0, 32), (0, 0, -60, 29), (0, 0, -186, 22)),
    "forearm": ((0, 0, 0, 22), (0, 0, -42, 24), (0, 0, -146, 15.5)),
    "hand": ((0, 0, 0, 14.5), (13, 0, -50, 12), (-13, 0, -50, 12), (3, 0, -98, 9.3)),
    "thigh": ((0, 0, -15, 48), (2, 0, -130, 42), (0, 0, -245, 31)),
    "shank": ((0, 0, 0, 31), (8, 0, -14, 26), (-8, 0, -75, 32.5), (0, 0, -246, 21)),
    "foot": ((0, 0, 0, 20.5), (-20, 0, -19, 20), (30, 0, -10, 20), (_BALL_X, 12, _BALL_Z, _BALL_R)),
    "toes": ((0, 12, 0, _BALL_R), (30.1, 9, -3, 12.5)),
}  # fmt: skip


def _spheres(segment: str, balls: tuple[_Ball, ...]) -> tuple[Sphere, ...]:
    k = STATURE / 1000
    return tuple(
        Sphere(segment, (x * k, sign * y * k, z * k), radius * k)
        for x, y, z, radius in balls
        for sign in ((-1, 1) if y else (1,))
    )


FLESH: dict[str, tuple[Sphere, ...]] = {
    **{segment: _spheres(segment, balls) for segment, balls in _MIDDLE.items()},
    **{f"{side} {name}": _spheres(f"{side} {name}", balls) for side in SIDES for name, balls in _LIMB.items()},
}
