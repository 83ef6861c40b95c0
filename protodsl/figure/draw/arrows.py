"""Arrows along the path that a part takes, set beside the body where they cover neither it nor its face."""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from itertools import pairwise
from math import hypot

from protodsl.figure.body.kinematics import point_of
from protodsl.figure.body.landmarks import LANDMARKS
from protodsl.figure.body.parts import followed
from protodsl.figure.body.skeleton import SIDES
from protodsl.figure.draw import ink
from protodsl.figure.draw.between import between
from protodsl.figure.draw.camera import Camera
from protodsl.figure.draw.contour import Field, Point
from protodsl.figure.draw.curve import Pen
from protodsl.figure.draw.layers import Layer
from protodsl.figure.posture import Frame, SolvedPose
from protodsl.model.figure import PAIRED_PARTS, Arrow

# Centimetres of the body: the shortest and the longest arrow, its head, and how near it may come to anything.
_SHORTEST, _LONGEST = 30.0, 62.0
_HEAD_LONG, _HEAD_HALF = 9.0, 5.0
CLEAR = 6.5
# A far limb, drawn faint, may be crossed sooner: so much nearer, at this share of the cost.
_NEARER_TO_FAR, _OF_FAR = 4.0, 0.45
# Centimetres: a part that goes less far is hardly seen to move; one that goes less far than the other does not.
_HARDLY, _STILL = 16.0, 3.0
_ENDS = ("fingertips", "toes", "heel")
_STEPS = 8
_SHIFTS = (0.0, 8.0, -8.0, 16.0, -16.0, 24.0, -24.0, 32.0, -32.0, 40.0, -40.0)
_OFFSETS = tuple(3.0 * i for i in range(-11, 12))
# What of its length is left, and what it costs to shorten one that is no longer than it has to be.
_LENGTHS = ((1.0, 0.0), (0.72, 14.0))
# Where an arrow may be put, along its own way and beside it, how long, and what that alone costs.
_PLACES = sorted(
    (1.1 * abs(shift) + 1.3 * abs(offset) + cost, shift, offset, length)
    for shift in _SHIFTS
    for offset in _OFFSETS
    for length, cost in _LENGTHS
)

Path = tuple[Point, ...]


def paths(arrow: Arrow, poses: Sequence[SolvedPose], seen: Camera) -> tuple[Path, ...]:
    """Where the part of an arrow goes from the last pose but one to the last, once a side; nowhere if it is still."""
    start, end = poses[-2].frames, poses[-1].frames
    sides = (arrow.part.side,) if arrow.part.side or arrow.part.name not in PAIRED_PARTS else SIDES
    found = [[_path(name, start, end, seen) for name in followed(arrow.part.name, side)] for side in sides]
    moving = [next((path for path in paths if _length(path) > 1.0), None) for paths in found]
    return _one_of_two([path for path in moving if path is not None])


def unsaid(poses: Sequence[SolvedPose], seen: Camera) -> tuple[Path, ...]:
    """Where the hand or foot that moves farthest goes, for a figure that has no arrow and two poses much alike."""
    start, end = poses[-2].frames, poses[-1].frames
    found = [[_path(f"{side} {end_of_limb}", start, end, seen) for side in SIDES] for end_of_limb in _ENDS]
    far = [max(_length(path) for path in paths) for paths in found]
    most = max(far)
    if not _STILL < most < _HARDLY:
        return ()
    return _one_of_two([path for path in found[far.index(most)] if _length(path) > most / 2])


def _one_of_two(moving: list[Path]) -> tuple[Path, ...]:
    if len(moving) == 2 and max(hypot(a[0] - b[0], a[1] - b[1]) for a, b in zip(*moving, strict=True)) < 16:
        # Both sides go the same way in this view: one arrow says it.
        return (moving[0],)
    return tuple(moving)


