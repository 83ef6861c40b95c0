"""What stands in for an exercise is not ruled out by the very answer that it stands in for."""

from __future__ import annotations

from collections.abc import Iterator

from protodsl.check.context import Context
from protodsl.check.damage import lost
from protodsl.check.safety.replaced import Replaced, reasons
from protodsl.diagnostics import safety as say
from protodsl.diagnostics.diagnostic import Diagnostic
from protodsl.model.exercise import Avoid, Exercise
from protodsl.model.protocol import Entry, Scope


def instead_avoided(entry: Entry, context: Context) -> Iterator[Diagnostic]:
    """An `instead` with an `avoid if` that holds whenever one of the reasons for it holds.

    An error where nothing is left for whoever has that reason; else it is said what is done in the end.
    """
    for exercise, scope in context.exercises:
        for avoid in exercise.avoid:
            other = scope.exercises.get(avoid.instead or "")
            if other is not None and other.name != exercise.name and not lost(other.damaged, "avoid if"):
                yield from _said(exercise, avoid, other, scope)


def _said(exercise: Exercise, avoid: Avoid, other: Exercise, scope: Scope) -> Iterator[Diagnostic]:
    """What there is to say of one line: of its reasons the first with nothing left, else the first that goes on."""
    further: Diagnostic | None = None
    for reason in reasons(avoid.condition):
        way = Replaced(scope, reason)
        ruling = next(way.ruling(other), None)
        if ruling is None:
            continue
        end = way.end(other.name, (exercise.name,))
        if way.circle and end is None:
            continue
        if end is None:
            yield say.instead_leads_nowhere(exercise.name, other.name, avoid.span, ruling.span)
            return
        always = reason is avoid.condition
        if further is None:
            further = say.instead_avoided(exercise.name, other.name, end, always, avoid.span, ruling.span)
    if further is not None:
        yield further
