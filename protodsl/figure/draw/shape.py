"""The body that is seen: head, trunk, two arms, two legs, each an outline of balls in the segments of a pose."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

from protodsl.figure.draw.camera import Camera, placed
from protodsl.figure.draw.solid import Ball, Cone, Solid
from protodsl.figure.posture import STATURE, Frame, Vector

SIDES = ("right", "left")
LIMBS = ("arm", "leg")
PARTS = ("trunk", "head", *(f"{side} {limb}" for side in SIDES for limb in LIMBS))

# A ball: segment, then x, y (outwards on a side), z, radius in thousandths of stature, and how far along its segment
# (the trunk counts as one, from seat to collar).
_Row = tuple[str, float, float, float, float, float]

# Where flesh touches things, the balls are those of body.flesh; what lies between is shaped for the eye.
_TRUNK: dict[str, _Row] = {
    "seat": ("pelvis", -18, 46, -4, 50, 0.0),
    "hip": ("pelvis", 0, 50, 30, 45, 0.15),
    "front": ("pelvis", 10, 16, 18, 46, 0.1),
    "waist": ("lumbar", 10, 33, 34, 43, 0.33),
    "loin": ("lumbar", 10, 31, 74, 43, 0.48),
    "ribs": ("lower thorax", 6, 40, 28, 49, 0.62),
    "chest": ("upper thorax", 4, 48, 16, 55, 0.75),
    "armpit": ("upper thorax", -2, 64, 50, 40, 0.88),
    "collar": ("upper thorax", -4, 30, 72, 31, 0.97),
}
_WHOLE = dict.fromkeys(("pelvis", "lumbar", "lower thorax", "upper thorax"), "trunk")
_TRUNK_LINKS = (
    ("seat", "hip"), ("seat", "front"), ("front", "hip"), ("hip", "waist"), ("front", "waist"), ("waist", "loin"),
    ("loin", "ribs"), ("ribs", "chest"), ("chest", "armpit"), ("armpit", "collar"), ("chest", "collar"),
)  # fmt: skip
_TRUNK_ACROSS = ("seat", "hip", "front", "waist", "loin", "ribs", "chest", "armpit", "collar")

_HEAD: dict[str, _Row] = {
    "nape": ("neck", -2, 0, -8, 30, 0.0),
    "throat": ("neck", 10, 0, 48, 29, 1.0),
    "back": ("head", -8, 0, 35, 50, 0.6),
    "brow": ("head", 13, 0, 38, 47, 0.7),
    "jaw": ("head", 20, 0, -10, 29, 0.2),
    "chin": ("head", 33, 0, -27, 19, 0.0),
    "bridge": ("head", 56, 0, 21, 8, 0.4),
    "tip": ("head", 66, 0, 3, 7.5, 0.3),
    "lip": ("head", 45, 0, -2, 13, 0.2),
}
_HEAD_LINKS = (
    ("nape", "throat"), ("throat", "back"), ("back", "brow"), ("brow", "jaw"), ("back", "jaw"), ("jaw", "chin"),
    ("brow", "chin"), ("brow", "bridge"), ("bridge", "tip"), ("tip", "lip"), ("lip", "chin"),
)  # fmt: skip

_ARM: dict[str, _Row] = {
    "shoulder": ("upper arm", 0, 0, -2, 33, 0.0),
    "biceps": ("upper arm", 3, 0, -80, 28, 0.43),
    "elbow": ("upper arm", 0, 0, -186, 21, 1.0),
    "bend": ("forearm", 0, 0, 0, 21, 0.0),
    "belly": ("forearm", 2, 0, -44, 24, 0.3),
    "wrist": ("forearm", 0, 0, -146, 15, 1.0),
    "root": ("hand", 0, 0, -4, 14.5, 0.0),
    "pointer": ("hand", 12, 0, -48, 13, 0.5),
    "little": ("hand", -12, 0, -46, 13, 0.5),
    "tips": ("hand", 3, 0, -97, 10.5, 1.0),
    "thumb root": ("hand", 13, 0, -20, 11, 0.2),
    "thumb": ("hand", 33, 0, -52, 8.5, 0.5),
}
_ARM_LINKS = (
    ("shoulder", "biceps"), ("biceps", "elbow"), ("bend", "belly"), ("belly", "wrist"), ("root", "pointer"),
    ("root", "little"), ("pointer", "little"), ("pointer", "tips"), ("little", "tips"), ("thumb root", "thumb"),
)  # fmt: skip

_LEG: dict[str, _Row] = {
    "hip": ("thigh", 0, 0, -15, 48, 0.06),
    "thigh": ("thigh", 3, 0, -100, 44, 0.41),
    "low thigh": ("thigh", 2, 0, -190, 34.5, 0.78),
    "above knee": ("thigh", 1, 0, -245, 30.5, 1.0),
    "knee": ("shank", 1, 0, 0, 30.5, 0.0),
    "kneecap": ("shank", 8, 0, -14, 26, 0.06),
    "calf": ("shank", -8, 0, -75, 32.5, 0.3),
    "low calf": ("shank", -4, 0, -150, 25, 0.61),
    "above ankle": ("shank", 0, 0, -240, 19.5, 0.98),
    "ankle": ("foot", 0, 0, 0, 20.5, 0.0),
    "heel": ("foot", -20, 0, -19, 20, 0.5),
    "instep": ("foot", 30, 0, -11, 19.5, 0.6),
    "ball": ("foot", 69.4, 10, -23.5, 15.5, 0.8),
    "toe root": ("toes", 0, 10, 0, 15.5, 0.9),
    "toe": ("toes", 30, 6, -3, 12.5, 1.0),
}
_LEG_LINKS = (
    ("hip", "thigh"), ("thigh", "low thigh"), ("low thigh", "above knee"), ("knee", "kneecap"), ("knee", "calf"),
    ("kneecap", "low calf"), ("calf", "low calf"), ("low calf", "above ankle"), ("ankle", "heel"),
    ("ankle", "instep"), ("heel", "instep"), ("heel", "ball"), ("instep", "ball"), ("toe root", "toe"),
)  # fmt: skip
_LEG_ACROSS = ("ball", "toe root", "toe")
_SHOE = (("heel", "instep"), ("heel", "ball"), ("instep", "ball"), ("toe root", "toe"))


@dataclass(frozen=True, slots=True)
class Part:
    """A part of the body in a view: its flesh, and where it hangs on the trunk."""

    name: str
    solid: Solid
    root: Vector

    @property
    def side(self) -> str:
        """`right`, `left` or ""."""
        return self.name.rpartition(" ")[0]

    @property
    def limb(self) -> str:
        """`arm`, `leg`, `trunk` or `head`."""
        return self.name.rpartition(" ")[2]


def parts(frames: Mapping[str, Frame], seen: Camera) -> dict[str, Part]:
    """The parts of a body by name, in the camera's axes."""

    def ball(row: _Row, side: str, out: float) -> Ball:
        name, x, y, z, radius, along = row
        segment = f"{side} {name}" if side else name
        k = STATURE / 1000
        at = seen.point(placed(frames[segment], (x * k, out * y * k, z * k)))
        return Ball(segment if side else _WHOLE.get(name, name), at, radius * k, along)

    found: dict[str, Part] = {}
    pairs = {name: (ball(row, "", -1.0), ball(row, "", 1.0)) for name, row in _TRUNK.items()}
    cones = [Cone(pairs[a][i], pairs[b][i]) for a, b in _TRUNK_LINKS for i in (0, 1)]
    cones += [Cone(*pairs[name]) for name in _TRUNK_ACROSS]
    found["trunk"] = Part("trunk", Solid(cones), seen.point(frames["pelvis"].origin))
    singles = {name: ball(row, "", 1.0) for name, row in _HEAD.items()}
    found["head"] = Part("head", Solid(_linked(singles, _HEAD_LINKS)), seen.point(frames["neck"].origin))
    for side in SIDES:
        arm = {name: ball(row, side, 1.0) for name, row in _ARM.items()}
        root = seen.point(frames[f"{side} upper arm"].origin)
        found[f"{side} arm"] = Part(f"{side} arm", Solid(_linked(arm, _ARM_LINKS)), root)
        inner, outer = ({name: ball(row, side, out) for name, row in _LEG.items()} for out in (-1.0, 1.0))
        shoe = (
            _linked(inner, _SHOE) + _linked(outer, _SHOE[1:]) + [Cone(inner[name], outer[name]) for name in _LEG_ACROSS]
        )
        leg = _linked(inner, _LEG_LINKS[:10]) + shoe
        root = seen.point(frames[f"{side} thigh"].origin)
        found[f"{side} leg"] = Part(f"{side} leg", Solid(leg), root)
    return found


def _linked(balls: Mapping[str, Ball], links: tuple[tuple[str, str], ...]) -> list[Cone]:
    return [Cone(balls[a], balls[b]) for a, b in links]
