"""What stands in the way of a pose: it is solved again with one thing left out at a time."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, replace
from itertools import chain, islice
from math import degrees

from protodsl.figure.body.parts import lifted, limb_of
from protodsl.figure.body.skeleton import ANGLE_NUMBER, SIDES
from protodsl.figure.body.wordings import angles_of
from protodsl.figure.solve.contacts import WRITTEN, Hold
from protodsl.figure.solve.faults import beyond_of, faults_of, slides_of
from protodsl.figure.solve.motion import PELVIS
from protodsl.figure.solve.posing import Posed, pose_body
from protodsl.figure.solve.scene import Scene
from protodsl.model.figure import PAIRED_PARTS, Angle, Distance, Height, Lean, Line, Part, Statement, Under

MOST_HINTS = 3
# A slide or an angle past its range that a way out may still bring with it, in cm and degrees.
SMALL_SLIDE, SMALL_EXCESS = 4.0, 15.0


@dataclass(frozen=True, slots=True)
class WithoutContact:
    """The pose can be without this contact; `because` says where it comes from."""

    part: Part
    surface: str
    because: str


@dataclass(frozen=True, slots=True)
class WithoutAngle:
    """The pose can be if this angle is not fixed; `instead` is what it would be, in its own movement."""

    angle: Angle
    instead: float


@dataclass(frozen=True, slots=True)
class WithoutStatement:
    """The pose can be without this statement."""

    statement: Statement


Hint = WithoutContact | WithoutAngle | WithoutStatement


def hints_of(posed: Posed, scene: Scene) -> tuple[Hint, ...]:
    """What could be left out so that the pose can be, the likeliest first; at most three."""
    ways: tuple[Iterator[Hint], ...] = (
        _without_contact(posed, scene),
        _without_statement(posed, scene),
        _without_angle(posed, scene),
    )
    return tuple(islice(chain.from_iterable(ways), MOST_HINTS))


def can_be(posed: Posed, scene: Scene) -> bool:
    """Whether a pose can be drawn without a grave word."""
    excess = (max(0.0, abs(one.degrees) - one.normal) for one in beyond_of(posed) if one.written is None)
    return (
        not faults_of(posed, scene)
        and all(cm <= SMALL_SLIDE for cm in slides_of(posed).values())
        and all(one <= SMALL_EXCESS for one in excess)
    )


def _without_contact(posed: Posed, scene: Scene) -> Iterator[WithoutContact]:
    tried = 0
    found: list[WithoutContact] = []
    for candidate in sorted(_candidates(posed), key=lambda one: _unlikely(one, posed)):
        if tried == 8 or len(found) == MOST_HINTS:
            break
        if any(_same_limb(candidate.part, one.part) for one in found):
            continue
        tried += 1
        without = lifted(candidate.part.name, candidate.part.side, posed.asked.position.name)
        if candidate.part.name == "heel":
            without = frozenset(f"{side} heel" for side in SIDES)
        if can_be(pose_body(posed.asked.pose, posed.came_from, scene, without), scene):
            found.append(candidate)
            yield candidate


def _same_limb(part: Part, other: Part) -> bool:
    return part.name == other.name or {part.name, other.name} <= {"foot", "heel"}


def _candidates(posed: Posed) -> Iterator[WithoutContact]:
    """Every part that lies on something, as a pair and one by one."""
    seen: set[tuple[Part, str]] = set()
    for hold in posed.asked.holding.holds.values():
        if not hold.firm or hold.surface == "pillow" or (hold.part, hold.surface) in seen:
            continue
        seen.add((hold.part, hold.surface))
        sides = _sides_there(posed, hold)
        if hold.part.side or len(sides) != 1:
            yield WithoutContact(hold.part, hold.surface, hold.because)
        if hold.part.name in PAIRED_PARTS and not hold.part.side:
            yield from (WithoutContact(replace(hold.part, side=side), hold.surface, hold.because) for side in sides)
            if hold.part.name == "foot":
                yield WithoutContact(Part("heel"), hold.surface, hold.because)


def _sides_there(posed: Posed, hold: Hold) -> tuple[str, ...]:
    """The sides on which a part still lies on its surface: of a pair one may have been put elsewhere."""
    there = {
        limb_of(name)[0]
        for name, other in posed.asked.holding.holds.items()
        if (other.part, other.surface) == (hold.part, hold.surface)
    }
    return tuple(side for side in SIDES if side in there)


def _unlikely(candidate: WithoutContact, posed: Posed) -> tuple[int, int, int]:
    """What is likely to be meant comes first: not what was just written, and of the limb that was just written of."""
    limbs = {limb for one in posed.asked.pose.statements for limb in _limbs_in(one)}
    own = _limbs_of(candidate.part)
    close = bool(own) and own <= limbs
    just = candidate.because == WRITTEN
    brought = candidate.because not in ("kept", WRITTEN)
    trunk = not own
    whole = len(own & limbs) == len(limbs)
    if close and whole:
        rank = 0 if candidate.part.side or candidate.part.name == "heel" else 1
        return (2 if just else 0 if brought or not trunk else 1, rank if not just else 5, 0)
    return (2 if just else 0 if brought and trunk else 1, 3 if trunk else 4, 0)


def _limbs_in(one: Statement) -> set[tuple[str, str]]:
    """The limbs that a statement is about."""
    if isinstance(one, Angle):
        kind = "arm" if one.joint in ("shoulder", "elbow", "forearm", "wrist") else "leg"
        moves = one.joint in ("hip", "knee", "ankle", "toe") or kind == "arm"
        return {(side, kind) for side in ((one.side,) if one.side else SIDES)} if moves else set()
    return _limbs_of(one.part) if isinstance(one, Line | Distance | Height | Under) else set()


def _limbs_of(part: Part) -> set[tuple[str, str]]:
    landmarks = lifted(part.name, part.side, "standing")
    return {limb_of(name) for name in landmarks} - {("", "")}


def _without_statement(posed: Posed, scene: Scene) -> Iterator[WithoutStatement]:
    for one in posed.asked.pose.statements:
        if isinstance(one, Under | Height | Line | Lean | Distance) and can_be(_again(posed, scene, one), scene):
            yield WithoutStatement(one)


def _without_angle(posed: Posed, scene: Scene) -> Iterator[WithoutAngle]:
    for one in posed.asked.pose.statements:
        if not isinstance(one, Angle):
            continue
        again = _again(posed, scene, one)
        if can_be(again, scene):
            yield WithoutAngle(one, _instead(again, one))


def _again(posed: Posed, scene: Scene, left_out: Statement) -> Posed:
    pose = posed.asked.pose
    statements = tuple(one for one in pose.statements if one is not left_out)
    return pose_body(replace(pose, statements=statements), posed.came_from, scene)


def _instead(posed: Posed, angle: Angle) -> float:
    """What an angle is in a pose, counted in the movement that was written."""
    fixed = angles_of(angle.joint, angle.movement, 1.0, angle.side, angle.towards)
    values = [
        degrees(posed.body.state[PELVIS + ANGLE_NUMBER[name]]) * (1 if unit > 0 else -1) for name, unit in fixed.items()
    ]
    return sum(values) if angle.joint == "trunk" else values[0]
