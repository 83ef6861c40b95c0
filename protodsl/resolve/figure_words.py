"""The words of a figure looked up: parts, joints with their movements, postures, lengths."""

from __future__ import annotations

from collections.abc import Iterator
from decimal import Decimal
from typing import NamedTuple

from protodsl.diagnostics import figures as say
from protodsl.diagnostics.suggest import nearest
from protodsl.model.figure import JOINTS, MIDDLE_PARTS, PAIRED_PARTS, POSTURES, SURFACES, Part
from protodsl.resolve.names import Names
from protodsl.syntax import tree
from protodsl.syntax.figure_words import PLURALS, SIDES, split_noun, split_side
from protodsl.syntax.print_parts import amount_text
from protodsl.units import UNITS

# Joints in the middle of the body, which bend and turn to a side.
SPINE = ("neck", "trunk", "lower back", "upper back")
TO_A_SIDE = ("side bending", "rotation")
# What somebody may call a joint by.
_MEANT = {
    "head": "neck", "back": "trunk", "spine": "trunk", "pelvis": "lower back", "leg": "hip", "thigh": "hip",
    "arm": "shoulder", "upper arm": "shoulder", "foot": "ankle", "heel": "ankle", "hand": "wrist", "shin": "knee",
}  # fmt: skip
# How each joint is written for both sides.
JOINT_WORDS: dict[str, str] = {PLURALS.get(joint, PLURALS.get(f"{joint}s", joint)): joint for joint in JOINTS}


def _posture_words() -> Iterator[tuple[str, tuple[str, str]]]:
    for posture in POSTURES:
        yield posture, (posture, "")
        for side in SIDES:
            if posture.startswith(("arms ", "hands ")):
                one = posture.replace("arms", "arm").replace("hands", "hand").replace("sides", "side")
                yield f"{side} {one}", (posture, side)
                yield f"{side} {one}".replace("on hips", f"on {side} hip"), (posture, side)


POSTURE_WORDS: dict[str, tuple[str, str]] = dict(_posture_words())
PART_WORDS: tuple[str, ...] = (
    *(PLURALS[part] for part in PAIRED_PARTS),
    *(f"{side} {part}" for side in SIDES for part in PAIRED_PARTS),
    *MIDDLE_PARTS,
)


class Axis(NamedTuple):
    """A joint, the side it is on ("": both, or in the middle), and the words behind it."""

    joint: str
    side: str
    behind: str


def part(name: tree.Name, names: Names, surfaces: bool = False) -> Part | None:
    """The part of the body that is named; else None, and it is said. With `surfaces` one of these may be near too."""
    side, rest = split_side(name.text)
    noun, behind = split_noun(rest)
    if noun and not behind:
        return Part(noun, side, span=name.span)
    if rest in MIDDLE_PARTS:
        if side:
            names.say(say.side_of_middle(rest, side, rest in SPINE, name.span))
            return None
        return Part(rest, span=name.span)
    known = (*PART_WORDS, *SURFACES) if surfaces else PART_WORDS
    names.say(say.unknown_part(name.text, nearest(name.text, known), name.span))
    return None


def axis(words: str) -> Axis | None:
    """The joint that words begin with, and what stands behind it; None where they begin with none."""
    side, rest = split_side(words)
    noun, behind = split_noun(rest)
    joint = "toe" if noun == "toes" else noun
    if joint in JOINTS:
        return Axis(joint, side, behind)
    for one in SPINE:
        if rest == one or rest.startswith(f"{one} "):
            return Axis(one, side, rest[len(one) + 1 :])
    return None


def near_joint(words: str) -> str | None:
    """The words with the joint that was probably meant in front."""
    side, rest = split_side(words)
    parts = rest.split()
    for count in (2, 1):
        front = " ".join(parts[:count])
        meant = _MEANT.get(split_noun(front)[0] or front)
        if meant is not None:
            near: str | None = meant if side else next(word for word, joint in JOINT_WORDS.items() if joint == meant)
        else:
            near = nearest(front, JOINTS if side else JOINT_WORDS)
        if near is not None:
            return " ".join(word for word in (side if near not in SPINE else "", near, *parts[count:]) if word)
    return None


def centimetres(amount: tree.Amount, what: str, example: str, bounds: tuple[int, int], names: Names) -> Decimal | None:
    """A length in centimetres between two bounds; else None, and it is said."""
    unit = UNITS.get(amount.unit or "")
    if unit is None or unit.dimension != "length":
        names.say(say.wrong_measure(amount_text(amount), "a length", example, amount.span))
        return None
    length = amount.value * unit.factor * 100
    if not bounds[0] <= length <= bounds[1]:
        names.say(say.size(what, *bounds, "cm", length, amount.span))
        return None
    return length
