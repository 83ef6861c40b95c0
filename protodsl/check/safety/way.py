"""The way from a phase to an exercise, as places with a few words each."""

from __future__ import annotations

from protodsl.diagnostics import safety as say
from protodsl.diagnostics.diagnostic import Label
from protodsl.model.reach import Reached


def way(reached: Reached) -> tuple[Label, ...]:
    """The give first, then every level and replacement on the way."""
    first, *steps = reached.path
    labels = [Label(first.span, say.given())]
    for step in steps:
        words = say.as_level(step.name) if step.kind == "level" else say.in_place_of(step.name, step.kind)
        labels.append(Label(step.span, words))
    return tuple(labels)
