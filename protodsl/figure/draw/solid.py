"""Flesh as the camera sees it: round cones between balls, how far a place is from their outline, what skin is there."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from math import hypot, sqrt

from protodsl.figure.posture import Vector

# Farther than any page: the outside of nothing.
_NOWHERE = 1e9


@dataclass(frozen=True, slots=True)
class Ball:
    """A ball in the camera's axes; `along` is where it lies on its segment, 0 at the near joint to 1 at the far one."""

    segment: str
    at: Vector
    radius: float
    along: float


@dataclass(frozen=True, slots=True)
class Skin:
    """The skin that is seen at a place on the page: its segment, how far along it, the way it faces, where it is."""

    segment: str
    along: float
    facing: Vector
    at: Vector

    @property
    def near(self) -> float:
        """How near it is to the viewer."""
        return self.at[2]


class Cone:
    """The hull of two balls of one segment."""

    __slots__ = ("a", "b", "cosine", "fall", "flat", "length", "segment", "span")

    def __init__(self, a: Ball, b: Ball) -> None:
        self.a, self.b = a, b
        self.segment = a.segment
        dx, dy, dz = (b.at[0] - a.at[0], b.at[1] - a.at[1], b.at[2] - a.at[2])
        self.flat = hypot(dx, dy)
        self.length = sqrt(dx * dx + dy * dy + dz * dz)
        self.span = (dx / self.flat, dy / self.flat) if self.flat > 1e-9 else (1.0, 0.0)
        # Seen end on, one ball's circle lies in the other's: there is no slope then, only the larger circle.
        self.fall = (a.radius - b.radius) / self.flat if self.flat > abs(a.radius - b.radius) + 1e-9 else _NOWHERE
        self.cosine = sqrt(1 - self.fall * self.fall) if self.fall != _NOWHERE else 0.0

    def around(self) -> tuple[float, float, float]:
        """The middle of a circle around the cone, and its radius."""
        (ax, ay, _), (bx, by, _) = self.a.at, self.b.at
        return (ax + bx) / 2, (ay + by) / 2, self.flat / 2 + max(self.a.radius, self.b.radius)

    def flattened(self) -> tuple[float, float, float, float, float, float, float, float, float]:
        """Near end, way along, length, slope of the radius, its cosine, both radii; end on, the larger circle alone."""
        a, b = self.a, self.b
        if self.fall == _NOWHERE:
            larger = a if a.radius >= b.radius else b
            return (larger.at[0], larger.at[1], 1.0, 0.0, 0.0, 0.0, 1.0, larger.radius, larger.radius)
        return (a.at[0], a.at[1], *self.span, self.flat, self.fall, self.cosine, a.radius, b.radius)

    def skin(self, x: float, y: float) -> Skin | None:
        """The skin seen at a place; None beside the cone.

        Of all balls between the two, `near = z + sqrt(q)` is largest where its slope is nought, or at an end; q, the
        square of half the chord that the ray cuts from a ball, is a quadratic in the way from one ball to the other.
        """
        a, b = self.a, self.b
        px, py = x - a.at[0], y - a.at[1]
        dx, dy, dz = b.at[0] - a.at[0], b.at[1] - a.at[1], b.at[2] - a.at[2]
        dr = b.radius - a.radius
        second = dr * dr - dx * dx - dy * dy
        first = 2 * (a.radius * dr + px * dx + py * dy)
        chord = a.radius * a.radius - px * px - py * py
        slope = second - dz * dz
        found: tuple[float, float] | None = None
        for share in (0.0, 1.0, *_roots(second * slope, first * slope, first * first / 4 - dz * dz * chord)):
            q = (second * share + first) * share + chord
            if 0 <= share <= 1 and q >= 0:
                near = a.at[2] + dz * share + sqrt(q)
                if found is None or near > found[0]:
                    found = near, share
        if found is None:
            return None
        near, share = found
        radius = a.radius + dr * share
        facing = ((px - dx * share) / radius, (py - dy * share) / radius, (near - a.at[2] - dz * share) / radius)
        return Skin(self.segment, a.along + (b.along - a.along) * share, facing, (x, y, near))


