"""Figures from a few words, for tests of the solver alone: `standing; left hand on table` and so on, a pose a line.

Only what these tests need is read, and read strictly; the language itself has its own parser with its own tests.
"""

from __future__ import annotations

import re
from decimal import Decimal

from protodsl.model.figure import (
    DIRECTIONS,
    JOINTS,
    MIDDLE_PARTS,
    PAIRED_PARTS,
    POSTURES,
    SURFACES,
    Angle,
    Arrow,
    Contact,
    Distance,
    Figure,
    Height,
    Lean,
    Lift,
    Line,
    Part,
    Pose,
    Posture,
    Prop,
    Slide,
    Statement,
    Touch,
    Under,
)
from protodsl.model.lists import POSITIONS

_PLURALS = {"feet": "foot", "forefeet": "forefoot", "outer feet": "outer foot", "calves": "calf"}


def figure(text: str) -> Figure:
    """A figure: lines `start`, `then`, `end`, `arrow`, and props."""
    props: list[Prop] = []
    poses: list[Pose] = []
    arrows: list[Arrow] = []
    view = "side"
    for line in text.strip().splitlines():
        word, _, rest = line.strip().partition(" ")
        if word in ("start", "then", "end"):
            poses.append(pose(word, rest))
        elif word == "arrow":
            name, _, direction = rest.rpartition(" ")
            assert direction in DIRECTIONS, line
            arrows.append(Arrow(part(name), direction))
        elif word == "view":
            view = rest
        else:
            props.append(prop(word, rest))
    return Figure((), view=view, props=tuple(props), poses=tuple(poses), arrows=tuple(arrows))


def pose(role: str, text: str) -> Pose:
    """A pose: a position perhaps, then statements, with commas between."""
    pieces = [piece.strip() for piece in text.split(",")]
    position, forward = None, ""
    half = re.fullmatch(r"half-kneeling (right|left) foot forward", pieces[0])
    if half:
        position, forward, pieces = "half-kneeling", half[1], pieces[1:]
    elif pieces[0] in POSITIONS:
        position, pieces = pieces[0], pieces[1:]
    return Pose(role, position, forward, tuple(statement(piece) for piece in pieces))


def part(text: str) -> Part:
    """A part with its side, in the singular or plural."""
    side, name = "", text
    first, _, rest = text.partition(" ")
    if first in ("right", "left"):
        side, name = first, rest
    name = _PLURALS.get(name, name)
    if name not in (*PAIRED_PARTS, *MIDDLE_PARTS):
        name = name.removesuffix("s")
    assert name in (*PAIRED_PARTS, *MIDDLE_PARTS), text
    return Part(name, side)


def prop(kind: str, rest: str) -> Prop:
    """A prop with its height, place, weight or ends."""
    height = re.search(r"(\d+) cm", rest)
    weight = re.search(r"(\d+) kg on (.*)", rest)
    between = re.search(r"from (.*) to (.*)", rest)
    where = next((one for one in ("in front", "behind", "left", "right") if rest == one), "")
    ends: tuple[Part | str, ...] = ()
    if weight:
        ends = (part(weight[2]),)
    elif between:
        ends = tuple(one if one == "anchor" else part(one) for one in between.groups())
    return Prop(kind, where, Decimal(height[1]) if height else None, Decimal(weight[1]) if weight else None, ends)


def statement(text: str) -> Statement:
    """One statement."""
    if text in POSTURES:
        return Posture(text)
    for pattern, made in _FORMS:
        found = re.fullmatch(pattern, text)
        if found:
            return made(found)
    return _angle(text)


def _angle(text: str) -> Angle:
    found = re.fullmatch(r"(.*?) ?(-?[\d.]+)(?: to (right|left))?", text)
    assert found, text
    words, number, towards = found.groups()
    side = ""
    if words.startswith(("right ", "left ")):
        side, _, words = words.partition(" ")
    for joint, movements in JOINTS.items():
        for plural in (joint + "s", joint):
            if words == plural or words.startswith(plural + " "):
                movement = words[len(plural) :].strip() or movements[0]
                assert movement in movements, text
                return Angle(joint, movement, Decimal(number), side, towards or "")
    raise AssertionError(text)


_SURFACE = "|".join(SURFACES)
_FORMS = (
    (r"lift (.*)", lambda m: Lift(part(m[1]))),
    (r"slide (.*)", lambda m: Slide(part(m[1]))),
    (r"(.*) lean (forward|back) (\d+)", lambda m: Lean(m[2], Decimal(m[3]))),
    (r"(.*) (horizontal|vertical)", lambda m: Line(part(m[1]), m[2])),
    (r"(.*) under (.*)", lambda m: Under(part(m[1]), part(m[2]))),
    (r"(.*) at (.*) height", lambda m: Height(part(m[1]), part(m[2]))),
    (r"(.*) (\d+) cm apart", lambda m: Distance(part(m[1]), Decimal(m[2]), "apart")),
    (rf"(.*) (\d+) cm from ({_SURFACE})", lambda m: Distance(part(m[1]), Decimal(m[2]), "from", m[3])),
    (
        r"(.*) (\d+) cm (from|in front of|behind) (.*)",
        lambda m: Distance(part(m[1]), Decimal(m[2]), m[3], "", part(m[4])),
    ),
    (rf"(.*?)(?: flat)? (?:on|against) ({_SURFACE})( edge)?", lambda m: Contact(part(m[1]), m[2], bool(m[3]))),
    (r"(.*?) (?:on|against) (.*)", lambda m: Touch(part(m[1]), part(m[2]))),
)
