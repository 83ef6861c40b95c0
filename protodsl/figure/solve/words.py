"""Parts, angles and statements in the words of the language, for whoever is told about them."""

from __future__ import annotations

from protodsl.model.figure import (
    MIDDLE_PARTS,
    Angle,
    Distance,
    Height,
    Lean,
    Line,
    Part,
    Posture,
    Statement,
    Touch,
    Under,
)
from protodsl.units import plain

_PLURALS = {
    "foot": "feet",
    "forefoot": "forefeet",
    "outer foot": "outer feet",
    "calf": "calves",
    "toes": "toes",
    "fingers": "fingers",
}


def is_many(part: Part) -> bool:
    """Whether the word for a part is a plural."""
    return part.name in ("toes", "fingers") or (part.name not in MIDDLE_PARTS and not part.side)


def part_words(part: Part) -> str:
    """`right foot`, `feet`, `pelvis`."""
    if part.name in MIDDLE_PARTS:
        return part.name
    return f"{part.side} {part.name}" if part.side else _PLURALS.get(part.name, f"{part.name}s")


def joint_words(angle: str, both: bool = False) -> str:
    """The joint of one of the body's angles: `right knee`, `lower back`; `knee` with `both`."""
    side, _, rest = angle.partition(" ")
    words = rest if side in ("right", "left") else angle
    joint = words.split()[0] if side in ("right", "left") or words.startswith("neck") else " ".join(words.split()[:2])
    if side not in ("right", "left"):
        return joint
    return joint if both else f"{side} {joint}"


def angle_words(angle: Angle) -> str:
    """`right hip flexion`, `trunk side bending to left`, without the number."""
    towards = f" to {angle.towards}" if angle.towards else ""
    return f"{angle.side} {angle.joint} {angle.movement}{towards}".strip()


def statement_words(one: Statement) -> str:
    """A relation as it is written."""
    match one:
        case Under():
            return f"{part_words(one.part)} under {part_words(one.other)}"
        case Height():
            return f"{part_words(one.part)} at {one.other.side} {one.other.name} height".replace("  ", " ")
        case Line():
            return f"{part_words(one.part)} {one.direction}"
        case Lean():
            return f"trunk lean {one.direction} {plain(one.degrees)}"
        case Touch():
            return f"{part_words(one.part)} on {part_words(one.on)}"
        case Distance():
            return _distance_words(one)
        case Posture():
            return f"{one.side} {one.name}".strip()
        case _:
            return part_words(one.part) if not isinstance(one, Angle) else angle_words(one)


def _distance_words(one: Distance) -> str:
    far = f"{part_words(one.part)} {plain(one.centimetres)} cm"
    far += f" to {one.relation}" if one.relation in ("right", "left") else f" {one.relation}"
    if one.surface:
        return f"{far} {one.surface}"
    return f"{far} {part_words(one.other)}" if one.other is not None else far
