"""The last level has nothing above it."""

from __future__ import annotations

from collections.abc import Iterator

from protodsl.check.context import Context
from protodsl.check.damage import lost
from protodsl.diagnostics import chains as say
from protodsl.diagnostics.diagnostic import Diagnostic
from protodsl.model.protocol import Entry


def up_from_the_top(entry: Entry, context: Context) -> Iterator[Diagnostic]:
    """An `up when` written under the last level."""
    for progression, _ in context.progressions:
        if lost(progression.damaged, "level") or not progression.levels:
            continue
        last = progression.levels[-1]
        for trigger in last.up:
            yield say.up_from_the_top(last.name, trigger.span, last.span)
