"""The ground that carries: the hull of what touches, seen from above, and how far inside it the centre of mass is."""

from __future__ import annotations

from collections.abc import Sequence

from protodsl.figure.body.landmarks import LANDMARKS
from protodsl.figure.solve.demands import centre_of_mass
from protodsl.figure.solve.posing import Posed

Point = tuple[float, float]
# The flesh around a landmark that carries with it, as the sides of a square, in its radius.
_AROUND = ((1.0, 1.0), (1.0, -1.0), (-1.0, 1.0), (-1.0, -1.0))
# A ball of flesh carries on a patch narrower than itself.
PATCH = 0.7


def inside(posed: Posed) -> float:
    """How many cm the centre of mass is inside the base of support; negative: outside; 0 where nothing carries."""
    points: list[Point] = []
    for name, hold in posed.asked.holding.holds.items():
        if not hold.firm:
            continue
        ball = LANDMARKS[name]
        x, y, _ = posed.body.centre(ball)
        patch = PATCH * ball.radius
        points += [(x + patch * dx, y + patch * dy) for dx, dy in _AROUND]
    if not points:
        return 0.0
    centre = centre_of_mass(posed.body)
    return inside_hull((centre[0], centre[1]), hull(points))


def hull(points: Sequence[Point]) -> tuple[Point, ...]:
    """The convex hull, counter-clockwise (Andrew's monotone chain)."""
    ordered = sorted(set(points))
    if len(ordered) < 3:
        return tuple(ordered)
    return tuple(_half(ordered)[:-1] + _half(ordered[::-1])[:-1])


def _half(points: Sequence[Point]) -> list[Point]:
    chain: list[Point] = []
    for point in points:
        while len(chain) > 1 and _left_of(chain[-2], chain[-1], point) <= 0:
            chain.pop()
        chain.append(point)
    return chain


def _left_of(a: Point, b: Point, c: Point) -> float:
    return (b[0] - a[0]) * (c[1] - a[1]) - (b[1] - a[1]) * (c[0] - a[0])


def inside_hull(point: Point, corners: Sequence[Point]) -> float:
    """The distance from a point inside to the nearest edge; from one outside the distance to the hull, negative."""
    edges = list(zip(corners, (*corners[1:], corners[0]), strict=True))
    within = len(corners) > 2 and all(_left_of(a, b, point) >= 0 for a, b in edges)
    nearest = min(_to_edge(point, a, b) for a, b in edges)
    return nearest if within else -nearest


def _to_edge(point: Point, a: Point, b: Point) -> float:
    dx, dy = b[0] - a[0], b[1] - a[1]
    squared = dx * dx + dy * dy
    part = min(1.0, max(0.0, ((point[0] - a[0]) * dx + (point[1] - a[1]) * dy) / squared)) if squared else 0.0
    x, y = a[0] + part * dx - point[0], a[1] + part * dy - point[1]
    return float((x * x + y * y) ** 0.5)
