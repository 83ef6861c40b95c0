"""The most that a phase allows, in words for somebody who does not know the names of movements."""

from __future__ import annotations

from protodsl.handout.phrase import Measure, Phrase
from protodsl.handout.words import say
from protodsl.model.protocol import Forbid, Limit
from protodsl.units import Quantity


def limited(limit: Limit) -> Phrase:
    """A limit of movement or load; `<=` allows the number itself, `<` does not."""
    sign = "le" if limit.op == "<=" else "lt"
    if not limit.joint:
        return say(f"limit.load.{sign}", most=Measure(limit.most))
    movement = moved(limit.kind, limit.joint, limit.movement, all_kinds="passive")
    value = limit.most.value
    if value < 0:
        short = Measure(Quantity(-value, limit.most.unit))
        return say(f"limit.short.{sign}", movement=movement, short=short)
    if value == 0:
        return say(f"limit.zero.{sign}", movement=movement)
    return say(f"limit.movement.{sign}", movement=movement, most=Measure(limit.most))


def forbidden(forbid: Forbid) -> Phrase:
    """A kind of movement, and every stronger kind, that is not allowed."""
    return say(f"forbid.{forbid.kind}", movement=movement(forbid.joint, forbid.movement))


def bearing(kind: str) -> Phrase:
    """How much weight may go through the limb."""
    return say(f"bearing.{kind.replace(' ', '-')}")


def moved(kind: str, joint: str, name: str, all_kinds: str) -> Phrase:
    """A movement with its kind; the kind that covers all kinds is not named."""
    if kind == all_kinds:
        return movement(joint, name)
    return say(f"kind.{kind}", movement=movement(joint, name))


def movement(joint: str, name: str) -> Phrase:
    """A movement in plain words, with its name."""
    return say(f"movement.{joint}.{name.replace(' ', '-')}")
