"""Limbs that could go through each other or the trunk, and which of them are meant to touch."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from protodsl.figure.body.landmarks import LANDMARKS
from protodsl.figure.body.parts import limb_of
from protodsl.figure.body.skeleton import SIDES
from protodsl.figure.posture import STATURE, Sphere
from protodsl.figure.solve.demands import Meeting
from protodsl.figure.solve.resting import ON_HIPS, Asking
from protodsl.model.figure import Posture


def meant_to_meet(askings: Sequence[Asking]) -> frozenset[str]:
    """The names in COLLISIONS of what touches because a pose says so: that pair alone."""
    return frozenset(
        name for asking in askings if asking.kind == "touch" for name in _pairs(asking.landmark, _touched(asking))
    )


def _touched(asking: Asking) -> str:
    """The segment that is touched."""
    if isinstance(asking.statement, Posture) and asking.statement.name == ON_HIPS:
        return "pelvis"
    return asking.demand.near.segment if isinstance(asking.demand, Meeting) else ""


def _pairs(landmark: str, segment: str) -> Iterator[str]:
    side, limb = limb_of(landmark)
    if limb == "leg" and segment.endswith(("thigh", "shank", "foot", "toes")):
        for one, other in (SIDES, SIDES[::-1]):
            yield from (f"{one} {mark}, {other} leg" for mark in _OF_LEG)
    elif limb == "arm":
        marks = ("elbow",) if landmark.endswith(("elbow", "upper arm")) else ("palm", "wrist")
        for near in _BESIDE.get(segment.removeprefix(f"{side} "), ()):
            what = f"{side} {near}" if near == "thigh" else near
            yield from (f"{side} {mark}, {what}" for mark in marks)


# Legs may go into each other at these places; of an arm, what lies beside what is touched.
_OF_LEG = ("calf", "heel", "ankle", "knee")
_BESIDE: dict[str, tuple[str, ...]] = {
    "thigh": ("thigh", "pelvis"), "shank": ("thigh",), "pelvis": ("pelvis", "lumbar", "thigh"),
    "lumbar": ("pelvis", "lumbar", "lower thorax"), "lower thorax": ("lumbar", "lower thorax", "upper thorax"),
    "upper thorax": ("lower thorax", "upper thorax"), "upper arm": ("upper thorax",),
    "right upper arm": ("upper thorax",), "left upper arm": ("upper thorax",),
}  # fmt: skip


def _collisions() -> dict[str, Meeting]:
    """Limbs that could go through each other or the trunk; flesh gives way by a centimetre or two."""
    found: dict[str, Meeting] = {}
    for one, other in (SIDES, SIDES[::-1]):
        shin = _rod(f"{other} shank", -0.03, 0.027, -0.225, 0.022)
        thigh = _rod(f"{other} thigh", -0.06, 0.040, -0.225, 0.033)
        for mark, rod, slack in (("calf", shin, 1.0), ("heel", shin, 0.5), ("ankle", shin, 0.5), ("knee", thigh, 2.0)):
            found[f"{one} {mark}, {other} leg"] = _forbidden(LANDMARKS[f"{one} {mark}"], rod, slack)
    for side in SIDES:
        own_thigh = _rod(f"{side} thigh", -0.06, 0.044, -0.225, 0.033)
        for mark in ("palm", "wrist", "elbow"):
            ball = LANDMARKS[f"{side} {mark}"]
            found[f"{side} {mark}, {side} thigh"] = _forbidden(ball, own_thigh, 1.0)
            for segment, rod in _TRUNK_RODS.items():
                found[f"{side} {mark}, {segment}"] = _forbidden(ball, rod, 1.5)
    return found


def _rod(segment: str, top: float, wide: float, bottom: float, narrow: float) -> tuple[Sphere, Sphere]:
    near = Sphere(segment, (0.0, 0.0, top * STATURE), wide * STATURE)
    return near, Sphere(segment, (0.0, 0.0, bottom * STATURE), narrow * STATURE)


def _across(segment: str, x: float, half: float, z: float, radius: float) -> tuple[Sphere, Sphere]:
    right = Sphere(segment, (x * STATURE, -half * STATURE, z * STATURE), radius * STATURE)
    return right, Sphere(segment, (x * STATURE, half * STATURE, z * STATURE), radius * STATURE)


_TRUNK_RODS: dict[str, tuple[Sphere, Sphere]] = {
    "pelvis": _across("pelvis", -0.002, 0.047, 0.015, 0.047),
    "lumbar": _across("lumbar", 0.013, 0.033, 0.05, 0.045),
    "lower thorax": _across("lower thorax", 0.006, 0.041, 0.04, 0.049),
    "upper thorax": _across("upper thorax", 0.004, 0.045, 0.02, 0.055),
}


def _forbidden(ball: Sphere, rod: tuple[Sphere, Sphere], slack: float) -> Meeting:
    return Meeting(ball, *rod, 3.0, hard=False, at_least=True, slack=slack)


COLLISIONS: dict[str, Meeting] = _collisions()
