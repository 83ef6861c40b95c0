"""Named places on the flesh: what touches a surface, what is measured from, what an arrow follows."""

from __future__ import annotations

from protodsl.figure.body import lengths as cm
from protodsl.figure.body.skeleton import SIDES
from protodsl.figure.posture import STATURE, Sphere

_Place = tuple[str, float, float, float, float]

# Segment, then thousandths of stature: x, y, z, radius. On a limb or a side, y counts outwards.
_MIDDLE: dict[str, _Place] = {
    "back of head": ("head", -6, 0, 35, 48),
    "forehead": ("head", 14, 0, 37, 46),
    "chin": ("head", 28, 0, -27, 20),
    "nape": ("neck", 0, 0, 10, 32),
    "upper back": ("upper thorax", -4, 0, 30, 55),
    "chest": ("upper thorax", 6, 0, 14, 56),
    "middle back": ("lower thorax", 2, 0, 40, 49),
    "belly": ("lumbar", 14, 0, 30, 46),
    "lower back": ("lumbar", 12, 0, 60, 45),
    "sacrum": ("pelvis", -16, 0, 34, 46),
    "pubis": ("pelvis", 10, 0, 12, 46),
}
_SIDE: dict[str, _Place] = {
    "temple": ("head", 2, 0, 34, 48),
    "seat": ("pelvis", -18, 46, -4, 50),
    "side of hip": ("pelvis", 0, 50, 0, 46),
    "hip": ("thigh", 0, 0, 0, 0),
    "shoulder": ("upper arm", 0, 0, 0, 32),
    "upper arm": ("upper arm", 0, 0, -93, 27),
    "elbow": ("forearm", 0, 0, 0, 22),
    "forearm": ("forearm", 0, 0, -73, 20),
    "wrist": ("forearm", 0, 0, -146, 15.5),
    "palm": ("hand", 0, 0, -14, 14),
    "index knuckle": ("hand", 13, 0, -50, 12),
    "little knuckle": ("hand", -13, 0, -50, 12),
    "fingertips": ("hand", 3, 0, -98, 9.3),
    "thigh": ("thigh", 2, 0, -130, 42),
    "knee": ("shank", 0, 0, 0, 31),
    "kneecap": ("shank", 8, 0, -14, 26),
    "shin": ("shank", 2, 0, -130, 26),
    "calf": ("shank", -8, 0, -75, 32.5),
    "ankle": ("foot", 0, 0, 0, 20.5),
    "heel": ("foot", -20, 0, -19, 20),
    "instep": ("foot", 30, 0, -10, 20),
    "ball of big toe": ("foot", 0, -12, 0, 0),
    "ball of little toe": ("foot", 0, 12, 0, 0),
    "toes": ("toes", 30.1, 0, -3, 12.5),
}


def _landmarks() -> dict[str, Sphere]:
    k = STATURE / 1000
    found = {name: Sphere(row[0], (row[1] * k, row[2] * k, row[3] * k), row[4] * k) for name, row in _MIDDLE.items()}
    for side, out in zip(SIDES, (-1, 1), strict=True):
        for name, (segment, x, y, z, radius) in _SIDE.items():
            on = segment if segment in ("head", "pelvis") else f"{side} {segment}"
            found[f"{side} {name}"] = Sphere(on, (x * k, out * y * k, z * k), radius * k)
            if name.startswith("ball of"):
                at = (cm.ANKLE_TO_BALL, out * y * k, cm.BALL_RADIUS - cm.ANKLE_HEIGHT)
                found[f"{side} {name}"] = Sphere(on, at, cm.BALL_RADIUS)
    return found


LANDMARKS: dict[str, Sphere] = _landmarks()
