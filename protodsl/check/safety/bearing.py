"""No exercise that a phase reaches puts more weight on the limb than the phase allows."""

from __future__ import annotations

from collections.abc import Iterator

from protodsl.check.context import Context
from protodsl.check.damage import lost
from protodsl.check.safety.way import way
from protodsl.diagnostics import safety as say
from protodsl.diagnostics.diagnostic import Diagnostic
from protodsl.model.lists import BEARING
from protodsl.model.protocol import Entry


def bearing(entry: Entry, context: Context) -> Iterator[Diagnostic]:
    """Bearing past that of the phase; an exercise that says none counts as full."""
    for _, phase, reached, exercise, _ in context.in_phases(entry):
        if phase.bearing is None or lost(exercise.damaged, "bearing"):
            continue
        if BEARING.index(exercise.bearing) > BEARING.index(phase.bearing):
            yield say.too_much_bearing(
                exercise.name,
                exercise.bearing,
                exercise.bearing_said,
                phase.bearing,
                phase.name,
                way(reached),
                exercise.span,
                phase.span,
            )
