"""Doses and their minutes, each worked out once, though many protocols give the same."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, field
from decimal import Decimal

from protodsl.check.weeks import turning_weeks
from protodsl.dose.plan import minutes_of_day
from protodsl.model.dose import NO_DOSAGE, Dosage, Dose
from protodsl.model.dosing import dose_of

Key = tuple[int, ...]


@dataclass(slots=True)
class Doses:
    """Keeps what it was asked for, as long as the entry it was made for is checked."""

    _doses: dict[tuple[Key, int], Dose] = field(default_factory=dict)
    _minutes: dict[tuple[Key, int], Decimal | None] = field(default_factory=dict)
    _weeks: dict[Key, tuple[int, ...]] = field(default_factory=dict)

    def key(self, layers: Sequence[Dosage]) -> Key:
        """What tells layers from others while the entry is there: those that say anything, by identity."""
        return tuple([id(layer) for layer in layers if layer is not NO_DOSAGE])

    def dose(self, layers: Sequence[Dosage], week: int) -> Dose:
        """The dose in a week counted from 1."""
        key = self.key(layers), week
        found = self._doses.get(key)
        if found is None:
            found = self._doses[key] = dose_of(week, layers)
        return found

    def minutes(self, layers: Sequence[Dosage], week: int) -> Decimal | None:
        """Whole minutes of a training day in a week; None where it cannot be timed."""
        key = self.key(layers), week
        if key not in self._minutes:
            self._minutes[key] = minutes_of_day(self.dose(layers, week))
        return self._minutes[key]

    def weeks(self, layers: Sequence[Dosage]) -> tuple[int, ...]:
        """The weeks at which the dose turns."""
        key = self.key(layers)
        if key not in self._weeks:
            self._weeks[key] = turning_weeks(layers)
        return self._weeks[key]

    def weeks_of_all(self, many: Sequence[Sequence[Dosage]]) -> tuple[int, ...]:
        """The same for several items that run side by side."""
        return tuple(sorted({week for layers in many for week in self.weeks(layers)}))
