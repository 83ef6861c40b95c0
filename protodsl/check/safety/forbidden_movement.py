"""No exercise that a phase reaches has a movement that the phase forbids."""

from __future__ import annotations

from collections.abc import Iterator

from protodsl.check.context import Context
from protodsl.check.safety.way import way
from protodsl.diagnostics import safety as say
from protodsl.diagnostics.diagnostic import Diagnostic
from protodsl.model.exercise import Movement
from protodsl.model.lists import KINDS
from protodsl.model.protocol import Entry, Forbid


def forbidden_movement(entry: Entry, context: Context) -> Iterator[Diagnostic]:
    """A movement of a forbidden kind or of a stronger one."""
    for _, phase, reached, exercise, _ in context.in_phases(entry):
        for forbid in phase.forbids:
            for move in exercise.moves:
                if _hit(move, forbid):
                    yield say.forbidden(
                        exercise.name,
                        f"{move.kind} {move.joint} {move.movement}",
                        f"{forbid.kind} {forbid.joint} {forbid.movement}",
                        phase.name,
                        way(reached),
                        move.span,
                        forbid.span,
                    )


def _hit(move: Movement, forbid: Forbid) -> bool:
    if (move.joint, move.movement) != (forbid.joint, forbid.movement):
        return False
    return KINDS.index(move.kind) >= KINDS.index(forbid.kind)
