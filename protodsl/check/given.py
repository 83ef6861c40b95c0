"""Every exercise with a dose of its own in some phase: what is given, and what stands in for it."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping
from typing import NamedTuple

from protodsl.check.damage import DOSE_KEYWORDS, lost
from protodsl.check.doses import Doses
from protodsl.check.reach import Reach
from protodsl.model.dose import NO_DOSE, Dosage, Dose
from protodsl.model.dosing import row_of
from protodsl.model.exercise import Exercise
from protodsl.model.protocol import Protocol
from protodsl.source import Span


class Given(NamedTuple):
    """An exercise with the layers of its dose, strongest first; `at` is the line that gives it.

    `weeks` are those at which the dose turns, counted from 1, and `doses` what it is from then on.
    """

    exercise: Exercise
    layers: tuple[Dosage, ...]
    at: Span
    supervised: bool
    weeks: tuple[int, ...]
    doses: tuple[Dose, ...]

    def dose(self, week: int) -> Dose:
        """The dose in one of `weeks`."""
        return self.doses[self.weeks.index(week)]

    def place(self, week: int) -> Span:
        """The strongest line that says anything of the dose in a week; the exercise where there is none."""
        for layer in self.layers:
            row = row_of(week, layer)
            if row is not None:
                return row.span
            if layer.common != NO_DOSE:
                return layer.span
        return self.exercise.span


def given(protocols: Iterable[Protocol], reaches: Mapping[int, tuple[Reach, ...]], doses: Doses) -> Iterator[Given]:
    """Each exercise with each dose once, whatever phases and protocols share it; broken dose lines are left out."""
    seen: set[tuple[int, ...]] = set()
    for protocol in protocols:
        if lost(protocol.damaged, "phase", "give", "part", "choose"):
            continue
        for reach in reaches[id(protocol)]:
            for exercise, layers, at, supervised in _of(protocol, reach):
                key = (id(exercise), *doses.key(layers))
                if key not in seen:
                    seen.add(key)
                    weeks = doses.weeks(layers)
                    turns = tuple(doses.dose(layers, week) for week in weeks)
                    yield Given(exercise, layers, at, supervised, weeks, turns)


def _of(protocol: Protocol, reach: Reach) -> Iterator[tuple[Exercise, tuple[Dosage, ...], Span, bool]]:
    exercises, progressions = protocol.scope.exercises, protocol.scope.progressions
    for item in reach.items:
        exercise = exercises[item.exercise]
        progression = progressions.get(item.progression or "")
        if lost(exercise.damaged, *DOSE_KEYWORDS) or (progression and lost(progression.damaged, "level")):
            continue
        supervised = item.give.supervised or exercise.supervised
        yield exercise, item.layers, item.give.span, supervised
    own = {item.exercise for item in reach.items}
    outer = (reach.phase.dosage, protocol.dosage) if reach.phase else (protocol.dosage,)
    for reached in reach.reached:
        exercise = exercises[reached.exercise]
        if reached.exercise not in own and not lost(exercise.damaged, *DOSE_KEYWORDS):
            yield exercise, (exercise.dosage, *outer), exercise.span, exercise.supervised
