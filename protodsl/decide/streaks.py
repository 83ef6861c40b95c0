"""Conditions that have to hold for a number of sessions in a row, and how each date is looked at.

A date is one session: to go further every line of it has to pass, to go back any one line is enough. A date without a
session is looked at only by conditions that need none, or in the answers of that date; else the last look counts for
seven days.
"""

from __future__ import annotations

import datetime
from collections import deque
from collections.abc import Sequence
from dataclasses import dataclass, field
from typing import NamedTuple

from protodsl.decide.context import Context
from protodsl.decide.evaluate import Verdict, joined
from protodsl.decide.truth import NO, UNKNOWN, YES
from protodsl.decide.values import DAYS_AFTER_SESSION
from protodsl.model.case import Session
from protodsl.model.condition import Condition
from protodsl.model.dose import LoadStep
from protodsl.model.exercise import Trigger
from protodsl.model.protocol import BackTo, Flag, Until


class Line(NamedTuple):
    """A session line of a date, and whether it was done as asked."""

    session: Session
    as_asked: bool


class Look(NamedTuple):
    """What a condition came to on a date."""

    date: datetime.date
    verdict: Verdict


Sequential = Trigger | LoadStep | Until | BackTo | Flag

NOBODY_LOOKED = Verdict(UNKNOWN)
NOT_AS_ASKED = Verdict(NO)


@dataclass(slots=True)
class Streak:
    """The last `length` looks of one condition since entry, newest last; `rising` says which way it moves somebody."""

    condition: Condition
    length: int
    rising: bool
    looks: deque[Look] = field(default_factory=deque)

    def look(self, context: Context, lines: Sequence[Line]) -> bool:
        """Look at this date; whether there was anything to look at."""
        if self.looks and self.looks[-1].date == context.date:
            return True
        verdict = self._session(context, lines) if lines else self._no_session(context)
        if verdict is None:
            return False
        self.looks.append(Look(context.date, verdict))
        if len(self.looks) > self.length:
            self.looks.popleft()
        return True

    def verdict(self, today: datetime.date) -> Verdict:
        """Yes: every one of the last looks was. An unknown among them makes a falling streak unknown, never no."""
        if not self.looks:
            return NOBODY_LOOKED
        newest = self.looks[-1]
        if self.is_old(today):
            return Verdict(UNKNOWN, (), newest.verdict.deciding + newest.verdict.unknown)
        unknown = [one.verdict for one in self.looks if one.verdict.truth is UNKNOWN]
        if unknown and not self.rising:
            return joined(unknown, True)
        truths = {one.verdict.truth for one in self.looks}
        if truths == {YES} and len(self.looks) == self.length:
            return joined([one.verdict for one in self.looks], True)
        if newest.verdict.truth is UNKNOWN:
            return newest.verdict
        return Verdict(NO, newest.verdict.deciding)

    def is_old(self, today: datetime.date) -> bool:
        """Whether the last look counts no longer."""
        return (today - self.looks[-1].date).days > DAYS_AFTER_SESSION

    def forget(self) -> None:
        """Begin anew."""
        self.looks.clear()

    def _session(self, context: Context, lines: Sequence[Line]) -> Verdict:
        if self.rising:
            found = [
                context.in_session(self.condition, line.session, NO) if line.as_asked else NOT_AS_ASKED
                for line in lines
            ]
        else:
            found = [context.in_session(self.condition, line.session, YES) for line in lines]
        return found[0] if len(found) == 1 else joined(found, self.rising)

    def _no_session(self, context: Context) -> Verdict | None:
        if self.length > 1:
            return None
        lean = NO if self.rising else YES
        bound = context.needs(self.condition).one_session
        if not bound:
            return context.outside(self.condition, lean, self.rising)
        if context.answered_today(bound):
            return context.in_answers(self.condition, lean, self.rising)
        return None


class Kept(NamedTuple):
    """A streak with its line, and the exercise that the line moves ("": the item or phase itself)."""

    line: Sequential
    owner: str
    streak: Streak


@dataclass(slots=True)
class Streaks:
    """The streaks of one level, phase or dose; each line of the protocol keeps its own."""

    kept: list[Kept] = field(default_factory=list)

    def of(self, line: Sequential, rising: bool, owner: str = "") -> Streak:
        """The streak of a line for one owner (an exercise that it moves); in a changed text one that stands goes on."""
        known = self.known(line, rising, owner)
        if known is not None:
            return known
        for at, (kept, who, streak) in enumerate(self.kept):
            if streak.rising is rising and who == owner and kept == line:
                streak.condition = line.condition
                self.kept[at] = Kept(line, owner, streak)
                return streak
        made = Streak(line.condition, line.streak, rising)
        self.kept.append(Kept(line, owner, made))
        return made

    def known(self, line: Sequential, rising: bool, owner: str = "") -> Streak | None:
        """The streak of this very line, None where it was never looked at."""
        for kept, who, streak in self.kept:
            if kept is line and streak.rising is rising and who == owner:
                return streak
        return None

    def keep(self, lines: Sequence[Sequential]) -> None:
        """Begin anew with every line but these."""
        self.kept = [one for one in self.kept if one.line in lines]

    def forget(self) -> None:
        """Begin anew: a streak does not cross levels."""
        self.kept.clear()
