"""What of a pose has to be said to somebody who cannot see it: the rule of what a text alternative leaves out.

Never left out: what touches or is lifted, slides or is held on to, each side, the movement. Left out is

- an angle within 10 degrees of what was last said of it, or, where nothing was, of the posture that the position
  itself brings; but a hip or a knee that is straight after the first pose is said, for contacts may have bent it;
- of somebody who stands, what only keeps the balance: less than 20 degrees at an ankle, and at a hip whose knee is
  said to bend; less than 30 degrees at a shoulder, where no arrow is of an arm and neither arm goes farther;
- an upright trunk and eyes ahead, which are usual, until something else was said of them;
- what the pose before has said in the same words; a mat, and the chair that sitting brings.

How near is near is common practice, no source.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from decimal import Decimal

from protodsl.model.figure import (
    Angle,
    Contact,
    Distance,
    Figure,
    Lean,
    Lift,
    Pose,
    Posture,
    Prop,
    Slide,
    Statement,
    Touch,
)

_NEAR, _BALANCE, _SWING = 10, 20, 30
# The height of the seat that sitting brings where none is written.
_SEAT = Decimal(45)
_SIDES = ("right", "left")
_ARM = ("shoulder", "upper arm", "elbow", "forearm", "wrist", "hand", "fingers", "arm")
_SPINE = ("neck", "trunk", "lower back", "upper back")
# Movements that count downwards, by the one they are measured with.
_DOWN = {
    "extension": "flexion", "plantarflexion": "dorsiflexion", "eversion": "inversion", "adduction": "abduction",
    "internal rotation": "external rotation", "supination": "pronation", "ulnar deviation": "radial deviation",
}  # fmt: skip
# Degrees by which a position bends joints, in their first movement; none where none is given.
RESTS: dict[str, dict[str, int]] = {
    "sitting": {"hip": 85, "knee": 85},
    "long sitting": {"hip": 86},
    "on all fours": {"hip": 90, "knee": 90, "ankle": -45, "shoulder": 90},
    "kneeling": {"knee": 90, "ankle": -40},
    "half-kneeling": {"knee": 90},
    "lying face down": {"ankle": -45},
}
_ALWAYS = (Contact, Touch, Lift, Slide)
_STRAIGHT = ("body straight", "trunk straight")
_USUAL = ("look ahead", "trunk upright")
_LEAN = ("trunk", "lean", "")

# Joint, the movement it is measured by, side.
Key = tuple[str, str, str]
Degrees = float


@dataclass(frozen=True, slots=True)
class _Place:
    """A pose with the position it is in, what was said of angles before, and what the pose before says."""

    pose: Pose
    position: str
    known: Mapping[Key, Degrees]
    before: tuple[Statement, ...]


def needed(figure: Figure) -> tuple[tuple[Statement, ...], ...]:
    """The statements of each pose that are said."""
    found: list[tuple[Statement, ...]] = []
    known: dict[Key, Degrees] = {}
    position, idle = "", _arms_are_idle(figure)
    before: tuple[Statement, ...] = ()
    for pose in figure.poses:
        if pose.position is not None:
            position, known, before = pose.position, {}, ()
        at = _Place(pose, position, known, before)
        found.append(tuple(one for one in pose.statements if _is_needed(one, at, idle)))
        for one in pose.statements:
            known.update(values_of(one))
        before = pose.statements
    return tuple(found)


def things(figure: Figure) -> tuple[Prop, ...]:
    """The things that are said to be used: those that no position brings by itself."""
    sits = any(pose.position == "sitting" for pose in figure.poses)
    return tuple(
        one
        for one in figure.props
        if one.kind != "mat" and not (one.kind == "chair" and sits and not one.where and one.centimetres == _SEAT)
    )


def _is_needed(one: Statement, at: _Place, idle: bool) -> bool:
    if isinstance(one, _ALWAYS) or (isinstance(one, Distance) and one.relation in _SIDES):
        return True
    if isinstance(one, Posture) and one.name in _USUAL:
        spine = any(key[0] in _SPINE and abs(value) >= _NEAR for key, value in at.known.items())
        return spine or at.position == "lying face down"
    if isinstance(one, Posture) and one.name in _STRAIGHT and any(_bends(other) for other in at.pose.statements):
        return False
    values = dict(values_of(one))
    if not values:
        return one not in at.before
    return any(
        _is_new(key, value, at) and not (at.position == "standing" and _balances(key, value, at.pose, idle))
        for key, value in values.items()
    )


def _is_new(key: Key, value: Degrees, at: _Place) -> bool:
    rest = RESTS.get(at.position, {}).get(key[0], 0) if _flexes(key) else 0
    near = abs(value - rest) < _NEAR
    if key in at.known:
        return abs(value - at.known[key]) >= _NEAR and not (near and abs(at.known[key] - rest) < _NEAR)
    if key[0] in ("hip", "knee") and _flexes(key) and value == 0 and at.pose.position is None:
        return True
    return not near


def _balances(key: Key, value: Degrees, pose: Pose, idle: bool) -> bool:
    """Whether an angle of somebody who stands follows from the others, as in a squat."""
    joint, _, side = key
    if joint == "shoulder":
        return idle
    if joint == "ankle":
        return abs(value) < _BALANCE
    said = [(other, bent) for one in pose.statements for other, bent in values_of(one)]
    knee = any(other == ("knee", "flexion", side) and bent >= _NEAR for other, bent in said)
    return joint == "hip" and _flexes(key) and knee and abs(value) < _BALANCE


def _arms_are_idle(figure: Figure) -> bool:
    if any(arrow.part.name in _ARM for arrow in figure.arrows):
        return False
    said = [pair for pose in figure.poses for one in pose.statements for pair in values_of(one)]
    return all(abs(value) < _SWING for key, value in said if key[0] == "shoulder")


def _flexes(key: Key) -> bool:
    return key[1] in ("flexion", "dorsiflexion")


def _bends(one: Statement) -> bool:
    return any(key[0] in ("hip", "knee") and _flexes(key) and abs(bent) >= _NEAR for key, bent in values_of(one))


def values_of(one: Statement) -> Iterator[tuple[Key, Degrees]]:
    """The angles that a statement says, each with its joint, movement and side; a joint of both sides is two."""
    if isinstance(one, Lean):
        yield _LEAN, float(one.degrees if one.direction == "forward" else -one.degrees)
    elif isinstance(one, Posture) and one.name == "trunk upright":
        yield _LEAN, 0.0
    elif isinstance(one, Angle):
        movement = _DOWN.get(one.movement, one.movement)
        value = float(one.degrees if movement == one.movement else -one.degrees)
        if one.towards == "left":
            value = -value
        for side in ("",) if one.joint in _SPINE else (one.side,) if one.side else _SIDES:
            yield (one.joint, movement, side), value
