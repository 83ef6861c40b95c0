"""Where a progression starts on the date it is first given."""

from __future__ import annotations

from protodsl.decide.context import Context
from protodsl.decide.evaluate import Verdict
from protodsl.decide.truth import NO, YES
from protodsl.model.exercise import Progression, StartAt


def start_level(progression: Progression, context: Context) -> tuple[int, StartAt | None, Verdict | None]:
    """The highest level whose `start at` is yes, the lowest level where none is; unknown is not used."""
    order = {level.name: at for at, level in enumerate(progression.levels)}
    best: tuple[int, StartAt | None, Verdict | None] = (0, None, None)
    for line in progression.start_at:
        verdict = context.outside(line.condition, NO)
        at = order.get(line.level, 0)
        if verdict.truth is YES and (at > best[0] or best[1] is None):
            best = (at, line, verdict)
    return best
