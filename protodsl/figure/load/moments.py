"""The moment that a body needs at a joint to hold still: what the joint's own movement has to hold against."""

from __future__ import annotations

from collections.abc import Iterator
from math import radians

from protodsl.figure.body.limits import LIMITS, plain_name
from protodsl.figure.body.skeleton import ANGLES, BONES, SEGMENT_NUMBER
from protodsl.figure.body.vectors import after, column, cross, dot, minus, times, turn
from protodsl.figure.load.balance import Balance
from protodsl.figure.load.held import METRE, Held
from protodsl.figure.load.joints import OF_A_SIDE, OF_THE_SPINE, Load
from protodsl.figure.posture import SEGMENTS, Vector


def loads_at(joint: str, side: str, held: Held, balance: Balance | None = None) -> tuple[Load, ...]:
    """The load in both directions of each axis of a joint; of two opposite ones the estimates differ in sign only.

    `side` is ignored for the spine. No value where forces are needed and the body cannot be carried so. KeyError for a
    joint that the drawn body has not.
    """
    name = OF_THE_SPINE[joint] if joint in OF_THE_SPINE else f"{side} {OF_A_SIDE[joint]}"
    beyond = _beyond(name)
    touched = any(one.segment in beyond for one in held.supports)
    balance = balance or (Balance(held) if touched else None)
    if not held.supports or (touched and (balance is None or not balance.possible)):
        return ()
    forces = balance.forces() if touched and balance is not None else ()
    found: list[Load] = []
    for angle, axis in _axes(name, held):
        if joint in ("elbow", "forearm") and plain_name(angle).split()[0] != joint:
            continue
        weight, levers = _about(name, axis, beyond, held)
        low = high = estimate = -weight
        if touched and balance is not None:
            estimate -= sum(dot(lever, force) for lever, force in zip(levers, forces, strict=True))
            least, most = balance.least_and_most(levers)
            low, high = -weight - most, -weight - least
        limit = LIMITS[plain_name(angle)]
        right, left = ("right", "left") if angle.endswith(" right") else ("", "")
        found.append(Load(limit.above, right, estimate, low, high))
        found.append(Load(limit.below, left, -estimate, -high, -low))
    return tuple(found)


def _beyond(segment: str) -> frozenset[str]:
    """A segment and all that hangs on it."""
    found = {SEGMENT_NUMBER[segment]}
    for number, bone in enumerate(BONES):
        if bone.parent in found:
            found.add(number)
    return frozenset(SEGMENTS[number] for number in found)


def _axes(segment: str, held: Held) -> Iterator[tuple[str, Vector]]:
    """The axes of a joint in the world, each turned by those before it, with the angle that counts upwards about it."""
    bone = BONES[SEGMENT_NUMBER[segment]]
    axes = held.frames[SEGMENTS[bone.parent]].axes
    seen: set[int] = set()
    for one in bone.turns:
        if one.angle not in seen:
            yield ANGLES[one.angle], times(column(axes, one.axis), 1.0 if one.share > 0 else -1.0)
        seen.add(one.angle)
        axes = after(axes, turn(one.axis, one.share * radians(held.angles[ANGLES[one.angle]])))


def _about(segment: str, axis: Vector, beyond: frozenset[str], held: Held) -> tuple[float, list[Vector]]:
    """The moment of the weights beyond a joint about its axis, and that of one newton each way at each support."""
    joint = times(held.frames[segment].origin, METRE)
    weight = 0.0
    for of, at, newtons in held.pulls():
        if of in beyond:
            weight += dot(cross(minus(at, joint), (0.0, 0.0, -newtons)), axis)
    levers: list[Vector] = []
    for one in held.supports:
        # The moment of a force f about the axis is f times (axis x lever).
        lever = minus(times(one.at, METRE), joint)
        levers.append(cross(axis, lever) if one.segment in beyond else (0.0, 0.0, 0.0))
    return weight, levers
