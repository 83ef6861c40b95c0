"""A body that holds still: its weight, and what carries it.

Forces in newtons, lengths in metres, moments in newton metres; gravity by the standard value of ISO 80000-3. The
body is the one that is drawn, 1.70 m tall, with a mass of 70 kg and the masses and lengths of figure/body.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass, replace

from protodsl.figure.body.kinematics import point_of
from protodsl.figure.body.masses import MASSES
from protodsl.figure.body.skeleton import ANGLES, MIDDLE_ANGLES, SIDES
from protodsl.figure.body.vectors import times
from protodsl.figure.load.supports import Support, Weight
from protodsl.figure.posture import MIDDLE_SEGMENTS, Frame, Matrix, Vector
from protodsl.model import joint_load

GRAVITY = 9.80665
BODY_MASS = float(joint_load.BODY_MASS.value)
METRE = 0.01
# Angles that differ by less, in degrees, are the same on both sides.
ALIKE = 2.0


@dataclass(frozen=True, slots=True)
class Held:
    """A body and what carries it. In one that is `even`, both sides carry alike, and its frames are exact mirrors."""

    frames: Mapping[str, Frame]
    angles: Mapping[str, float]
    supports: tuple[Support, ...]
    resting: frozenset[str] = frozenset()
    weights: tuple[Weight, ...] = ()
    mass: float = BODY_MASS
    even: bool = False

    def pulls(self) -> Iterator[tuple[str, Vector, float]]:
        """Every weight: its segment, where it is (m), and how many newtons it pulls down."""
        for mass in MASSES:
            if mass.segment not in self.resting:
                at = times(point_of(self.frames[mass.segment], mass.at), METRE)
                yield mass.segment, at, mass.share * self.mass * GRAVITY
        for weight in self.weights:
            if weight.segment not in self.resting:
                at = times(point_of(self.frames[weight.segment], weight.own), METRE)
                yield weight.segment, at, weight.kilograms * GRAVITY


def evened(held: Held) -> Held:
    """The same body as its own mirror, where it is all but that; only for bodies whose middle plane is upright."""
    added = {one.segment: one.kilograms for one in held.weights}
    alike = (
        all(abs(held.angles[f"right {name}"] - held.angles[f"left {name}"]) < ALIKE for name in _PAIRED)
        and all(abs(held.angles[name]) < ALIKE for name in MIDDLE_ANGLES if name.endswith("right"))
        and {other_side(name): kilograms for name, kilograms in added.items()} == added
        and {other_side(name) for name in held.resting} == held.resting
        and abs(held.frames["pelvis"].axes[7]) < 0.04
        and abs(held.frames["pelvis"].axes[1]) < 0.04
        and abs(held.frames["pelvis"].axes[4]) > 0.99
    )
    if not alike:
        return held
    middle = held.frames["pelvis"].origin[1]
    frames = {
        name: _mirrored(held.frames[other_side(name)], middle) if name.startswith("left ") else frame
        for name, frame in held.frames.items()
    }
    frames |= {name: _flat(held.frames[name], middle) for name in MIDDLE_SEGMENTS}
    angles = dict(held.angles) | {f"left {name}": held.angles[f"right {name}"] for name in _PAIRED}
    angles |= {name: 0.0 for name in MIDDLE_ANGLES if name.endswith("right")}
    return replace(held, frames=frames, angles=angles, even=True)


_PAIRED: tuple[str, ...] = tuple(name.removeprefix("right ") for name in ANGLES if name.startswith("right "))


def other_side(segment: str) -> str:
    """The same segment on the other side; of the middle itself."""
    side, _, name = segment.partition(" ")
    return f"{SIDES[1 - SIDES.index(side)]} {name}" if side in SIDES else segment


def _mirrored(frame: Frame, middle: float) -> Frame:
    x, y, z = frame.origin
    a, b, c, d, e, f, g, h, i = frame.axes
    return Frame((x, 2 * middle - y, z), (a, -b, c, -d, e, -f, g, -h, i))


def _flat(frame: Frame, middle: float) -> Frame:
    x, _, z = frame.origin
    a, _, c, _, e, _, g, _, i = frame.axes
    axes: Matrix = (a, 0.0, c, 0.0, 1.0 if e > 0 else -1.0, 0.0, g, 0.0, i)
    return Frame((x, middle, z), axes)
