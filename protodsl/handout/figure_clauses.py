"""What a pose says, clause by clause: whole clauses whose subject is a part of the body, never ends glued together."""

from __future__ import annotations

from decimal import Decimal

from protodsl.handout.phrase import Measure, Message, Phrase
from protodsl.model.figure import (
    MIDDLE_PARTS,
    Angle,
    Arrow,
    Contact,
    Distance,
    Height,
    Lean,
    Lift,
    Line,
    Part,
    Posture,
    Slide,
    Statement,
    Touch,
    Under,
)
from protodsl.units import UNITS, Quantity

_OTHER = {"right": "left", "left": "right"}
# The part that an angle is said of: the joint itself, or what moves at it.
_MOVED = {
    "hip": "hip", "knee": "knee", "ankle": "foot", "toe": "toes", "shoulder": "arm", "elbow": "elbow",
    "forearm": "forearm", "wrist": "hand",
}  # fmt: skip
_SPINE = ("neck", "trunk", "lower back", "upper back")
# An angle below zero is so many degrees of the opposite movement.
_OPPOSITES = {
    "flexion": "extension", "dorsiflexion": "plantarflexion", "inversion": "eversion", "abduction": "adduction",
    "internal rotation": "external rotation", "pronation": "supination", "radial deviation": "ulnar deviation",
}  # fmt: skip
_BACK = {movement: opposite for opposite, movement in _OPPOSITES.items()}
# Words of the language for both sides of the body that count as several in a sentence, though they name one side.
_SEVERAL = ("toes", "fingers")
# What the words for the arms are said of.
_ARMS = {
    "arms by sides": "arm", "arms forward": "arm", "arms overhead": "arm", "arms across chest": "arm",
    "hands on hips": "hand", "hands behind head": "hand",
}  # fmt: skip


def clause(statement: Statement, mirror: bool = False) -> Phrase:
    """A statement of a pose as a clause; `mirror` says it of the other side."""
    match statement:
        case Angle():
            return _angle(statement, mirror)
        case Contact(part=part, surface=surface, edge=edge):
            return _of(part, "figure.contact.edge" if edge else f"figure.contact.{surface}", mirror)
        case Touch(part=part, on=on):
            return _of(part, "figure.touch", mirror, other=named(on, mirror))
        case Lift(part=part):
            return _of(part, "figure.lift", mirror)
        case Slide(part=part):
            return _of(part, "figure.slide", mirror)
        case Under(part=part, other=other):
            return _of(part, "figure.under", mirror, other=named(other, mirror))
        case Line(part=part, direction=direction):
            return _of(part, f"figure.line.{direction}", mirror)
        case Lean(direction=direction, degrees=degrees):
            return Message(f"figure.lean.{direction}", {"angle": _degrees(degrees)})
        case Distance():
            return _distance(statement, mirror)
        case Height(part=part, other=other):
            return _of(part, "figure.height", mirror, other=named(other, mirror))
        case Posture(name=name, side=side):
            if name not in _ARMS:
                return Message(f"figure.posture.{_key(name)}")
            return _of(Part(_ARMS[name], side), f"figure.posture.{_key(name)}", mirror)


def move(arrow: Arrow, mirror: bool = False) -> Phrase:
    """An arrow as a clause: which part moves where."""
    direction = _OTHER.get(arrow.direction, arrow.direction) if mirror else arrow.direction
    return _of(arrow.part, f"figure.move.{direction}", mirror)


def named(part: Part, mirror: bool = False) -> Phrase:
    """A part of the body as the words for it."""
    if part.name in MIDDLE_PARTS:
        return Message(f"figure.part.{_key(part.name)}")
    return Message(f"figure.part.{_key(part.name)}.{sided(part.side, mirror) or 'both'}")


def sided(side: str, mirror: bool) -> str:
    """A side as it is for the person: the figure is written for the right, and `mirror` turns it round."""
    return _OTHER.get(side, side) if mirror else side


def centimetres(value: Decimal) -> Phrase:
    """A length of the figure, in the units of the clinic."""
    return Measure(Quantity(value, UNITS["cm"]))


def _of(part: Part, key: str, mirror: bool, **values: Phrase) -> Phrase:
    """A clause about a part, in the form for one or for several."""
    several = part.name in _SEVERAL or (part.name not in MIDDLE_PARTS and not part.side)
    return Message(key, {"part": named(part, mirror), **values}, Decimal(2 if several else 1))


def _angle(angle: Angle, mirror: bool) -> Phrase:
    degrees, movement = angle.degrees, angle.movement
    if degrees < 0:
        degrees, movement = -degrees, _OPPOSITES.get(movement) or _BACK.get(movement, movement)
    part = Part(angle.joint) if angle.joint in _SPINE else Part(_MOVED[angle.joint], angle.side)
    joint = "spine" if angle.joint in _SPINE else angle.joint
    if degrees == 0 and movement in ("flexion", "extension", "dorsiflexion", "plantarflexion"):
        return _of(part, f"figure.straight.{joint}", mirror)
    if joint == "spine" and movement in ("side bending", "rotation"):
        towards = sided(angle.towards or "right", (angle.degrees < 0) != mirror)
        return _of(part, f"figure.angle.spine.{_key(movement)}.{towards}", mirror, angle=_degrees(degrees))
    return _of(part, f"figure.angle.{joint}.{_key(movement)}", mirror, angle=_degrees(degrees))


def _distance(said: Distance, mirror: bool) -> Phrase:
    if said.relation in _OTHER:
        return _of(said.part, f"figure.move.{sided(said.relation, mirror)}", mirror)
    length = centimetres(said.centimetres)
    if said.surface:
        return _of(said.part, f"figure.distance.{said.surface}", mirror, distance=length)
    if said.other is None:
        return _of(said.part, "figure.distance.apart", mirror, distance=length)
    key = f"figure.distance.{_key(said.relation)}"
    return _of(said.part, key, mirror, distance=length, other=named(said.other, mirror))


def _degrees(value: Decimal) -> Phrase:
    return Measure(Quantity(value, UNITS["deg"]))


def _key(words: str) -> str:
    return words.replace(" ", "-")
