"""No exercise that a phase reaches moves a joint further than the phase allows."""

from __future__ import annotations

from collections.abc import Iterator

from protodsl.check.context import Context
from protodsl.check.safety.way import way
from protodsl.diagnostics import safety as say
from protodsl.diagnostics.diagnostic import Diagnostic
from protodsl.model.exercise import Movement
from protodsl.model.lists import KINDS
from protodsl.model.protocol import Entry, Limit


def past_limit(entry: Entry, context: Context) -> Iterator[Diagnostic]:
    """A movement past a `limit` of the same movement and of the same or a weaker kind."""
    for _, phase, reached, exercise, _ in context.in_phases(entry):
        for limit in phase.limits:
            for move in exercise.moves:
                if _past(move, limit):
                    yield say.past_limit(
                        exercise.name,
                        f"{move.joint} {move.movement}",
                        move.to,
                        say.at_most(limit.op, str(limit.most)),
                        phase.name,
                        limit.setting,
                        way(reached),
                        move.span,
                        limit.span,
                    )


def _past(move: Movement, limit: Limit) -> bool:
    if (move.joint, move.movement) != (limit.joint, limit.movement):
        return False
    if KINDS.index(move.kind) < KINDS.index(limit.kind):
        return False
    return move.to > limit.most.value or (limit.op == "<" and move.to == limit.most.value)
