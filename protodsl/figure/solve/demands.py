"""What is asked of the body, each as a number that should be zero, with how it changes when the body moves.

Lengths are in cm. A direction counts as if it were REACH cm long, so that degrees and centimetres weigh alike.
"""

from __future__ import annotations

from dataclasses import dataclass
from math import sqrt

from protodsl.figure.body.landmarks import LANDMARKS
from protodsl.figure.body.masses import MASSES
from protodsl.figure.body.skeleton import BONES, SEGMENT_NUMBER
from protodsl.figure.body.vectors import add, cross, dot, length, minus, times
from protodsl.figure.posture import Sphere, Vector
from protodsl.figure.solve.motion import PELVIS, WAYS, Placement, Slopes, no_slopes

REACH = 40.0

# An error, weighed, and its slopes.
Row = tuple[float, Slopes]


@dataclass(frozen=True, slots=True)
class Term:
    """`factor` times how far a point of a segment (or, if `turns`, a direction in it) reaches `along` a world
    direction.
    """

    segment: int
    own: Vector
    along: Vector
    factor: float = 1.0
    turns: bool = False


@dataclass(frozen=True, slots=True)
class Level:
    """The sum of terms equals `target`; with `at_least` it may be more. `weight` is in 1/cm; `hard` is an equality
    to keep.
    """

    terms: tuple[Term, ...]
    target: float
    weight: float
    hard: bool = True
    at_least: bool = False

    def miss(self, body: Placement) -> float:
        """How much too large the sum is; negative where it is too small; 0 where it is allowed to be what it is."""
        value = -self.target
        for term in self.terms:
            if term.turns:
                m = body.axes[term.segment]
                x, y, z = term.own
                reached = (
                    m[0] * x + m[1] * y + m[2] * z,
                    m[3] * x + m[4] * y + m[5] * z,
                    m[6] * x + m[7] * y + m[8] * z,
                )
            else:
                reached = body.point(term.segment, term.own)
            value += term.factor * dot(reached, term.along)
        return min(value, 0.0) if self.at_least else value

    def rows(self, body: Placement, stiffness: float) -> tuple[Row, ...]:
        """The weighed error with its slopes; none where nothing is to be corrected."""
        error = self.miss(body)
        if self.at_least and error == 0.0:
            return ()
        weight = self.weight * stiffness if self.hard else self.weight
        slopes = no_slopes()
        for term in self.terms:
            if term.turns:
                direction = minus(body.point(term.segment, term.own), body.origins[term.segment])
                body.turning(term.segment, direction, term.along, slopes, term.factor * weight)
            else:
                body.slopes(term.segment, body.point(term.segment, term.own), term.along, slopes, term.factor * weight)
        return ((error * weight, slopes),)

    def segments(self) -> frozenset[int]:
        """The segments that can do something about it."""
        return frozenset(term.segment for term in self.terms)


