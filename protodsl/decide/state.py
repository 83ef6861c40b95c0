"""Where a person stands while a case is replayed; each date of the replay goes on from the one before."""

from __future__ import annotations

import datetime
from dataclasses import dataclass, field
from decimal import Decimal
from typing import NamedTuple

from protodsl.decide.plan import Evidence, Move, Reason
from protodsl.decide.streaks import Streaks
from protodsl.decide.weeks import Weeks
from protodsl.model.dose import Dosage
from protodsl.model.exercise import Exercise, Give


class Lift(NamedTuple):
    """A load lifted until tired: kilograms, repetitions reached, and the session it comes from."""

    kilograms: Decimal
    repetitions: int
    evidence: Evidence


class Part(NamedTuple):
    """One exercise of an item or level as it passed the gate; `asked` is what stood there before.

    `exercise` None: nothing may be printed. `layers` are the doses from strongest to weakest.
    """

    asked: str
    give: Give
    exercise: Exercise | None
    layers: tuple[Dosage, ...]
    reasons: tuple[Reason, ...] = ()

    @property
    def swapped(self) -> bool:
        """Whether another exercise stands in."""
        return self.exercise is not None and self.exercise.name != self.asked


@dataclass(slots=True)
class Steps:
    """Steps of load and volume made so far in one part: a sum for each dimension in its base unit."""

    sums: dict[str, Decimal] = field(default_factory=dict)
    last: datetime.date | None = None


@dataclass(slots=True)
class ItemState:
    """One exercise or progression that was given, or placed and not given yet (`ever` False).

    `since` is the start of this stretch of being given, `entered` that of the level (the same for an exercise), `moved`
    the date of its last move or placing. `clear` is whether nothing speaks for going back, as of the evening before.
    """

    item: str
    give: Give
    first_given: datetime.date
    since: datetime.date
    entered: datetime.date
    weeks: Weeks
    given: bool = True
    ever: bool = True
    level: int = 0
    moved: datetime.date | None = None
    recorded: bool = False
    clear: bool = True
    streaks: Streaks = field(default_factory=Streaks)
    steps: dict[str, Steps] = field(default_factory=dict)

    def enter(self, today: datetime.date) -> None:
        """A level begins, or the item comes back: streaks, weeks and steps begin anew."""
        self.entered = today
        self.weeks.begin(today)
        self.streaks.forget()
        self.steps.clear()

    def steps_of(self, asked: str) -> Steps:
        """The steps of one part."""
        return self.steps.setdefault(asked, Steps())


@dataclass(slots=True)
class PhaseState:
    """The phase a person is in (its number from 0), since when, and the date of the last move between phases."""

    index: int
    since: datetime.date
    moved: datetime.date | None = None
    streaks: Streaks = field(default_factory=Streaks)


@dataclass(slots=True)
class State:
    """Everything that is carried from date to date."""

    phase: PhaseState
    items: dict[str, ItemState] = field(default_factory=dict)
    moves: list[Move] = field(default_factory=list)
    lifts: dict[str, Lift] = field(default_factory=dict)
