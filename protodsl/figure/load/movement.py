"""The largest load at a joint along the movement that a figure shows."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping
from dataclasses import dataclass, replace
from functools import lru_cache, partial

from protodsl.figure.body.positions import Position, position_of
from protodsl.figure.body.skeleton import ANGLE_NUMBER
from protodsl.figure.load.balance import Balance
from protodsl.figure.load.between import Way, angles_in, frames_in, placed
from protodsl.figure.load.held import BODY_MASS, Held, evened
from protodsl.figure.load.joints import Load
from protodsl.figure.load.moments import loads_at
from protodsl.figure.load.supports import UPRIGHT, Carried, Weight, carried, is_near, supports, weights_of
from protodsl.figure.posture import SolvedFigure, SolvedPose
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
    """A movement as poses in which the body is held still; `falling` counts those in which it could not be.

    Where it could be in none, those stand here all the same: what hangs freely still has a load.
    """

    held: tuple[Held, ...]
    falling: int


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
    still: list[Held] = []
    falling: list[Held] = []
    for ways, parts in _all(stops, scene):
        held = next(_held(ways, parts, weights, mass, scene), None)
        if held is not None:
            still.append(held)
        else:
            falling.append(_carried_so(ways[0](), parts, weights, mass, scene, 0.0))
    return Movement(tuple(still or falling), len(falling))


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
    holds = {
        name: hold
        for name, hold in holding.holds.items()
        if name in touching or (not hold.firm and is_near(name, hold.surface, pose.frames))
    }
    there = replace(holding, holds=holds)
    return _Stop(pose.pose, position, holding, body, carried(there, position.name, pose.frames))


# Ways to place the body in one pose; a later one is tried where nobody could hold still in the one before.
_Ways = tuple[Callable[[], Placement], ...]


def _all(stops: tuple[_Stop, ...], scene: Scene) -> Iterator[tuple[_Ways, Carried]]:
    for at, stop in enumerate(stops):
        yield (partial(_body, stop),), stop.carried
        if at + 1 < len(stops) and stops[at + 1].position.axes == stop.position.axes:
            yield from _between(stop, stops[at + 1], scene)


def _body(stop: _Stop) -> Placement:
    return stop.body


def _between(first: _Stop, last: _Stop, scene: Scene) -> Iterator[tuple[_Ways, Carried]]:
    """What carries on the way carries at both ends; a part rests on the way only where it does at both."""
    ends = first.carried, last.carried
    marks = _both(ends[0].marks, ends[1].marks)
    parts = Carried(
        marks,
        ends[0].resting & ends[1].resting,
        ends[0].steadying & ends[1].steadying,
        _both(ends[0].lying, ends[1].lying),
    )
    way = Way(
        first.body,
        last.body,
        {name: surface for name, surface in marks.items() if name in last.holding.holds},
        scene,
        last.position.axes,
        _same(first, last),
        last.position.name == "standing" and marks.keys() == last.carried.marks.keys(),
    )
    for step in range(1, BETWEEN + 1):
        part = step / (BETWEEN + 1)
        ways: _Ways = (partial(way.at, part),)
        if last.position.name in UPRIGHT:
            ways = (*ways, partial(way.at, part, leaning=True))
        yield ways, parts


def _both(first: Mapping[str, str], last: Mapping[str, str]) -> dict[str, str]:
    return {name: surface for name, surface in first.items() if last.get(name) == surface}


def _same(first: _Stop, last: _Stop) -> frozenset[int]:
    """The numbers of angles that both poses fix at the same value."""
    ends = [
        {name: value for name, (value, _) in fixed_angles(one.pose, one.position.name).items()} for one in (first, last)
    ]
    return frozenset(PELVIS + ANGLE_NUMBER[name] for name, value in ends[0].items() if ends[1].get(name) == value)


def _held(ways: _Ways, parts: Carried, weights: tuple[Weight, ...], mass: float, scene: Scene) -> Iterator[Held]:
    """The bodies that can be carried, that with the fewest supports first: without hands that only steady, then with
    them, then with all that lies.
    """
    bodies: list[Placement] = []
    own = {name: surface for name, surface in parts.marks.items() if name not in parts.steadying}
    for carrying in (replace(parts, marks=own), parts, parts.pressed()):
        for number, way in enumerate(ways):
            if number == len(bodies):
                bodies.append(way())
            for more in (0.0, GIVES):
                held = _carried_so(bodies[number], carrying, weights, mass, scene, more)
                if held.supports and Balance(held).possible:
                    yield held


def _carried_so(
    body: Placement, parts: Carried, weights: tuple[Weight, ...], mass: float, scene: Scene, more: float
) -> Held:
    bare = Held(frames_in(body), angles_in(body), (), parts.resting, weights, mass)
    sided = evened(bare) if _paired(parts.marks) else bare
    return replace(sided, supports=supports(parts.marks, sided.frames, scene, more))


def _paired(marks: Mapping[str, str]) -> bool:
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