def _roots(a: float, b: float, c: float) -> tuple[float, ...]:
    """Where a t^2 + b t + c is nought."""
    inner = b * b - 4 * a * c
    if abs(a) < 1e-12 or inner < -1e-9:
        return ()
    root = sqrt(max(0.0, inner))
    return ((-b + root) / (2 * a), (-b - root) / (2 * a))


class Solid:
    """Several cones as one body."""

    __slots__ = ("_flat", "_foremost", "_middles", "_nearest", "cones")

    def __init__(self, cones: Sequence[Cone]) -> None:
        self.cones = tuple(cones)
        # The outline is asked for ten thousand times a drawing: what it needs lies ready in plain tuples.
        self._middles = [cone.around() for cone in self.cones]
        self._flat = [(*around, *cone.flattened()) for around, cone in zip(self._middles, self.cones, strict=True)]
        # The foremost skin is asked of the cones that reach nearest first.
        ahead = [max(cone.a.at[2] + cone.a.radius, cone.b.at[2] + cone.b.radius) for cone in self.cones]
        rows = zip(ahead, self._middles, self.cones, strict=True)
        self._foremost = sorted(rows, key=lambda row: -row[0])
        # Places come one beside the other: the cone that was nearest to the last is asked first.
        self._nearest = self._flat[0]

    def distance(self, x: float, y: float) -> float:
        """From the outline of all, negative inside; exact near the outline."""
        found = _from_outline(self._nearest, x, y)
        for cone in self._flat:
            # No nearer than the square around it: most cones of a body are passed over by this alone.
            far = found + cone[2]
            dx, dy = x - cone[0], y - cone[1]
            if dx > far or -dx > far or dy > far or -dy > far:
                continue
            here = _from_outline(cone, x, y)
            if here < found:
                found = here
                self._nearest = cone
        return found

    def skin(self, x: float, y: float) -> Skin | None:
        """The foremost skin at a place; None where the body is not."""
        found: Skin | None = None
        for nearest, (mx, my, reach), cone in self._foremost:
            if found and nearest <= found.at[2]:
                break
            if -reach < x - mx < reach and -reach < y - my < reach:
                found = _nearer(found, cone.skin(x, y))
        return found

    def near(self, x: float, y: float) -> float | None:
        """How near the foremost skin at a place is; None where the body is not."""
        skin = self.skin(x, y)
        return None if skin is None else skin.near

    def balls(self) -> tuple[Ball, ...]:
        """Every ball once."""
        return tuple(dict.fromkeys(ball for cone in self.cones for ball in (cone.a, cone.b)))

    def box(self) -> tuple[float, float, float, float]:
        """Left, top, right and bottom of what is seen."""
        balls = self.balls()
        return (
            min(ball.at[0] - ball.radius for ball in balls),
            min(ball.at[1] - ball.radius for ball in balls),
            max(ball.at[0] + ball.radius for ball in balls),
            max(ball.at[1] + ball.radius for ball in balls),
        )


def _from_outline(cone: tuple[float, ...], x: float, y: float) -> float:
    """How far a place is from a cone's outline, negative inside."""
    _, _, _, ax, ay, ux, uy, flat, fall, cosine, ra, rb = cone
    px, py = x - ax, y - ay
    along = px * ux + py * uy
    aside = px * uy - py * ux
    if aside < 0:
        aside = -aside
    k = cosine * along - fall * aside
    if k < 0:
        return hypot(px, py) - ra
    if k > cosine * flat:
        return hypot(aside, along - flat) - rb
    return cosine * aside + fall * along - ra


def _nearer(one: Skin | None, other: Skin | None) -> Skin | None:
    if one is None or other is None:
        return one or other
    return one if one.at[2] >= other.at[2] else other
