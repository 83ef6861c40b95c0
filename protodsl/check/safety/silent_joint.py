"""Every exercise that a phase reaches says what it does to each joint that the phase limits: unknown is not no."""

from __future__ import annotations

from collections.abc import Iterator

from protodsl.check.context import Context
from protodsl.check.damage import lost
from protodsl.check.safety.way import way
from protodsl.diagnostics import safety as say
from protodsl.diagnostics.diagnostic import Diagnostic
from protodsl.model.exercise import Exercise
from protodsl.model.lists import JOINTS
from protodsl.model.protocol import Entry, Forbid, Limit, Phase
from protodsl.source import Span


def silent_joint(entry: Entry, context: Context) -> Iterator[Diagnostic]:
    """A limited joint that neither `moves` nor `still` names."""
    for _, phase, reached, exercise, _ in context.in_phases(entry):
        limited = _limited(phase)
        for joint in limited.keys() - _spoken_of(exercise) if limited else ():
            yield say.silent_joint(exercise.name, joint, phase.name, way(reached), exercise.span, limited[joint])


def _limited(phase: Phase) -> dict[str, Span]:
    """The joints that a phase limits, each with the first line that does."""
    found: dict[str, Span] = {}
    lines: tuple[Limit | Forbid, ...] = (*phase.limits, *phase.forbids)
    for line in lines:
        if line.joint:
            found.setdefault(line.joint, line.span)
    return found


def _spoken_of(exercise: Exercise) -> frozenset[str]:
    """The joints that the exercise speaks of; all of them where one of its lines could not be understood."""
    if lost(exercise.damaged, "moves", "still"):
        return frozenset(JOINTS)
    return frozenset((*(move.joint for move in exercise.moves), *exercise.still))
