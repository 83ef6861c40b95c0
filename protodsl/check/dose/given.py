"""Every exercise with a dose of its own in some phase: what is given, and what stands in for it."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from protodsl.check.context import Context, Reach
from protodsl.check.damage import DOSE_KEYWORDS, lost
from protodsl.check.weeks import turning_weeks
from protodsl.model.dose import NO_DOSE, Dosage, Dose
from protodsl.model.dosing import dose_of, row_of
from protodsl.model.exercise import Exercise
from protodsl.model.protocol import Entry, Protocol
from protodsl.source import Span


@dataclass(frozen=True, slots=True)
class Given:
    """An exercise with the layers of its dose, strongest first; `at` is the line that gives it."""

    exercise: Exercise
    layers: tuple[Dosage, ...]
    at: Span
    supervised: bool
    weeks: tuple[int, ...]

    def dose(self, week: int) -> Dose:
        """The dose in a week counted from 1."""
        return dose_of(week, self.layers)

    def place(self, week: int) -> Span:
        """The strongest line that says anything of the dose in a week; the exercise where there is none."""
        for layer in self.layers:
            row = row_of(week, layer)
            if row is not None:
                return row.span
            if layer.common != NO_DOSE:
                return layer.span
        return self.exercise.span


def given(entry: Entry, context: Context) -> Iterator[Given]:
    """Each exercise with each dose once, whatever phases and protocols share it; broken dose lines are left out."""
    seen: set[tuple[int, ...]] = set()
    for protocol in entry.protocols:
        if lost(protocol.damaged, "phase", "give", "part", "choose"):
            continue
        for reach in context.reach(protocol):
            for one in _of(protocol, reach):
                key = (id(one.exercise), *map(id, one.layers))
                if key not in seen:
                    seen.add(key)
                    yield one


def _of(protocol: Protocol, reach: Reach) -> Iterator[Given]:
    exercises, progressions = protocol.scope.exercises, protocol.scope.progressions
    for item in reach.items:
        exercise = exercises[item.exercise]
        progression = progressions.get(item.progression or "")
        if lost(exercise.damaged, *DOSE_KEYWORDS) or (progression and lost(progression.damaged, "level")):
            continue
        supervised = item.give.supervised or exercise.supervised
        yield Given(exercise, item.layers, item.give.span, supervised, turning_weeks(item.layers))
    own = {item.exercise for item in reach.items}
    outer = (reach.phase.dosage, protocol.dosage) if reach.phase else (protocol.dosage,)
    for reached in reach.reached:
        exercise = exercises[reached.exercise]
        if reached.exercise not in own and not lost(exercise.damaged, *DOSE_KEYWORDS):
            layers = (exercise.dosage, *outer)
            yield Given(exercise, layers, exercise.span, exercise.supervised, turning_weeks(layers))