@dataclass(frozen=True, slots=True)
class Meeting:
    """A ball of flesh touches the rounded rod between two balls of one segment; with `at_least` it may stay away
    from it.

    `along` is how far along the rod it should be, from 0 to 1, and only a wish.
    """

    ball: Sphere
    near: Sphere
    far: Sphere
    weight: float
    hard: bool = True
    at_least: bool = False
    along: float | None = None
    slack: float = 0.0

    def miss(self, body: Placement) -> float:
        """The gap between the two in cm, negative where they go into each other."""
        _, _, gap, _ = self._closest(body)
        return min(gap + self.slack, 0.0) if self.at_least else gap

    def rows(self, body: Placement, stiffness: float) -> tuple[Row, ...]:
        """The weighed gap, and softly where along the rod."""
        at, foot, gap, _ = self._closest(body)
        error = min(gap + self.slack, 0.0) if self.at_least else gap
        if self.at_least and error == 0.0:
            return ()
        weight = self.weight * stiffness if self.hard else self.weight
        way = minus(at, foot)
        distance = length(way) or 1e-6
        outward = times(way, 1.0 / distance)
        rows = [(error * weight, self._slopes(body, at, foot, outward, weight))]
        if self.along is not None:
            rod = minus(body.centre(self.far), body.centre(self.near))
            unit = times(rod, 1.0 / (length(rod) or 1e-6))
            off = dot(minus(at, body.centre(self.near)), unit) - self.along * length(rod)
            rows.append((off * 0.2, self._slopes(body, at, foot, unit, 0.2)))
        return tuple(rows)

    def _slopes(self, body: Placement, at: Vector, foot: Vector, along: Vector, weight: float) -> Slopes:
        slopes = no_slopes()
        body.slopes(SEGMENT_NUMBER[self.ball.segment], at, along, slopes, weight)
        body.slopes(SEGMENT_NUMBER[self.near.segment], foot, along, slopes, -weight)
        return slopes

    def _closest(self, body: Placement) -> tuple[Vector, Vector, float, float]:
        at, near, far = body.centre(self.ball), body.centre(self.near), body.centre(self.far)
        rod = minus(far, near)
        squared = dot(rod, rod)
        part = min(1.0, max(0.0, dot(minus(at, near), rod) / squared)) if squared else 0.0
        foot = add(near, times(rod, part))
        radius = self.near.radius + (self.far.radius - self.near.radius) * part
        return at, foot, length(minus(at, foot)) - self.ball.radius - radius, part

    def segments(self) -> frozenset[int]:
        """The segments that can do something about it."""
        return frozenset((SEGMENT_NUMBER[self.ball.segment], SEGMENT_NUMBER[self.near.segment]))


@dataclass(frozen=True, slots=True)
class Beneath:
    """Some part of a hand, from its heel to its fingertips, is straight below a ball of flesh."""

    heel: Sphere
    tips: Sphere
    above: Sphere
    weight: float
    hard: bool = True

    def miss(self, body: Placement) -> float:
        """How far to the side the nearest part of the hand is, in cm."""
        _, east, north = self._off(body)
        return sqrt(east * east + north * north)

    def rows(self, body: Placement, stiffness: float) -> tuple[Row, ...]:
        """The way to the side, forward and leftward, each with its slopes."""
        under, east, north = self._off(body)
        weight = self.weight * stiffness
        rows: list[Row] = []
        for off, along in ((east, (1.0, 0.0, 0.0)), (north, (0.0, 1.0, 0.0))):
            slopes = no_slopes()
            body.slopes(SEGMENT_NUMBER[self.heel.segment], under, along, slopes, weight)
            body.slopes(SEGMENT_NUMBER[self.above.segment], body.centre(self.above), along, slopes, -weight)
            rows.append((off * weight, slopes))
        return tuple(rows)

    def _off(self, body: Placement) -> tuple[Vector, float, float]:
        heel, tips, above = body.centre(self.heel), body.centre(self.tips), body.centre(self.above)
        dx, dy = tips[0] - heel[0], tips[1] - heel[1]
        squared = dx * dx + dy * dy
        part = ((above[0] - heel[0]) * dx + (above[1] - heel[1]) * dy) / squared if squared else 0.0
        under = add(heel, times(minus(tips, heel), min(1.0, max(0.0, part))))
        return under, under[0] - above[0], under[1] - above[1]

    def segments(self) -> frozenset[int]:
        """The segments that can do something about it."""
        return frozenset((SEGMENT_NUMBER[self.heel.segment], SEGMENT_NUMBER[self.above.segment]))


