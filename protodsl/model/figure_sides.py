"""Whether a figure shows one side: then it is turned round for whoever needs the other."""

from __future__ import annotations

import re
from collections import Counter
from collections.abc import Iterator

from protodsl.model.figure import Angle, Figure, Lift

SIDES: tuple[str, ...] = ("right", "left")
_SIDE = re.compile(r"\b(?:right|left)\b")


def names_a_side(figure: Figure) -> bool:
    """Whether a figure turned round says something else: right or left is named, and not the same of both."""
    facts = list(_facts(figure))
    return Counter(map(_ordered, facts)) != Counter(_ordered(_turned(fact)) for fact in facts)


def moves_left_alone(figure: Figure) -> bool:
    """Whether all that is said to move is on the left: the side treated must be the right one, so somebody should ask.

    It is right where the right leg is the one to stand on, and a slip where the left limb is meant.
    """
    arrows = {arrow.part.side for arrow in figure.arrows} - {""}
    moved = {
        one.side if isinstance(one, Angle) else one.part.side
        for pose in figure.poses[1:]
        for one in pose.statements
        if isinstance(one, Angle | Lift)
    } - {""}
    return (arrows or moved) == {SIDES[1]}


def _facts(figure: Figure) -> Iterator[str]:
    """What a figure says, a line for each item; the closed lists have the words right and left for sides alone."""
    for at, pose in enumerate(figure.poses):
        yield f"{at} {pose.position} {pose.forward}"
        yield from (f"{at} {statement!r}" for statement in pose.statements)
    for prop in figure.props:
        yield "\n".join((f"{prop.kind} {prop.where}", *map(repr, prop.ends)))
    yield from map(repr, figure.arrows)


def _ordered(fact: str) -> tuple[str, ...]:
    """A fact with the ends of a thing in one order: a band from hand to hand is the same from either."""
    first, *ends = fact.split("\n")
    return (first, *sorted(ends))


def _turned(fact: str) -> str:
    return _SIDE.sub(_other, fact)


def _other(found: re.Match[str]) -> str:
    return SIDES[1 - SIDES.index(found[0])]
