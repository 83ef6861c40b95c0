"""The largest load at a joint along the movement that a figure shows."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, replace
from functools import lru_cache

from protodsl.figure.body.positions import Position, position_of
from protodsl.figure.body.skeleton import ANGLE_NUMBER
from protodsl.figure.load.balance import Balance
from protodsl.figure.load.between import angles_in, frames_in, on_the_way, placed
from protodsl.figure.load.held import BODY_MASS, Held, evened
from protodsl.figure.load.joints import Load
from protodsl.figure.load.moments import loads_at
from protodsl.figure.load.supports import UPRIGHT, Carried, Weight, carried, supports, weights_of
from protodsl.figure.posture import Frame, SolvedFigure, SolvedPose
from protodsl.figure.solve.contacts import Holding, holding_of
from protodsl.figure.solve.motion import PELVIS, Placement
from protodsl.figure.solve.scene import Scene, scene_of
from protodsl.figure.solve.solve import solve
from protodsl.figure.solve.statements import fixed_angles
from protodsl.model.figure import Figure, Pose

# Poses looked at between two that are written.
BETWEEN = 4
# A base of support that is missed by this many cm is taken for one that is met: the drawing is not finer.
GIVES = 1.0


@dataclass(frozen=True, slots=True)
class Movement:
    """A movement as poses in which a body could hold still; `left_out` counts those in which it could not."""

    held: tuple[Held, ...]
    left_out: int


@dataclass(frozen=True, slots=True)
class _Stop:
    """A written pose with what the solver and the statics know of it."""

    pose: Pose
    position: Position
    holding: Holding
    body: Placement
    carried: Carried


@lru_cache(maxsize=256)
def movement(figure: Figure, mass: float = BODY_MASS) -> Movement | None:
    """The written poses and those between them, each with what carries it; None where a figure has no solution."""
    solved = solve(figure).value
    return None if solved is None else _movement(solved, mass)


def _movement(solved: SolvedFigure, mass: float) -> Movement:
    scene = scene_of(solved.figure)
    weights = weights_of(solved.figure)
    stops = _stops(solved, scene)
    found: list[Held] = []
    left_out = 0
    for body, parts in _all(stops, scene):
        held = _held(frames_in(body), angles_in(body), parts, weights, mass, scene)
        if held is None:
            left_out += 1
        else:
            found.append(held)
    return Movement(tuple(found), left_out)


def _stops(solved: SolvedFigure, scene: Scene) -> tuple[_Stop, ...]:
    stops: list[_Stop] = []
    for pose in solved.poses:
        written = pose.pose
        before = stops[-1] if stops else None
        position = (
            before.position
            if written.position is None and before
            else position_of(written.position or "standing", written.forward)
        )
        holding = holding_of(written, position, before.holding if before else None, under=scene.under)
        stops.append(_stop(pose, position, holding))
    return tuple(stops)


def _stop(pose: SolvedPose, position: Position, holding: Holding) -> _Stop:
    body = placed(pose, position)
    touching = {name for name, _ in pose.contacts}
    there = replace(holding, holds={name: hold for name, hold in holding.holds.items() if name in touching})
    return _Stop(pose.pose, position, holding, body, carried(there, position.name, pose.frames))


def _all(stops: tuple[_Stop, ...], scene: Scene) -> Iterator[tuple[Placement, Carried]]:
    for at, stop in enumerate(stops):
        yield stop.body, stop.carried
        if at + 1 < len(stops) and stops[at + 1].position.axes == stop.position.axes:
            yield from _between(stop, stops[at + 1], scene)


def _between(first: _Stop, last: _Stop, scene: Scene) -> Iterator[tuple[Placement, Carried]]:
    """What carries on the way carries at both ends; a part rests on the way only where it does at both."""
    marks = {name: surface for name, surface in first.carried.marks.items() if last.carried.marks.get(name) == surface}
    parts = Carried(
        marks, first.carried.resting & last.carried.resting, first.carried.steadying & last.carried.steadying
    )
    for step in range(1, BETWEEN + 1):
        body = on_the_way(
            first.body,
            last.body,
            step / (BETWEEN + 1),
            [name for name in marks if name in last.holding.holds],
            marks,
            scene,
            last.position.axes,
            _same(first, last),
            last.position.name in UPRIGHT[:1] and marks.keys() == last.carried.marks.keys(),
        )
        yield body, parts


def _same(first: _Stop, last: _Stop) -> frozenset[int]:
    """The numbers of angles that both poses fix at the same value."""
    ends = [
        {name: value for name, (value, _) in fixed_angles(one.pose, one.position.name).items()} for one in (first, last)
    ]
    return frozenset(PELVIS + ANGLE_NUMBER[name] for name, value in ends[0].items() if ends[1].get(name) == value)


def _held(
    frames: dict[str, Frame],
    angles: dict[str, float],
    parts: Carried,
    weights: tuple[Weight, ...],
    mass: float,
    scene: Scene,
) -> Held | None:
    """The body with the fewest supports that can carry it: without steadying hands first, then with them."""
    bare = Held(frames, angles, (), parts.resting, weights, mass)
    own = {name: surface for name, surface in parts.marks.items() if name not in parts.steadying}
    for marks in (own, dict(parts.marks)) if parts.steadying else (own,):
        for more in (0.0, GIVES):
            sided = evened(bare) if _paired(marks) else bare
            held = replace(sided, supports=supports(marks, sided.frames, scene, more))
            if Balance(held).possible:
                return held
    return None


def _paired(marks: dict[str, str]) -> bool:
    """Whether what carries on one side carries on the other."""
    swap = {"right": "left", "left": "right"}
    for name, surface in marks.items():
        side, _, rest = name.partition(" ")
        if side in swap and marks.get(f"{swap[side]} {rest}") != surface:
            return False
    return True


@lru_cache(maxsize=512)
def peaks(figure: Figure, joint: str, side: str) -> tuple[Load, ...] | None:
    """The largest load along the movement in each direction of a joint, largest first: none without an estimate,
    None where the figure has no solution.

    Each is that of the pose with the largest estimate, and so is its interval: in a pose that needs less, somebody
    could always press harder against the floor than there is reason to.
    """
    moving = movement(figure)
    if moving is None:
        return None
    every = [loads_at(joint, side, held) for held in moving.held]
    every = [loads for loads in every if loads]
    found = (
        [max((one[at] for one in every), key=lambda load: load.estimate) for at in range(len(every[0]))]
        if every
        else []
    )
    return tuple(sorted(found, key=lambda load: -load.estimate))
