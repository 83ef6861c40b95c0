"""The exercises that an item comes to today: through the gate, and from a lower level where nothing is left."""

from __future__ import annotations

from dataclasses import dataclass

from protodsl.decide.context import Context
from protodsl.decide.gate import Gate
from protodsl.decide.offers import holds
from protodsl.decide.plan import Reason
from protodsl.decide.state import ItemState, Part
from protodsl.decide.truth import YES
from protodsl.model.dose import Dosage
from protodsl.model.exercise import Give, Level, Progression
from protodsl.model.protocol import Phase


@dataclass(frozen=True, slots=True)
class Printed:
    """What stands on the sheet for one item.

    `parts` may be empty; `lost` are parts of which nothing may be printed. `level` is the number of the level that is
    printed (None for an exercise, or where no level is left), `held` whether it is a lower one than the computed.
    """

    parts: tuple[Part, ...]
    lost: tuple[Part, ...]
    level: int | None = None
    held: bool = False
    waiting: tuple[Reason, ...] = ()


def printed(state: ItemState, gate: Gate, context: Context) -> Printed:
    """What the item comes to on this date."""
    progression = context.protocol.scope.progressions.get(state.item)
    outer = _outer(gate.phase, context)
    if progression is None:
        exercise = context.protocol.scope.exercises.get(state.item)
        layers = (state.give.dosage, *((exercise.dosage,) if exercise else ()), *outer)
        part = _part(state.give, layers, gate, outer)
        return Printed((part,), ()) if part.exercise else Printed((), (part,))
    return _level(state, progression, gate, context, outer)


def level_of(state: ItemState, progression: Progression) -> int:
    """The number of the level held, within those there are."""
    return min(state.level, len(progression.levels) - 1)


def _level(
    state: ItemState, progression: Progression, gate: Gate, context: Context, outer: tuple[Dosage, ...]
) -> Printed:
    top = level_of(state, progression)
    lost: tuple[Part, ...] = ()
    waiting: tuple[Reason, ...] = ()
    for number in range(top, -1, -1):
        found, unknown = _parts(state.give, progression, progression.levels[number], gate, context, outer)
        kept = tuple(part for part in found if part.exercise is not None)
        if number == top:
            lost = tuple(part for part in found if part.exercise is None)
            waiting = unknown
        if kept:
            return Printed(kept, lost, number, number < top, waiting)
    return Printed((), lost, None, True, waiting)


def _parts(
    give: Give, progression: Progression, level: Level, gate: Gate, context: Context, outer: tuple[Dosage, ...]
) -> tuple[list[Part], tuple[Reason, ...]]:
    found: list[Part] = []
    waiting: list[Reason] = []
    for inner in level.gives:
        if inner.condition is not None:
            verdict = holds(inner, context)
            if verdict.truth is not YES:
                waiting.append(
                    Reason("condition", inner.item, inner.span, verdict.truth, verdict.deciding, verdict.unknown)
                )
                continue
        exercise = context.protocol.scope.exercises.get(inner.item)
        own = (exercise.dosage,) if exercise else ()
        layers = (inner.dosage, level.dosage, give.dosage, progression.dosage, *own, *outer)
        found.append(_part(inner, layers, gate, outer))
    return found, tuple(waiting)


def _part(give: Give, layers: tuple[Dosage, ...], gate: Gate, outer: tuple[Dosage, ...]) -> Part:
    passed = gate.let(give.item)
    if passed.exercise is not None and passed.exercise.name != give.item:
        layers = (passed.exercise.dosage, *outer)
    return Part(give.item, give, passed.exercise, layers, passed.reasons)


def _outer(phase: Phase | None, context: Context) -> tuple[Dosage, ...]:
    whole = context.protocol.dosage
    return (phase.dosage, whole) if phase is not None else (whole,)
