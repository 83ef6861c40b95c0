"""What `but` makes of a pose: its items lie over those of the pose it changes, each over what says the same thing."""

from __future__ import annotations

from dataclasses import replace
from typing import Any

from protodsl.model.figure import (
    PAIRED_PARTS,
    Angle,
    Contact,
    Distance,
    Height,
    Lean,
    Lift,
    Line,
    Part,
    Pose,
    Posture,
    Slide,
    Statement,
    Touch,
    Under,
)

_OPPOSITE = {"right": "left", "left": "right"}
# Movements that turn one axis, each under one name.
_AXES: dict[str, str] = {
    "extension": "flexion", "adduction": "abduction", "external rotation": "internal rotation",
    "plantarflexion": "dorsiflexion", "eversion": "inversion", "supination": "pronation",
    "ulnar deviation": "radial deviation",
}  # fmt: skip
_TRUNK = ("trunk straight", "trunk upright", "body straight")


def changed_pose(pose: Pose, change: Pose) -> Pose:
    """A pose with the items of another over it: those that say the same thing go, as far as the side goes."""
    left = pose.statements
    for new in change.statements:
        left = tuple(kept for old in left if (kept := _beside(old, new)) is not None)
    return replace(
        change,
        position=change.position or pose.position,
        forward=change.forward if change.position else pose.forward,
        statements=(*left, *change.statements),
        but=False,
    )


def _beside(old: Statement, new: Statement) -> Statement | None:
    """What stays of an item beside a new one: all of it, its other side, or nothing (None)."""
    if _about(old) != _about(new):
        return old
    was, now = _side(old), _side(new)
    if not now or was == now:
        return None
    return old if was else _narrowed(old, _OPPOSITE[now])


def _about(one: Statement) -> tuple[str, ...]:
    """What an item is about, whichever side it is on."""
    match one:
        case Angle(joint, movement):
            return ("angle", joint, _AXES.get(movement, movement))
        case Contact(part) | Touch(part) | Lift(part):
            return ("contact", part.name)
        case Line(part):
            return ("line", part.name)
        case Slide(part) | Under(part) | Height(part):
            return (type(one).__name__, part.name)
        case Distance(part, _, relation, surface):
            return ("distance", part.name, relation, surface)
        case Lean():
            return ("trunk",)
        case Posture(name):
            return ("trunk",) if name in _TRUNK else ("look",) if name == "look ahead" else ("arms",)


def _side(one: Statement) -> str:
    return one.side if isinstance(one, Angle | Posture) else one.part.side if not isinstance(one, Lean) else ""


def _narrowed(one: Statement, side: str) -> Statement:
    """An item for both sides, for one of them."""
    if isinstance(one, Angle | Posture):
        return replace(one, side=side)
    if isinstance(one, Lean):
        return one
    parts: dict[str, Any] = {"part": _of_side(one.part, side)}
    for name in ("on", "other"):
        if (other := getattr(one, name, None)) is not None:
            parts[name] = _of_side(other, side)
    return replace(one, **parts)


def _of_side(part: Part, side: str) -> Part:
    return replace(part, side=side) if part.name in PAIRED_PARTS and not part.side else part
