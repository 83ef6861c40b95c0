"""What stands in for an exercise never leads back to it."""

from __future__ import annotations

from collections.abc import Iterator, Mapping

from protodsl.check.context import Context
from protodsl.diagnostics import chains as say
from protodsl.diagnostics.diagnostic import Diagnostic
from protodsl.model.exercise import Exercise
from protodsl.model.protocol import Entry
from protodsl.model.reach import Step, replacements_of

_Circle = tuple[tuple[str, ...], tuple[Step, ...]]


def instead_in_a_circle(entry: Entry, context: Context) -> Iterator[Diagnostic]:
    """A way of `instead` lines that ends where it began; each circle is named once."""
    said: set[frozenset[str]] = set()
    clear: set[int] = set()
    for exercise, scope in context.exercises:
        found = _circle(exercise, scope.exercises, clear)
        if found and frozenset(found[0]) not in said:
            said.add(frozenset(found[0]))
            yield say.instead_in_a_circle(found[0], [step.span for step in found[1]])


def _circle(start: Exercise, exercises: Mapping[str, Exercise], clear: set[int]) -> _Circle | None:
    """The first circle met from an exercise, as its names and lines; `clear` are exercises with none behind them."""
    names, steps = [start.name], list[Step]()
    open_ways = [iter(replacements_of(start))]
    while open_ways:
        step = next(open_ways[-1], None)
        if step is None:
            clear.add(id(exercises.get(names.pop())))
            open_ways.pop()
            if steps:
                steps.pop()
        elif step.name in names:
            at = names.index(step.name)
            return (*names[at:], step.name), (*steps[at:], step)
        elif step.name in exercises and id(exercises[step.name]) not in clear:
            names.append(step.name)
            steps.append(step)
            open_ways.append(iter(replacements_of(exercises[step.name])))
    return None
