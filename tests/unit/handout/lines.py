"""Every line of a protocol that keeps somebody safe, found by walking the model without knowing how sheets are made."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import fields, is_dataclass
from typing import Any

from protodsl.model.exercise import Exercise, Give
from protodsl.model.protocol import Phase, Protocol
from protodsl.model.reach import exercises_reached, gives_of
from protodsl.source import Span

# For each field of the model that holds safety lines: how the ids of their lines on the sheet begin.
PLACES = {
    ("Protocol", "emergencies"): "stop/emergency/",
    ("Protocol", "red_flags"): "stop/red-flag/",
    ("Protocol", "calls"): "stop/call/",
    ("Protocol", "cautions"): "care/",
    ("Protocol", "stop"): "stop/stop/",
    ("Protocol", "not_yet"): "daily/not-yet/",
    ("Protocol", "zones"): "pain/",
    ("Protocol", "flare_up"): "flare/",
    ("Phase", "calls"): "stop/call/phase-",
    ("Phase", "cautions"): "plan/",
    ("Phase", "stop"): "stop/stop/phase-",
    ("Phase", "limits"): "plan/",
    ("Phase", "forbids"): "plan/",
    ("Phase", "not_yet"): "plan/",
    ("Phase", "until"): "plan/",
    ("Phase", "back_to"): "plan/",
    ("Exercise", "stop"): "card/",
    ("Exercise", "avoid"): "card/",
    ("Exercise", "caution"): "card/",
}


def safety_lines(protocol: Protocol) -> set[tuple[str, Span]]:
    """The beginning of the id and the place of every safety line that somebody following the protocol can meet."""
    met = {reached.exercise for reached in exercises_reached(protocol)}
    progressions = protocol.scope.progressions
    given = {give.item for phase in (None, *protocol.phases) for give in gives_of(protocol, phase)}
    levels = (level for name in given if name in progressions for level in progressions[name].levels)
    within = {("card/", give.span) for level in levels for give in level.gives if give.supervised}
    return set(_found(protocol, met)) | within


def _found(node: Any, met: set[str]) -> Iterator[tuple[str, Span]]:
    if isinstance(node, tuple):
        for one in node:
            yield from _found(one, met)
        return
    if not is_dataclass(node) or isinstance(node, type):
        return
    for field in fields(node):
        value = getattr(node, field.name)
        start = PLACES.get((type(node).__name__, field.name))
        if start is not None:
            yield from ((start, line.span) for line in value)
        if field.name == "scope":
            for name in sorted(met):
                yield from _found(value.exercises[name], met)
        else:
            yield from _found(value, met)
    if isinstance(node, Phase) and node.bearing is not None:
        yield "plan/", node.span
    if isinstance(node, Give) and node.supervised:
        yield "plan/", node.span
    if isinstance(node, Exercise) and node.supervised:
        yield "card/", node.span
    if isinstance(node, Exercise) and node.bearing_said and node.bearing != "full" and not _unloaded(node):
        yield "card/", node.span


def _unloaded(exercise: Exercise) -> bool:
    """Who sits or lies puts no weight on a limb; an unknown position is one in which somebody could."""
    at_rest = ("sitting", "long sitting", "lying")
    return exercise.bearing == "none" and (exercise.position or "").startswith(at_rest)
