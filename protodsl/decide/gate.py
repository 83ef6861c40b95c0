"""The last gate: everything that is about to be printed passes here, whatever way it came.

Looked at in this order: left out, forbidden movements and limits, bearing, equipment, then each `avoid if`. A missing
thing and an `avoid if` that is yes or unknown lead on to their `instead`, which passes the same gate.
"""

from __future__ import annotations

import datetime
from collections.abc import Iterator
from dataclasses import dataclass

from protodsl.decide.context import Context
from protodsl.decide.offers import in_force
from protodsl.decide.plan import Reason
from protodsl.decide.truth import NO, YES
from protodsl.model.case import LeftOut
from protodsl.model.exercise import Avoid, Exercise, Movement
from protodsl.model.lists import BEARING, KINDS
from protodsl.model.protocol import Forbid, Limit, Phase
from protodsl.source import NOWHERE


@dataclass(frozen=True, slots=True)
class Passed:
    """What comes out of the gate: the exercise that may be printed (None: none may), and why."""

    exercise: Exercise | None
    reasons: tuple[Reason, ...] = ()


@dataclass(frozen=True, slots=True)
class Gate:
    """The gate of one phase on one date; `out` is what is left out there."""

    context: Context
    phase: Phase | None
    out: frozenset[str]

    def let(self, name: str, way: tuple[str, ...] = ()) -> Passed:
        """The exercise itself, or the first that may stand in for it; `way` are those that were tried before it."""
        exercise = self.context.protocol.scope.exercises.get(name)
        if exercise is None or name in way:
            return Passed(None)
        if exercise.name in self.out:
            personal = self.left_out(name)
            return Passed(None, (Reason("leave out", name, personal.span if personal is not None else NOWHERE),))
        stopped = self._stopped(exercise)
        if stopped is not None:
            return Passed(None, (stopped,))
        way = (*way, name)
        reasons: tuple[Reason, ...] = ()
        missing = [need for need in exercise.needs if not self._has(need.options)]
        if missing:
            for need in missing:
                reasons += (Reason("needs", name, need.span, YES),)
            return self._first([need.instead for need in missing], reasons, way)
        barring = [(line, reason) for line in exercise.avoid if (reason := self._avoid(name, line)) is not None]
        if not barring:
            return Passed(exercise)
        reasons = tuple(reason for _, reason in barring)
        return self._first([line.instead for line, _ in barring], reasons, way)

    def _first(self, chains: list[str | None], reasons: tuple[Reason, ...], way: tuple[str, ...]) -> Passed:
        """The first chain that ends in something that may be done."""
        for instead in chains:
            if instead is None:
                continue
            found = self.let(instead, way)
            reasons += found.reasons
            if found.exercise is not None:
                return Passed(found.exercise, reasons)
        return Passed(None, reasons)

    def _stopped(self, exercise: Exercise) -> Reason | None:
        """What of the phase bars an exercise with nothing in its place: the same on each of its dates."""
        if self.phase is None:
            return None
        stopped = self.context.stopped
        key = id(exercise), id(self.phase)
        if key not in stopped:
            stopped[key] = next(self._stops(exercise), None)
        return stopped[key]

    def _stops(self, exercise: Exercise) -> Iterator[Reason]:
        if self.phase is None:
            return
        for limit in self.phase.limits:
            if limit.joint and (_silent(exercise, limit.joint) or any(_past(move, limit) for move in exercise.moves)):
                yield Reason("limit", exercise.name, limit.span)
        for forbid in self.phase.forbids:
            if _silent(exercise, forbid.joint) or any(_forbidden(move, forbid) for move in exercise.moves):
                yield Reason("forbid", exercise.name, forbid.span)
        most = self.phase.bearing
        if most is not None and BEARING.index(exercise.bearing) > BEARING.index(most):
            yield Reason("bearing", exercise.name, self.phase.span)

    def left_out(self, name: str) -> LeftOut | None:
        """The line by which it is left out for this person now; of several the latest that holds longest."""
        today = self.context.date
        found = [one for one in self.context.case.left_out if one.item == name and in_force(one.date, one.until, today)]
        return max(found, key=lambda one: (one.date, one.until or datetime.date.max, one.because.text), default=None)

    def _has(self, options: tuple[str, ...]) -> bool:
        has = self.context.case.has
        return has is None or any(option in has for option in options)

    def _avoid(self, name: str, line: Avoid) -> Reason | None:
        """Why the line bars the exercise: it is yes, or nobody knows."""
        verdict = self.context.outside(line.condition, YES)
        if verdict.truth is NO:
            return None
        return Reason("avoid", name, line.span, verdict.truth, verdict.deciding, verdict.unknown, line.because)


def _silent(exercise: Exercise, joint: str) -> bool:
    """An exercise that does not say what it does to a joint may do anything."""
    return joint not in exercise.still and all(move.joint != joint for move in exercise.moves)


def _past(move: Movement, limit: Limit) -> bool:
    if (move.joint, move.movement) != (limit.joint, limit.movement) or not _as_strong(move.kind, limit.kind):
        return False
    return move.to > limit.most.value or (limit.op == "<" and move.to == limit.most.value)


def _forbidden(move: Movement, forbid: Forbid) -> bool:
    return (move.joint, move.movement) == (forbid.joint, forbid.movement) and _as_strong(move.kind, forbid.kind)


def _as_strong(kind: str, than: str) -> bool:
    return KINDS.index(kind) >= KINDS.index(than)
