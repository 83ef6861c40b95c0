"""What a protocol leaves out is missed where it stands in for something that is given."""

from __future__ import annotations

from collections.abc import Iterator

from protodsl.check.context import Context
from protodsl.check.safety.replaced import Replaced, reasons
from protodsl.check.safety.way import way
from protodsl.diagnostics import safety as say
from protodsl.diagnostics.diagnostic import Diagnostic
from protodsl.model.exercise import Avoid, Exercise
from protodsl.model.protocol import Entry, Scope
from protodsl.source import Span


def instead_left_out(entry: Entry, context: Context) -> Iterator[Diagnostic]:
    """An `instead` that would have led somewhere, had `leave out` not barred what it leads to."""
    for protocol in entry.protocols:
        for reach in context.reach(protocol):
            out = frozenset((*protocol.leave_out, *(reach.phase.leave_out if reach.phase else ())))
            for reached in reach.reached if out else ():
                exercise = protocol.scope.exercises[reached.exercise]
                name, steps = exercise.name, way(reached)
                for missed, line in _missing(exercise, out):
                    yield say.instead_left_out(name, missed, True, protocol.name, steps, line, protocol.span)
                for missed, line in _avoided(exercise, protocol.scope, out):
                    yield say.instead_left_out(name, missed, False, protocol.name, steps, line, protocol.span)


def _missing(exercise: Exercise, out: frozenset[str]) -> Iterator[tuple[str, Span]]:
    """What is left out and was to stand in where equipment is missing, with its line."""
    for need in exercise.needs:
        if need.instead is not None and need.instead in out:
            yield need.instead, need.span


def _avoided(exercise: Exercise, scope: Scope, out: frozenset[str]) -> Iterator[tuple[str, Span]]:
    """What is left out and was to stand in for a reason, with the line that names it or leads to it."""
    for avoid in exercise.avoid:
        if avoid.instead and (missed := _barred(exercise, avoid, avoid.instead, scope, out)):
            yield missed, avoid.span


def _barred(exercise: Exercise, avoid: Avoid, instead: str, scope: Scope, out: frozenset[str]) -> str | None:
    for reason in reasons(avoid.condition):
        found = Replaced(scope, reason, out)
        if found.end(instead, (exercise.name,)) is None and found.barred:
            return found.barred[0]
    return None
