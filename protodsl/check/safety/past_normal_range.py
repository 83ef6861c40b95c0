"""No movement goes past the published normal range of the joint."""

from __future__ import annotations

from collections.abc import Iterator

from protodsl.check.context import Context
from protodsl.check.safety.normal_ranges import NORMAL_RANGES, SOURCE
from protodsl.diagnostics import safety as say
from protodsl.diagnostics.diagnostic import Diagnostic
from protodsl.model.protocol import Entry
from protodsl.source import Span


def past_normal_range(entry: Entry, context: Context) -> Iterator[Diagnostic]:
    """A movement further than healthy adult joints go."""
    seen: set[Span] = set()
    for exercise, _ in context.exercises:
        for move in exercise.moves:
            normal = NORMAL_RANGES.get((move.joint, move.movement))
            # Variants inherit the line; it is said once, of the exercise that is met first.
            if normal is not None and move.to > normal and move.span not in seen:
                seen.add(move.span)
                words = f"{move.joint} {move.movement}"
                yield say.past_normal_range(exercise.name, words, move.to, normal, SOURCE, move.span)
