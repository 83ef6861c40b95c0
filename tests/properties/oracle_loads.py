"""Loads read once more and plainly: shares of what was measured or lifted, what can be lifted n times, set by set.

Epley 1985: the heaviest load for one repetition is the load times 1 + r / 30 (rows rm_epley_formula and rm_epley_100x2
to 100x12 of tests/evidence/data/01_dose.csv); past 12 repetitions it says nothing (Reynolds JM, Gordon TJ, Robergs RA.
J Strength Cond Res 2006;20:584-592). Fractions, so that nothing is rounded on the way.
"""

from __future__ import annotations

import datetime
from dataclasses import dataclass, field
from fractions import Fraction
from typing import Any

from protodsl.model.case import Session
from protodsl.model.dose import SetsOf
from tests.properties.oracle_conditions import Mind, number

MOST = 12


def times(repetitions: int) -> Fraction:
    """1RM divided by the load that can be lifted so many times; once is the 1RM itself."""
    return Fraction(1) if repetitions == 1 else 1 + Fraction(repetitions, 30)


@dataclass
class Lifted:
    """What was lifted until tired on one date."""

    day: datetime.date
    kilograms: Fraction
    repetitions: int


@dataclass
class Loads:
    """The last lift of every exercise, and what follows from it."""

    mind: Mind
    last: dict[str, Lifted] = field(default_factory=dict)

    def lifted(self, exercise: str, session: Session) -> None:
        """The first set until tired of a session with a load; of one date the lightest, then the fewest, stands."""
        counts = [one.volume.counts[0] for one in session.done if isinstance(one.volume, SetsOf)]
        if not counts or session.load is None:
            return
        new = Lifted(self.mind.day, number(session.load), counts[0])
        old = self.last.get(exercise)
        if old is None or old.day < new.day or (new.kilograms, new.repetitions) < (old.kilograms, old.repetitions):
            self.last[exercise] = new

    def exact(self, load: Any, exercise: str) -> Fraction | None:
        """Kilograms as written; None where nobody knows."""
        if load is None:
            return Fraction(0)
        if load.percent is not None:
            share = Fraction(load.percent) / 100
            if load.of is not None and not load.of.endswith("RM"):
                found = [value for value, _, _ in self.mind.values(load.of, None, None)]
                return None if None in found else min(number(value) for value in found) * share
            whole = self.maximum(int((load.of or "1RM").removesuffix("RM")), exercise)
            return None if whole is None else whole * share
        if load.maximum is not None:
            return self.maximum(load.maximum, exercise)
        if load.name is not None and load.name != "body weight":
            return None
        return number(load.weight) if load.weight else Fraction(0)

    def maximum(self, repetitions: int, exercise: str) -> Fraction | None:
        """What can be lifted so many times."""
        lift = self.last.get(exercise)
        if lift is None or not 1 <= lift.repetitions <= MOST or repetitions > MOST:
            return None
        return lift.kilograms * times(lift.repetitions) / times(repetitions)


def next_load(adjusts: Any, session: Session, due: Fraction) -> Fraction | None:
    """What the rows make of one session: None where they say nothing about it."""
    rule = next(one for one in adjusts if one.for_set is None)
    counts = next((one.volume.counts for one in session.done if isinstance(one.volume, SetsOf)), ())
    if len(counts) < rule.by_set or row(rule, counts) is None:
        return None
    load = number(session.load) if session.load is not None else due
    for one in adjusts:
        if one.for_set == rule.by_set and one.by_set <= len(counts):
            load += change(one, counts)
    return max(Fraction(0), load + change(rule, counts))


def row(rule: Any, counts: tuple[int, ...]) -> Any:
    """The row for the repetitions reached in the set that the rule reads."""
    had = counts[rule.by_set - 1]
    return next((one for one in rule.rows if one.low <= had and (one.high is None or had <= one.high)), None)


def change(rule: Any, counts: tuple[int, ...]) -> Fraction:
    """Kilograms more or less."""
    found = row(rule, counts)
    return number(found.change) if found is not None and found.change is not None else Fraction(0)
