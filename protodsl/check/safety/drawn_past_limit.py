"""No figure of an exercise that a phase reaches shows a joint further than the phase allows."""

from __future__ import annotations

from collections.abc import Iterator

from protodsl.check.context import Context, InPhase
from protodsl.check.safety.drawn import SLACK, largest, sides_shown
from protodsl.check.safety.way import way
from protodsl.check.weeks import turning_weeks
from protodsl.diagnostics import safety as say
from protodsl.diagnostics.diagnostic import Diagnostic
from protodsl.model.dosing import dose_of
from protodsl.model.exercise import Exercise
from protodsl.model.lists import KINDS
from protodsl.model.protocol import Entry, Limit


def drawn_past_limit(entry: Entry, context: Context) -> Iterator[Diagnostic]:
    """A pose past a `limit` of the same movement: a patient does what is drawn, whatever `moves` says."""
    if context.shown is None:
        return
    for found in context.in_phases(entry):
        figure = found.exercise.figure
        limits = [limit for limit in found.phase.limits if limit.joint and _is_meant(limit, found.exercise)]
        if figure is None or not limits:
            continue
        shown = context.shown(figure)
        sides = sides_shown(found.exercise, _sides_of(found))
        for limit in limits:
            one = largest(shown, limit.joint, limit.movement, sides)
            if one is not None and _past(one.degrees, one.written, limit):
                yield say.drawn_past_limit(
                    found.exercise.name,
                    f"{limit.joint} {limit.movement}",
                    round(one.degrees),
                    one.pose,
                    say.at_most(limit.op, str(limit.most)),
                    found.phase.name,
                    way(found.reached),
                    one.span,
                    limit.span,
                )


def _is_meant(limit: Limit, exercise: Exercise) -> bool:
    """A drawing has no kind of movement: it has the one that `moves` says of it, else any."""
    kinds = [move.kind for move in exercise.moves if (move.joint, move.movement) == (limit.joint, limit.movement)]
    return not kinds or any(KINDS.index(kind) >= KINDS.index(limit.kind) for kind in kinds)


def _past(degrees: float, written: bool, limit: Limit) -> bool:
    """In whole degrees; what nobody wrote has some slack, or standing upright would be past a limit of none."""
    drawn, most = round(degrees), float(limit.most.value)
    if not written:
        return drawn > most + SLACK
    return drawn > most or (limit.op == "<" and drawn == most)


def _sides_of(found: InPhase) -> Iterator[str | None]:
    """The sides of every dose that the phase gives it with; its own where it only stands in for another."""
    given = [item.layers for item in found.items if item.exercise == found.exercise.name]
    for layers in given or [(found.exercise.dosage, found.phase.dosage, found.protocol.dosage)]:
        yield from (dose_of(week, layers).sides for week in turning_weeks(layers))