@dataclass(frozen=True, slots=True)
class Balance:
    """The centre of mass stands over the feet: a wish. `feet` are the landmarks that carry; arms and neck do not
    balance.
    """

    feet: tuple[str, ...]
    share: float
    weight: float
    keeps_inside: bool = False

    def rows(self, body: Placement, stiffness: float) -> tuple[Row, ...]:
        """How far off the centre of mass is, forward and sideways."""
        centre = centre_of_mass(body)
        places = [body.centre(LANDMARKS[name]) for name in self.feet]
        rows: list[Row] = []
        for axis, along in ((0, (1.0, 0.0, 0.0)), (1, (0.0, 1.0, 0.0))):
            low, high = min(place[axis] for place in places), max(place[axis] for place in places)
            target = low + (self.share if axis == 0 else 0.5) * (high - low)
            if self.keeps_inside and axis == 0:
                target = min(max(centre[0], low + 0.2 * (high - low)), high - 0.2 * (high - low))
            slopes = mass_slopes(body, along, self.weight)
            for name, place in zip(self.feet, places, strict=True):
                segment = SEGMENT_NUMBER[LANDMARKS[name].segment]
                body.slopes(segment, place, along, slopes, -self.weight / len(self.feet))
            for number in _NOT_BALANCING:
                slopes[number] = 0.0
            rows.append(((centre[axis] - target) * self.weight, slopes))
        return tuple(rows)

    def segments(self) -> frozenset[int]:
        """The segments that can do something about it."""
        return frozenset(SEGMENT_NUMBER[LANDMARKS[name].segment] for name in self.feet) | {
            SEGMENT_NUMBER["upper thorax"]
        }


Demand = Level | Meeting | Beneath | Balance


def on_plane(sphere: Sphere, normal: Vector, offset: float, weight: float, hard: bool = True) -> Level:
    """A ball touches the plane of all points that reach `offset` along `normal`, from the side of the normal."""
    return Level((Term(SEGMENT_NUMBER[sphere.segment], sphere.centre, normal),), offset + sphere.radius, weight, hard)


def not_through(sphere: Sphere, normal: Vector, offset: float, weight: float) -> Level:
    """A ball stays on its side of a plane."""
    term = Term(SEGMENT_NUMBER[sphere.segment], sphere.centre, normal)
    return Level((term,), offset + sphere.radius, weight, hard=False, at_least=True)


def place(sphere: Sphere, along: Vector, factor: float = 1.0) -> Term:
    """How far the middle of a ball reaches along a direction."""
    return Term(SEGMENT_NUMBER[sphere.segment], sphere.centre, along, factor)


def axis_of(segment: str, axis: int, along: Vector) -> Term:
    """How far one of a segment's own axes, REACH long, reaches along a direction."""
    own = (REACH if axis == 0 else 0.0, REACH if axis == 1 else 0.0, REACH if axis == 2 else 0.0)
    return Term(SEGMENT_NUMBER[segment], own, along, turns=True)


def centre_of_mass(body: Placement) -> Vector:
    """The centre of mass of the whole body."""
    x = y = z = whole = 0.0
    for mass in MASSES:
        at = body.point(SEGMENT_NUMBER[mass.segment], mass.at)
        x, y, z, whole = x + mass.share * at[0], y + mass.share * at[1], z + mass.share * at[2], whole + mass.share
    return (x / whole, y / whole, z / whole)


def mass_slopes(body: Placement, along: Vector, factor: float) -> Slopes:
    """How the centre of mass moves along a direction, times `factor`, with each number of the state."""
    slopes = no_slopes()
    for mass in MASSES:
        segment = SEGMENT_NUMBER[mass.segment]
        body.slopes(segment, body.point(segment, mass.at), along, slopes, factor * mass.share)
    return slopes


def numbers_of(segments: frozenset[int]) -> set[int]:
    """The numbers of the state that move any of these segments."""
    found = set(range(PELVIS))
    for segment in segments:
        for bone in WAYS[segment]:
            found.update(PELVIS + one.angle for one in BONES[bone].turns)
    return found


def spread(normal: Vector) -> tuple[Vector, Vector]:
    """Two directions in a plane, at right angles."""
    first = cross(normal, (0.0, 1.0, 0.0) if abs(normal[1]) < 0.5 else (0.0, 0.0, 1.0))
    first = times(first, 1.0 / sqrt(dot(first, first)))
    return first, cross(normal, first)


_NOT_BALANCING: tuple[int, ...] = tuple(
    PELVIS + one.angle
    for bone in BONES
    if bone.segment in ("neck", "head") or bone.segment.endswith(("upper arm", "forearm", "hand"))
    for one in bone.turns
)
