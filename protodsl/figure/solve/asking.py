"""From a written pose to what is asked of the body: angles held, wishes, and demands with what they come from."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from math import radians

from protodsl.figure.body.limits import normal_range, plain_name
from protodsl.figure.body.positions import Position, position_of
from protodsl.figure.body.skeleton import ANGLE_NUMBER, ANGLES, SIDES
from protodsl.figure.body.wordings import ARM_ANGLES, ARMS, REACHES, RELEASED
from protodsl.figure.posture import Matrix
from protodsl.figure.solve.contacts import WRITTEN, Hold, Holding, holding_of
from protodsl.figure.solve.demands import Demand, numbers_of
from protodsl.figure.solve.least_squares import Wish
from protodsl.figure.solve.motion import PELVIS, PITCH, Placement
from protodsl.figure.solve.resting import (
    Asking,
    holding_a_stick,
    lifted_parts,
    lying,
    moved_aside,
    on_the_hips,
    staying,
    touching_parts,
)
from protodsl.figure.solve.scene import Scene
from protodsl.figure.solve.statements import demands_of, fixed_angles
from protodsl.figure.solve.weights import LOOSE, STAYS
from protodsl.figure.solve.wishes import held_between, wishes_for
from protodsl.model.figure import Part, Pose, Posture, Statement

# How far off its wish a number may be for one unit of cost: cm for the pelvis, else degrees. The project's own.
_SPREAD_OF_PELVIS: tuple[float, ...] = (100.0, 14.0, 250.0, 25.0, 6.0, 3.0)
_SPREADS: dict[str, float] = {
    "lower back flexion": 12, "lower back side bending right": 5, "lower back rotation right": 4,
    "upper back flexion": 8, "upper back side bending right": 5, "upper back rotation right": 6,
    "neck flexion": 14, "neck side bending right": 6, "neck rotation right": 6,
    "hip flexion": 30, "hip abduction": 8, "hip external rotation": 6, "knee flexion": 30,
    "ankle dorsiflexion": 22, "ankle inversion": 6, "toe extension": 20,
    "shoulder flexion": 25, "shoulder abduction": 10, "shoulder external rotation": 12, "elbow flexion": 25,
    "forearm pronation": 25, "wrist extension": 25, "wrist radial deviation": 8,
}  # fmt: skip
# Where a position holds the trunk more firmly.
_FIRM: dict[str, dict[str, float]] = {
    "standing": {"pitch": 18, "ankle dorsiflexion": 18},
    "sitting": {"pitch": 5, "lower back flexion": 5, "upper back flexion": 4},
    "half-kneeling": {"pitch": 5, "lower back flexion": 5},
    "lying on back": {"pitch": 7},
    "lying face down": {"pitch": 7},
}
# And where the body is said to be straight.
_STRAIGHT: dict[str, float] = {"hip abduction": 2}
_START_FROM_WALL = 45.0


@dataclass(frozen=True, slots=True)
class Asked:
    """Everything that is asked of the body in one pose; angles are in radians."""

    pose: Pose
    position: Position
    axes: Matrix
    start: tuple[float, ...]
    wishes: tuple[Wish, ...]
    askings: tuple[Asking, ...]
    fixed: Mapping[str, tuple[float, Statement]]
    holding: Holding

    @property
    def demands(self) -> tuple[Demand, ...]:
        """The demands alone."""
        return tuple(asking.demand for asking in self.askings)


@dataclass(frozen=True, slots=True)
class Before:
    """The pose before: where the body was and what it lay on."""

    asked: Asked
    body: Placement


def targets_of(pose: Pose, position: Position, holding: Holding, before: Before | None, scene: Scene) -> list[float]:
    """The state that the body tends to, before anything is asked of it."""
    fresh = pose.position is not None or before is None
    if before is not None and not fresh:
        state = list(before.body.state)
    else:
        state = [0.0] * (PELVIS + len(ANGLES))
        state[2] = position.height
        for name, degrees in position.angles.items():
            set_angle(state, name, degrees)
        if before is not None:
            state[:2] = before.body.state[:2]
        elif "wall" in scene.surfaces:
            normal = scene.surfaces["wall"].normal
            state[0], state[1] = normal[0] * _START_FROM_WALL, normal[1] * _START_FROM_WALL
    _reach(state, position, holding, before if not fresh else None, scene)
    if not fresh and before is not None:
        _release(state, holding, before.asked.holding)
    for side, words in holding.arms.items():
        if fresh or before is None or before.asked.holding.arms.get(side) != words:
            for name in ARM_ANGLES:
                set_angle(state, f"{side} {name}", ARMS[words].get(name, 0.0))
    return state


def position_in(pose: Pose, before: Before | None) -> Position:
    """The position of a pose: its own, or that of the pose before; standing where a first pose says none."""
    if pose.position is not None:
        return position_of(pose.position, pose.forward)
    return before.asked.position if before is not None else position_of("standing")


def wishes_of(
    targets: Sequence[float],
    fixed: Mapping[str, object],
    numbers: set[int],
    pose: Pose,
    holding: Holding,
    position: Position,
) -> tuple[Wish, ...]:
    """A wish for each number that is free and that something is asked of."""
    firm = _FIRM.get(position.name, {})
    if any(isinstance(one, Posture) and one.name == "body straight" for one in pose.statements):
        firm = firm | _STRAIGHT
    wishes = [Wish(number, targets[number], spread) for number, spread in enumerate(_SPREAD_OF_PELVIS[:PITCH])]
    for number, spread in enumerate((_pitch(firm, holding), *_SPREAD_OF_PELVIS[PITCH + 1 :]), PITCH):
        wishes.append(Wish(number, targets[number], radians(spread)))
    for number, name in enumerate(ANGLES, PELVIS):
        if number in numbers and name not in fixed:
            low, high = range_of(name, holding)
            spread = firm.get(plain_name(name), _SPREADS[plain_name(name)])
            wishes.append(Wish(number, targets[number], radians(spread), radians(low), radians(high)))
    return tuple(wishes)


def range_of(name: str, holding: Holding) -> tuple[float, float]:
    """The normal range of an angle in degrees, as what carries weight in this pose widens it."""
    side, _, plain = name.partition(" ")
    if side not in SIDES:
        return normal_range(name)
    held = holding.holds
    on_toes, on_balls = f"{side} toes" in held, f"{side} ball of big toe" in held
    if plain.startswith(("ankle", "toe")):
        loaded = on_balls or f"{side} heel" in held
        return normal_range(name, loaded, instep=on_toes and not on_balls)
    return normal_range(name, f"{side} palm" in held)


def set_angle(state: list[float], angle: str, degrees: float) -> None:
    """Put one angle of a state at some degrees."""
    state[PELVIS + ANGLE_NUMBER[angle]] = radians(degrees)


def _pitch(firm: Mapping[str, float], holding: Holding) -> float:
    lies = "pubis" in holding.holds or "right seat" in holding.holds
    loose = "pitch" not in firm or (firm["pitch"] == 7 and not lies)
    return _SPREAD_OF_PELVIS[PITCH] if loose else firm["pitch"]


def _reach(state: list[float], position: Position, holding: Holding, before: Before | None, scene: Scene) -> None:
    """Turn arms and legs towards what they are put on."""
    for name, hold in holding.holds.items():
        side, _, mark = name.partition(" ")
        aside = hold.surface == "wall" and abs(scene.surfaces["wall"].normal[1]) > 0.5
        towards = REACHES.get((position.name, mark, "wall aside" if aside else scene.below(hold.surface)))
        known = before is not None and _lay_there(name, hold, before.asked.holding)
        if towards is None or hold.because != WRITTEN or known or side not in SIDES:
            continue
        other = f"{'left' if side == 'right' else 'right'} {mark}"
        if (
            mark == "heel"
            and hold.surface == "step"
            and other in holding.holds
            and holding.holds[other].surface == "step"
        ):
            continue
        for angle, degrees in towards.items():
            if angle == "pelvis forward":
                state[PITCH] = radians(degrees)
            else:
                set_angle(state, f"{side} {angle}", degrees)


def _lay_there(name: str, hold: Hold, before: Holding) -> bool:
    """Whether a landmark was put on that surface before; one that merely rested there was not put the right way."""
    known = before.holds.get(name)
    return known is not None and known.firm and known.surface == hold.surface


def _release(state: list[float], holding: Holding, before: Holding) -> None:
    """Let hands and feet go slack that were on something in the pose before."""
    for name in before.holds:
        side, _, mark = name.partition(" ")
        if name not in holding.holds and mark in RELEASED and side in SIDES:
            for angle, degrees in RELEASED[mark].items():
                set_angle(state, f"{side} {angle}", degrees)


def ask(
    pose: Pose,
    before: Before | None,
    scene: Scene,
    without: frozenset[str] = frozenset(),
    loose: Part | None = None,
    sliding: bool = False,
) -> Asked:
    """What a pose asks. `without` names landmarks whose contacts are left out, `loose` a part whose contacts only pull;
    with `sliding` what lies where it lay in the pose before may move.
    """
    position = position_in(pose, before)
    holding = holding_of(pose, position, before.asked.holding if before is not None else None, without, scene.under)
    fixed = fixed_angles(pose, position.name)
    targets = targets_of(pose, position, holding, before, scene)
    for name, (degrees, _) in fixed.items():
        set_angle(targets, name, degrees)
    place = before.body if before is not None else None
    askings = _askings(pose, position, holding, place, before.asked.holding if before else None, scene, loose, sliding)
    numbers: set[int] = set()
    for asking in askings:
        numbers |= numbers_of(asking.demand.segments())
    wishes = wishes_of(targets, fixed, numbers, pose, holding, position)
    return Asked(pose, position, position.axes, tuple(targets), wishes, askings, fixed, holding)


def _askings(
    pose: Pose,
    position: Position,
    holding: Holding,
    body_before: Placement | None,
    before: Holding | None,
    scene: Scene,
    loose: Part | None = None,
    sliding: bool = False,
) -> tuple[Asking, ...]:
    """Everything that a pose asks beyond its fixed angles."""
    return (
        *lying(position, holding, scene, loose),
        *staying(holding, before, body_before, scene, position, LOOSE if sliding else STAYS),
        *holding_a_stick(holding, body_before, scene, position, LOOSE / 10 if sliding else STAYS),
        *touching_parts(holding, position, body_before),
        *on_the_hips(pose, holding),
        *moved_aside(pose, body_before, position),
        *lifted_parts(pose, holding, before, scene, position),
        *(
            Asking(demand, "statement", statement=one)
            for one in pose.statements
            for demand in demands_of(one, position, holding, scene)
        ),
        *(Asking(demand, "wish") for demand in wishes_for(pose, position, holding, scene, fresh=body_before is None)),
        *(Asking(demand, "wish") for demand in held_between(position, scene)),
    )
