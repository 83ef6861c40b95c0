"""Where the body is for a list of numbers, and how any point of it moves with each number: what least squares needs."""

from __future__ import annotations

from collections.abc import Sequence
from math import cos, sin

from protodsl.figure.body.shoulder import joint_of_the_shoulder, slopes_of_the_shoulder
from protodsl.figure.body.skeleton import ANGLES, BONES, SEGMENT_NUMBER
from protodsl.figure.body.vectors import FORWARD, LEFTWARD, UPWARD, add, after, column, cross, times, turn, turned
from protodsl.figure.posture import Frame, Matrix, Sphere, Vector

# A state is six numbers for the pelvis (where it is in cm; its pitch, roll and yaw in radians, on top of the
# position's own axes) and then the joint angles in radians, in the order of skeleton.ANGLES.
PELVIS = 6
NUMBERS = PELVIS + len(ANGLES)
PITCH, ROLL, YAW = 3, 4, 5

State = Sequence[float]
# How fast something changes with each number of the state.
Slopes = list[float]

_Hinge = tuple[Vector, tuple[tuple[int, Vector, Vector | None], ...]]


def _way_up(segment: int) -> tuple[int, ...]:
    way: list[int] = []
    while segment > 0:
        way.append(segment)
        segment = BONES[segment].parent
    return tuple(way)


WAYS: tuple[tuple[int, ...], ...] = tuple(_way_up(number) for number in range(len(BONES)))
_OUT: dict[int, float] = {SEGMENT_NUMBER["right upper arm"]: -1.0, SEGMENT_NUMBER["left upper arm"]: 1.0}


class Placement:
    """The body in one state; `axes` are those of the position it is in."""

    __slots__ = ("_hinges", "_root", "axes", "origins", "state")

    def __init__(self, state: State, axes: Matrix) -> None:
        """Place every segment, and keep the axis of every turn."""
        self.state = state
        pitched = turn(1, state[PITCH])
        rolled = after(pitched, turn(0, state[ROLL]))
        self.axes: list[Matrix] = [after(after(rolled, turn(2, state[YAW])), axes)]
        self.origins: list[Vector] = [(state[0], state[1], state[2])]
        self._root = ((PITCH, LEFTWARD), (ROLL, turned(pitched, FORWARD)), (YAW, turned(rolled, UPWARD)))
        self._hinges: list[_Hinge] = [((0.0, 0.0, 0.0), ())]
        for number in range(1, len(BONES)):
            self._hang(number)

    def _hang(self, number: int) -> None:
        bone, state = BONES[number], self.state
        around = self.axes[bone.parent]
        joint = bone.joint
        moving: tuple[Vector | None, ...] = (None, None)
        if number in _OUT:
            bends = [state[PELVIS + one.angle] for one in bone.turns[:2]]
            joint = joint_of_the_shoulder(_OUT[number], *bends)
            moving = tuple(turned(around, slope) for slope in slopes_of_the_shoulder(_OUT[number], *bends))
        origin = add(self.origins[bone.parent], turned(around, joint))
        axes, hinges = around, []
        for count, one in enumerate(bone.turns):
            axis, share = one.axis, one.share
            along = (axes[axis] * share, axes[axis + 3] * share, axes[axis + 6] * share)
            hinges.append((PELVIS + one.angle, along, moving[count] if count < 2 else None))
            bend = share * state[PELVIS + one.angle]
            if bend:
                axes = _bent(axes, axis, bend)
        self.origins.append(origin)
        self.axes.append(axes)
        self._hinges.append((origin, tuple(hinges)))

    def frame(self, segment: int) -> Frame:
        """The frame of a segment."""
        return Frame(self.origins[segment], self.axes[segment])

    def point(self, segment: int, own: Vector) -> Vector:
        """A point of a segment, in the world."""
        x, y, z = own
        m, o = self.axes[segment], self.origins[segment]
        return (
            o[0] + m[0] * x + m[1] * y + m[2] * z,
            o[1] + m[3] * x + m[4] * y + m[5] * z,
            o[2] + m[6] * x + m[7] * y + m[8] * z,
        )

    def centre(self, sphere: Sphere) -> Vector:
        """The middle of a ball of flesh, in the world."""
        return self.point(SEGMENT_NUMBER[sphere.segment], sphere.centre)

    def direction(self, segment: int, axis: int) -> Vector:
        """One of a segment's own axes, in the world."""
        return column(self.axes[segment], axis)

    def slopes(self, segment: int, point: Vector, along: Vector, slopes: Slopes, factor: float = 1.0) -> None:
        """Add how far a point of a segment moves `along` a direction, times `factor`, with each number of the state."""
        nx, ny, nz = along[0] * factor, along[1] * factor, along[2] * factor
        slopes[0] += nx
        slopes[1] += ny
        slopes[2] += nz
        px, py, pz = point
        ox, oy, oz = self.origins[0]
        dx, dy, dz = px - ox, py - oy, pz - oz
        cx, cy, cz = dy * nz - dz * ny, dz * nx - dx * nz, dx * ny - dy * nx
        for number, axis in self._root:
            slopes[number] += axis[0] * cx + axis[1] * cy + axis[2] * cz
        for bone in WAYS[segment]:
            (ox, oy, oz), hinges = self._hinges[bone]
            dx, dy, dz = px - ox, py - oy, pz - oz
            cx, cy, cz = dy * nz - dz * ny, dz * nx - dx * nz, dx * ny - dy * nx
            for number, axis, moving in hinges:
                slopes[number] += axis[0] * cx + axis[1] * cy + axis[2] * cz
                if moving:
                    slopes[number] += moving[0] * nx + moving[1] * ny + moving[2] * nz

    def turning(self, segment: int, direction: Vector, along: Vector, slopes: Slopes, factor: float = 1.0) -> None:
        """Add how fast a direction fixed in a segment turns `along` another, times `factor`, with each number."""
        cx, cy, cz = times(cross(direction, along), factor)
        for number, axis in self._root:
            slopes[number] += axis[0] * cx + axis[1] * cy + axis[2] * cz
        for bone in WAYS[segment]:
            for number, axis, _ in self._hinges[bone][1]:
                slopes[number] += axis[0] * cx + axis[1] * cy + axis[2] * cz


def _bent(m: Matrix, axis: int, bend: float) -> Matrix:
    """A matrix turned on about one of its own axes."""
    c, s = cos(bend), sin(bend)
    m0, m1, m2, m3, m4, m5, m6, m7, m8 = m
    if axis == 0:
        return (
            m0, m1 * c + m2 * s, m2 * c - m1 * s,
            m3, m4 * c + m5 * s, m5 * c - m4 * s,
            m6, m7 * c + m8 * s, m8 * c - m7 * s,
        )  # fmt: skip
    if axis == 1:
        return (
            m0 * c - m2 * s, m1, m0 * s + m2 * c,
            m3 * c - m5 * s, m4, m3 * s + m5 * c,
            m6 * c - m8 * s, m7, m6 * s + m8 * c,
        )  # fmt: skip
    return (
        m0 * c + m1 * s, m1 * c - m0 * s, m2,
        m3 * c + m4 * s, m4 * c - m3 * s, m5,
        m6 * c + m7 * s, m7 * c - m6 * s, m8,
    )  # fmt: skip


def no_slopes() -> Slopes:
    """A row of zeros."""
    return [0.0] * NUMBERS
