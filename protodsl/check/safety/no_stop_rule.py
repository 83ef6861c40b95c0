"""Everything that is printed says when to stop."""

from __future__ import annotations

from collections.abc import Iterator

from protodsl.check.context import Context
from protodsl.check.damage import lost
from protodsl.check.safety.way import way
from protodsl.diagnostics import safety as say
from protodsl.diagnostics.diagnostic import Diagnostic
from protodsl.model.protocol import Entry


def no_stop_rule(entry: Entry, context: Context) -> Iterator[Diagnostic]:
    """An exercise without `stop` in a phase and a protocol without one; said once for each exercise."""
    for protocol in entry.protocols:
        if protocol.stop or lost(protocol.damaged, "stop"):
            continue
        said: set[str] = set()
        for phase, reached, *_ in context.reach(protocol):
            if phase and (phase.stop or lost(phase.damaged, "stop")):
                continue
            for one in reached:
                exercise = protocol.scope.exercises[one.exercise]
                if not exercise.stop and not lost(exercise.damaged, "stop") and exercise.name not in said:
                    said.add(exercise.name)
                    yield say.no_stop_rule(exercise.name, exercise.span, way(one))