def drawn(path: Path, body: Field, far: Field, face: Field, room: Callable[[Point], float]) -> Path:
    """The arrow's line: long enough to be seen, beside the body; `far` are limbs that are drawn faint.

    `room` is how far a place is from where it may lie.
    """
    fitting = _fitting(path)
    (ax, ay), (bx, by) = fitting[0], fitting[-1]
    chord = hypot(bx - ax, by - ay) or 1.0
    ux, uy = (bx - ax) / chord, (by - ay) / chord
    lines = {length: _enlarged(fitting, length) for length, _ in _LENGTHS}
    best, least = fitting, float("inf")
    for base, shift, offset, length in _PLACES:
        # Nearest first: once going farther alone costs more than the best so far, no place is better.
        if base >= least:
            break
        if length < 1.0 and chord > _SHORTEST + 5.0:
            continue
        dx, dy = ux * shift - uy * offset, uy * shift + ux * offset
        moved = tuple((x + dx, y + dy) for x, y in lines[length])
        cost = base
        for at in moved:
            cost += _cost(at, body, far, face, room)
            if cost >= least:
                break
        else:
            best, least = moved, cost
    return best


def painted(line: Path, pen: Pen) -> list[Layer]:
    """A bold line with a solid head, on a rim of paper where it crosses something."""
    (ax, ay), (bx, by) = line[-2], line[-1]
    size = hypot(bx - ax, by - ay) or 1.0
    ux, uy = (bx - ax) / size, (by - ay) / size
    neck = (bx - ux * _HEAD_LONG, by - uy * _HEAD_LONG)
    shaft = [at for at in line if (at[0] - bx) * ux + (at[1] - by) * uy < -_HEAD_LONG - 1.0] or [line[0]]
    head = [
        (bx, by),
        (neck[0] - uy * _HEAD_HALF, neck[1] + ux * _HEAD_HALF),
        (neck[0] + uy * _HEAD_HALF, neck[1] - ux * _HEAD_HALF),
    ]
    whole = pen.fresh().open((*shaft, neck)).data
    return [Layer(whole, "", ink.INK, ink.BOLD), Layer(pen.fresh().lines(head, close=True).data, ink.INK)]


def reach(line: Path) -> tuple[float, float, float, float]:
    """Left, top, right and bottom of an arrow with its head."""
    xs, ys = [x for x, _ in line], [y for _, y in line]
    return (min(xs) - _HEAD_HALF, min(ys) - _HEAD_HALF, max(xs) + _HEAD_HALF, max(ys) + _HEAD_HALF)


def _path(landmark: str, start: Mapping[str, Frame], end: Mapping[str, Frame], seen: Camera) -> Path:
    ball = LANDMARKS[landmark]
    found = []
    for step in range(_STEPS + 1):
        frames = between(start, end, step / _STEPS)
        x, y, _ = seen.point(point_of(frames[ball.segment], ball.centre))
        found.append((x, y))
    return tuple(found)


def _length(path: Path) -> float:
    return sum(hypot(b[0] - a[0], b[1] - a[1]) for a, b in pairwise(path))


def _fitting(path: Path) -> Path:
    """The path made longer at its beginning, or cut there, so that its end is where the part arrives."""
    length = _length(path)
    if length > _LONGEST:
        kept = [path[-1]]
        left = _LONGEST
        for a, b in zip(reversed(path[:-1]), reversed(path[1:]), strict=True):
            step = hypot(b[0] - a[0], b[1] - a[1])
            if step >= left:
                share = left / step
                kept.append((b[0] + (a[0] - b[0]) * share, b[1] + (a[1] - b[1]) * share))
                break
            kept.append(a)
            left -= step
        return tuple(reversed(kept))
    return _enlarged(path, _SHORTEST / max(length, 1e-6)) if length < _SHORTEST else path


def _enlarged(path: Path, by: float) -> Path:
    """A path larger or smaller about its middle, so that it keeps its bend."""
    mx, my = (path[0][0] + path[-1][0]) / 2, (path[0][1] + path[-1][1]) / 2
    return tuple((mx + (x - mx) * by, my + (y - my) * by) for x, y in path)


def _cost(at: Point, body: Field, far: Field, face: Field, room: Callable[[Point], float]) -> float:
    over = min(max(0.0, CLEAR - body(*at)), 12.0)
    if over < 12.0:
        over = max(over, min(max(0.0, CLEAR - _NEARER_TO_FAR - far(*at)), 12.0) * _OF_FAR)
    on_face = max(0.0, 9.0 - face(*at))
    return over * 3.0 + on_face * 12.0 + room(at) * 6.0
