"""What lies on what from pose to pose: brought by the position, written, kept, lifted."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace

from protodsl.figure.body.parts import ARM, FEET, lifted, limb_of, sides_of, touching
from protodsl.figure.body.positions import Position
from protodsl.figure.body.wordings import ARMS
from protodsl.model.figure import PAIRED_PARTS, Angle, Contact, Distance, Lift, Part, Pose, Posture, Slide, Touch

WRITTEN, KEPT = "written", "kept"


@dataclass(frozen=True, slots=True)
class Hold:
    """A landmark on a surface. `part` is what was said to lie there, `because` is WRITTEN, KEPT or the position's name;
    `firm` is False where it only rests there as long as nothing is said; `edge` is True at the edge of a step.
    """

    surface: str
    part: Part
    because: str
    firm: bool = True
    edge: bool = False


@dataclass(frozen=True, slots=True)
class Underlay:
    """A thing of some `kind` under a part, and the surface that it lies `on`; `put` is True where the part is put there
    by a written contact, and not from the start.
    """

    part: Part
    kind: str
    on: str
    put: bool = False


@dataclass(frozen=True, slots=True)
class Holding:
    """All that lies on something in one pose: landmarks on surfaces, parts on parts, and the arm words that still
    hold.
    """

    holds: dict[str, Hold]
    touches: tuple[tuple[Touch, str], ...]
    slides: frozenset[str]
    lifts: frozenset[str]
    arms: dict[str, str]


def holding_of(
    pose: Pose,
    position: Position,
    before: Holding | None,
    without: frozenset[str] = frozenset(),
    under: Sequence[Underlay] = (),
) -> Holding:
    """What lies on what in a pose: what the position brings or the pose before leaves, changed by what is written.

    Landmarks `without` a contact are left out whatever is written: so it is tried what stands in the way. `under`
    are the things that lie under a part.
    """
    if pose.position is not None or before is None:
        holds = _brought(position) | _propped(position, under)
        touches = _touches_brought(position)
        arms: dict[str, str] = {}
    else:
        holds = {
            name: replace(hold, because=KEPT) if hold.because == WRITTEN else hold
            for name, hold in before.holds.items()
        }
        touches = tuple((touch, KEPT if because == WRITTEN else because) for touch, because in before.touches)
        arms = dict(before.arms)
    lifts: set[str] = set()
    slides: set[str] = set()
    for one in pose.statements:
        if isinstance(one, Lift):
            lifts |= lifted(one.part.name, one.part.side, position.name)
        elif isinstance(one, Slide) or (isinstance(one, Distance) and one.part.name in PAIRED_PARTS):
            # What is put at a distance is put there anew.
            slides |= lifted(one.part.name, one.part.side, position.name)
    holds = {name: hold for name, hold in holds.items() if name not in lifts}
    touches = tuple(touch for touch in touches if not lifts & _ends(touch[0], position.name))
    for one in pose.statements:
        holds, touches = _changed(holds, touches, arms, one, position.name, under)
    holds = {name: hold for name, hold in holds.items() if name not in without}
    touches = tuple(touch for touch in touches if not without & _ends(touch[0], position.name))
    return Holding(_rests_left(holds, pose), _touches_left(touches, pose), frozenset(slides), frozenset(lifts), arms)


Touches = tuple[tuple[Touch, str], ...]


def _brought(position: Position) -> dict[str, Hold]:
    return {
        name: Hold(rest.surface, Part(rest.part, rest.side), position.name, rest.firm)
        for rest in reversed(position.rests)
        if not rest.surface.endswith("ankle")
        for name in touching(rest.part, rest.side, position.name)
    }


def _propped(position: Position, under: Sequence[Underlay]) -> dict[str, Hold]:
    """Parts on the thing that lies under them; a head merely rests there."""
    return {
        name: Hold(one.kind, one.part, f"the {one.kind}", firm=one.part.name not in ("head", "forehead"))
        for one in under
        if not one.put
        for name in touching(one.part.name, one.part.side, position.name)
    }


def _touches_brought(position: Position) -> Touches:
    return tuple(
        (Touch(Part(rest.part, rest.side), Part("ankle", rest.surface.split()[0])), position.name)
        for rest in position.rests
        if rest.surface.endswith("ankle")
    )


def _ends(touch: Touch, position: str) -> frozenset[str]:
    return frozenset(touching(touch.part.name, touch.part.side, position))


def _changed(
    holds: dict[str, Hold],
    touches: Touches,
    arms: dict[str, str],
    one: object,
    position: str,
    under: Sequence[Underlay],
) -> tuple[dict[str, Hold], Touches]:
    """What a statement makes of the contacts there are; it changes `arms` in place."""
    if isinstance(one, Contact):
        names = touching(one.part.name, one.part.side, position)
        holds = _cleared(holds, names)
        touches = _untouched(touches, names, position)
        fresh = Hold(one.surface, one.part, WRITTEN, edge=one.edge)
        holds = holds | dict.fromkeys(names, fresh)
        for thing in under:
            there = set(touching(thing.part.name, thing.part.side, position)) & set(names)
            if thing.on == one.surface and thing.put:
                holds = holds | dict.fromkeys(sorted(there), replace(fresh, surface=thing.kind))
        _free(arms, names)
    elif isinstance(one, Touch):
        names = touching(one.part.name, one.part.side, position)
        holds = _cleared(holds, names)
        touches = (*_untouched(touches, names, position), (one, WRITTEN))
        _free(arms, names)
    elif isinstance(one, Posture) and one.name in ARMS:
        names = tuple(f"{side} {name}" for side in sides_of(one.side) for name in ARM)
        holds = {name: hold for name, hold in holds.items() if name not in names or hold.because == WRITTEN}
        touches = tuple(t for t in touches if t[1] == WRITTEN or not _ends(t[0], position) & set(names))
        arms.update(dict.fromkeys(sides_of(one.side), one.name))
    elif isinstance(one, Angle) and one.joint in ("shoulder", "elbow"):
        for side in sides_of(one.side):
            arms.pop(side, None)
    return holds, touches


def _cleared(holds: dict[str, Hold], names: tuple[str, ...]) -> dict[str, Hold]:
    """Contacts without those that a written one takes the place of: of the same foot or arm, and what merely rests."""
    limbs = {limb_of(name) for name in names} - {("", "")}
    feet = {limb_of(name)[0] for name in names if name.partition(" ")[2] in FEET}
    left: dict[str, Hold] = {}
    for name, hold in holds.items():
        side, limb = limb_of(name)
        same_arm = limb == "arm" and (side, limb) in limbs
        same_foot = limb == "leg" and side in feet and name.partition(" ")[2] in FEET
        # Of somebody on the side a knee that is put down carries, and the foot only lies there.
        same_foot = same_foot or (name == f"{side} ankle" and f"{side} knee" in names)
        merely = not hold.firm and ((side, limb) in limbs or (limb == "" and any(kind == "arm" for _, kind in limbs)))
        if name in names or merely or (hold.because != WRITTEN and (same_arm or same_foot)):
            continue
        left[name] = hold
    return left


def _untouched(touches: Touches, names: tuple[str, ...], position: str) -> Touches:
    limbs = {limb_of(name) for name in names}
    return tuple(
        one for one in touches if one[1] == WRITTEN or not {limb_of(name) for name in _ends(one[0], position)} & limbs
    )


def _free(arms: dict[str, str], names: tuple[str, ...]) -> None:
    for name in names:
        side, limb = limb_of(name)
        if limb == "arm":
            arms.pop(side, None)


def _rests_left(holds: dict[str, Hold], pose: Pose) -> dict[str, Hold]:
    """Contacts without the mere rests of a limb whose angles are written."""
    ended: set[str] = set()
    for one in pose.statements:
        if isinstance(one, Angle):
            for side in sides_of(one.side):
                if one.joint in ("shoulder", "elbow"):
                    ended |= {f"{side} {name}" for name in ARM}
                elif one.joint == "hip" and one.movement in ("flexion", "extension"):
                    ended |= {f"{side} {name}" for name in ("heel", "calf", "kneecap", "knee", "toes", "ankle")}
                elif one.joint == "knee" and one.movement == "flexion" and one.degrees > 20:
                    ended |= {f"{side} {name}" for name in ("heel", "calf", "toes", "ankle")}
    return {name: hold for name, hold in holds.items() if hold.firm or name not in ended}


def _touches_left(touches: Touches, pose: Pose) -> Touches:
    """Touches without those that only the position brings and a written angle of that leg alone ends."""
    moved = {
        one.side
        for one in pose.statements
        if isinstance(one, Angle) and one.joint in ("hip", "knee") and "rotation" not in one.movement
    }
    return tuple(one for one in touches if one[1] in (WRITTEN, KEPT) or one[0].part.side not in moved)
