"""What stands in for an exercise is not ruled out by the very answer that it stands in for."""

from __future__ import annotations

from collections.abc import Iterable, Iterator

from protodsl.check.context import Context
from protodsl.check.logic.possible import possible
from protodsl.diagnostics import safety as say
from protodsl.diagnostics.diagnostic import Diagnostic
from protodsl.model.condition import AnyOf, Condition, findings_in
from protodsl.model.exercise import Avoid, Exercise
from protodsl.model.protocol import Entry, Scope


def instead_avoided(entry: Entry, context: Context) -> Iterator[Diagnostic]:
    """An `instead` with an `avoid if` that holds whenever one of the reasons for it holds."""
    for exercise, scope in context.exercises:
        for avoid in exercise.avoid:
            other = scope.exercises.get(avoid.instead or "")
            reason, ruling = _ruled_out(avoid, other, scope) if other and other.name != exercise.name else (None, None)
            # One that stands in for itself is a circle, and named as such.
            if other and ruling and ruling.instead != other.name:
                further = ruling.instead if ruling.instead != exercise.name else None
                always = reason is avoid.condition
                yield say.instead_avoided(exercise.name, other.name, further, always, avoid.span, ruling.span)


def _ruled_out(avoid: Avoid, instead: Exercise, scope: Scope) -> tuple[Condition | None, Avoid | None]:
    """The first line of the replacement that one of the reasons is sure to meet, and that reason."""
    for ruling in instead.avoid:
        for reason in _reasons(avoid.condition):
            if _shared(reason, ruling.condition) and not possible(scope, (reason, True), (ruling.condition, False)):
                return reason, ruling
    return None, None


def _reasons(condition: Condition) -> Iterable[Condition]:
    return (condition, *condition.of) if isinstance(condition, AnyOf) else (condition,)


def _shared(one: Condition, other: Condition) -> bool:
    return not set(findings_in(one)).isdisjoint(findings_in(other))

