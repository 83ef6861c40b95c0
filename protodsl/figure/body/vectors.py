"""Vectors and turning matrices of three dimensions, as plain tuples of floats."""

from __future__ import annotations

from math import cos, sin, sqrt

from protodsl.figure.posture import Matrix, Vector

FORWARD: Vector = (1.0, 0.0, 0.0)
LEFTWARD: Vector = (0.0, 1.0, 0.0)
UPWARD: Vector = (0.0, 0.0, 1.0)
UNTURNED: Matrix = (1.0, 0.0, 0.0, 0.0, 1.0, 0.0, 0.0, 0.0, 1.0)


def add(a: Vector, b: Vector) -> Vector:
    """The sum of two vectors."""
    return (a[0] + b[0], a[1] + b[1], a[2] + b[2])


def minus(a: Vector, b: Vector) -> Vector:
    """The way from `b` to `a`."""
    return (a[0] - b[0], a[1] - b[1], a[2] - b[2])


def times(a: Vector, factor: float) -> Vector:
    """A vector made longer."""
    return (a[0] * factor, a[1] * factor, a[2] * factor)


def dot(a: Vector, b: Vector) -> float:
    """The inner product."""
    return a[0] * b[0] + a[1] * b[1] + a[2] * b[2]


def cross(a: Vector, b: Vector) -> Vector:
    """The outer product."""
    return (a[1] * b[2] - a[2] * b[1], a[2] * b[0] - a[0] * b[2], a[0] * b[1] - a[1] * b[0])


def length(a: Vector) -> float:
    """How long a vector is."""
    return sqrt(dot(a, a))


def turned(m: Matrix, v: Vector) -> Vector:
    """A vector given in a segment's own axes, in the axes around it."""
    x, y, z = v
    return (
        m[0] * x + m[1] * y + m[2] * z,
        m[3] * x + m[4] * y + m[5] * z,
        m[6] * x + m[7] * y + m[8] * z,
    )


def after(a: Matrix, b: Matrix) -> Matrix:
    """The turn `b` seen in axes that `a` has turned: the product of the two matrices."""
    a0, a1, a2, a3, a4, a5, a6, a7, a8 = a
    b0, b1, b2, b3, b4, b5, b6, b7, b8 = b
    return (
        a0 * b0 + a1 * b3 + a2 * b6, a0 * b1 + a1 * b4 + a2 * b7, a0 * b2 + a1 * b5 + a2 * b8,
        a3 * b0 + a4 * b3 + a5 * b6, a3 * b1 + a4 * b4 + a5 * b7, a3 * b2 + a4 * b5 + a5 * b8,
        a6 * b0 + a7 * b3 + a8 * b6, a6 * b1 + a7 * b4 + a8 * b7, a6 * b2 + a7 * b5 + a8 * b8,
    )  # fmt: skip


def column(m: Matrix, axis: int) -> Vector:
    """The axis 0, 1 or 2 of a turned segment, in the axes around it."""
    return (m[axis], m[axis + 3], m[axis + 6])


def turn(axis: int, radians: float) -> Matrix:
    """A turn about the axis 0 (x), 1 (y) or 2 (z), by the right-hand rule."""
    c, s = cos(radians), sin(radians)
    if axis == 0:
        return (1.0, 0.0, 0.0, 0.0, c, -s, 0.0, s, c)
    if axis == 1:
        return (c, 0.0, s, 0.0, 1.0, 0.0, -s, 0.0, c)
    return (c, -s, 0.0, s, c, 0.0, 0.0, 0.0, 1.0)
