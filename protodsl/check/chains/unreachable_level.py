"""Every level can be reached: from below, from above, or by starting there."""

from __future__ import annotations

from collections.abc import Iterator

from protodsl.check.context import Context
from protodsl.check.damage import lost
from protodsl.diagnostics import chains as say
from protodsl.diagnostics.diagnostic import Diagnostic
from protodsl.model.exercise import Progression
from protodsl.model.protocol import Entry


def unreachable_level(entry: Entry, context: Context) -> Iterator[Diagnostic]:
    """A level with no way in; of several in a row the first is named."""
    for progression, _ in context.progressions:
        if lost(progression.damaged, "level", "start at", "up when", "down when"):
            continue
        levels, reached = progression.levels, _reached(progression)
        for at in range(1, len(levels)):
            if at not in reached and at - 1 in reached:
                level, before = levels[at], levels[at - 1]
                yield say.unreachable_level(level.name, before.name, level.span, before.span)


def _reached(progression: Progression) -> set[int]:
    """The places of the levels that somebody can come to; everybody can come to the lowest."""
    levels = progression.levels
    starts = {start.level for start in progression.start_at}
    waiting = [0, *(at for at, level in enumerate(levels) if level.name in starts)]
    reached: set[int] = set()
    while waiting:
        at = waiting.pop()
        if at in reached or not 0 <= at < len(levels):
            continue
        reached.add(at)
        if levels[at].up:
            waiting.append(at + 1)
        if levels[at].down:
            waiting.append(at - 1)
    return reached
