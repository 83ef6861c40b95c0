"""Whoever has to leave out an exercise gets another one, where there is one."""

from __future__ import annotations

from collections.abc import Iterator

from protodsl.check.context import Context
from protodsl.diagnostics import safety as say
from protodsl.diagnostics.diagnostic import Diagnostic
from protodsl.model.protocol import Entry


def no_instead(entry: Entry, context: Context) -> Iterator[Diagnostic]:
    """An `avoid if` without `instead`."""
    for exercise, _ in context.exercises:
        for avoid in exercise.avoid:
            if avoid.instead is None:
                yield say.no_instead(exercise.name, avoid.span)
