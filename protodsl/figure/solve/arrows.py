"""Whether arrows say what the body does between the pose before the last and the last."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from protodsl.diagnostics import poses as say
from protodsl.diagnostics.diagnostic import Diagnostic
from protodsl.figure.body.landmarks import LANDMARKS
from protodsl.figure.body.parts import followed, sides_of
from protodsl.figure.body.vectors import dot, length, minus, times
from protodsl.figure.posture import Vector
from protodsl.figure.solve.posing import Posed
from protodsl.figure.solve.weights import HEADWARDS, UPRIGHT
from protodsl.figure.solve.words import is_many, part_words
from protodsl.model.figure import MIDDLE_PARTS, Arrow

# Less than this many cm is no movement that an arrow could show, or no movement in the direction.
STILL, CLEARLY = 1.0, 0.5
# Of somebody who lies, this share of a movement goes the other way before an arrow is against it.
MOSTLY = 0.5
OPPOSITE = {"up": "down", "down": "up", "forward": "back", "back": "forward", "in": "out", "out": "in",
            "left": "right", "right": "left"}  # fmt: skip


def said_of_arrows(arrows: Sequence[Arrow], solved: Sequence[Posed]) -> Iterator[Diagnostic]:
    """What is to be said of each arrow; nothing where there are fewer than two poses."""
    if len(solved) < 2:
        return
    before, after = solved[-2], solved[-1]
    for arrow in arrows:
        for side in sides_of(arrow.part.side)[:1] if arrow.part.name not in MIDDLE_PARTS else ("",):
            balls = [LANDMARKS[name] for name in followed(arrow.part.name, side)]
            ways = [minus(after.body.centre(ball), before.body.centre(ball)) for ball in balls]
            moved = next((way for way in ways if length(way) >= STILL), None)
            if moved is None:
                yield say.part_stands_still(part_words(arrow.part), is_many(arrow.part), arrow.span)
                continue
            if arrow.direction in ("in", "out") and not side:
                continue
            towards = _direction(arrow.direction, side, after)
            if dot(moved, towards) < -CLEARLY and dot(moved, towards) < -_share(arrow, after) * length(moved):
                other = OPPOSITE[arrow.direction]
                yield say.arrow_against(
                    part_words(arrow.part),
                    is_many(arrow.part),
                    arrow.direction,
                    other,
                    -dot(moved, towards),
                    arrow.span,
                )


def _share(arrow: Arrow, posed: Posed) -> float:
    """How much of a movement must go the other way: of somebody who lies, forward and back are also said along the
    body.
    """
    lies = posed.asked.position.name not in (*UPRIGHT, *HEADWARDS)
    return MOSTLY if lies and arrow.direction in ("forward", "back") else 0.0


def _direction(word: str, side: str, posed: Posed) -> Vector:
    """The way a word points in the world; of somebody who lies on the back or on a side, by the body's own front."""
    if word in ("up", "down"):
        return (0.0, 0.0, 1.0 if word == "up" else -1.0)
    across = posed.body.direction(0, 1)
    if word in ("left", "right"):
        return across if word == "left" else times(across, -1.0)
    if word in ("in", "out"):
        outwards = across if side == "left" else times(across, -1.0)
        return outwards if word == "out" else times(outwards, -1.0)
    if posed.asked.position.name in (*UPRIGHT, *HEADWARDS):
        return (1.0 if word == "forward" else -1.0, 0.0, 0.0)
    front = posed.body.direction(0, 0)
    return front if word == "forward" else times(front, -1.0)
