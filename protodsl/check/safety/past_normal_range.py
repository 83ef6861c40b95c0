"""No movement goes past the published normal range of the joint."""

from __future__ import annotations

from collections.abc import Iterator

from protodsl.check.context import Context
from protodsl.check.safety.normal_ranges import NORMAL_RANGES, SOURCE
from protodsl.diagnostics import safety as say
from protodsl.diagnostics.diagnostic import Diagnostic
from protodsl.model.protocol import Entry


def past_normal_range(entry: Entry, context: Context) -> Iterator[Diagnostic]:
    """A movement further than healthy adult joints go."""
    for exercise, _ in context.exercises:
        for move in exercise.moves:
            normal = NORMAL_RANGES.get((move.joint, move.movement))
            if normal is not None and move.to > normal:
                words = f"{move.joint} {move.movement}"
                yield say.past_normal_range(exercise.name, words, move.to, normal, SOURCE, move.span)
