"""Cones between balls, held against their definition: the union of all balls on the way from one to the other."""

from __future__ import annotations

from math import hypot, sqrt

import pytest

from protodsl.figure.draw.solid import Ball, Cone, Solid

_SLENDER = Cone(Ball("a", (0.0, 0.0, 0.0), 3.0, 0.0), Ball("a", (20.0, 5.0, -8.0), 1.5, 1.0))
_END_ON = Cone(Ball("a", (0.0, 0.0, 0.0), 5.0, 0.0), Ball("a", (1.0, 0.5, 30.0), 3.0, 1.0))
_STEEP = Cone(Ball("a", (-2.0, 1.0, 4.0), 4.0, 0.0), Ball("a", (3.0, 9.0, 22.0), 4.0, 1.0))
_CONES = {"slender": _SLENDER, "end on": _END_ON, "steep": _STEEP}
_STEPS = 4000


def _balls(cone: Cone) -> list[tuple[float, float, float, float]]:
    a, b = cone.a, cone.b
    found = []
    for step in range(_STEPS + 1):
        t = step / _STEPS
        x, y, z = (p + (q - p) * t for p, q in zip(a.at, b.at, strict=True))
        found.append((x, y, z, a.radius + (b.radius - a.radius) * t))
    return found


@pytest.mark.parametrize("name", _CONES)
def test_the_outline_is_that_of_all_balls_between(name: str) -> None:
    """Outside and inside, how far a place is from the outline agrees with the nearest of four thousand circles."""
    cone = _CONES[name]
    balls = _balls(cone)
    for x in range(-12, 32, 3):
        for y in range(-12, 20, 3):
            wanted = min(hypot(x - bx, y - by) - radius for bx, by, _, radius in balls)
            assert Solid([cone]).distance(x, y) == pytest.approx(wanted, abs=0.02)


@pytest.mark.parametrize("name", _CONES)
def test_the_skin_that_is_seen_is_the_nearest(name: str) -> None:
    """How near the skin is agrees with the nearest of all balls that a ray meets."""
    cone = _CONES[name]
    balls = _balls(cone)
    seen = 0
    for x in range(-6, 28, 2):
        for y in range(-6, 16, 2):
            inside = [(bz, r * r - (x - bx) ** 2 - (y - by) ** 2) for bx, by, bz, r in balls]
            hit = [bz + sqrt(left) for bz, left in inside if left >= 0]
            skin = cone.skin(x, y)
            if hit and skin:
                seen += 1
                assert skin.near == pytest.approx(max(hit), abs=0.01)
            assert bool(skin) or not hit
    assert seen > 8


def test_a_body_is_its_nearest_cone() -> None:
    """The outline of several cones is that of the nearest one, whatever place was asked before."""
    solid = Solid(list(_CONES.values()))
    for x in range(-12, 32, 5):
        for y in range(-12, 20, 5):
            assert solid.distance(x, y) == pytest.approx(min(Solid([cone]).distance(x, y) for cone in _CONES.values()))
    assert solid.distance(0.0, 0.0) == solid.distance(0.0, 0.0) < 0


def test_the_way_that_skin_faces_is_of_unit_length() -> None:
    """A normal is one long, and looks at the viewer."""
    for x in range(-2, 20):
        skin = _SLENDER.skin(x, x / 4)
        if skin:
            assert sum(v * v for v in skin.facing) == pytest.approx(1.0, abs=1e-6)
            assert skin.facing[2] >= 0
