"""Which week of its table an item is in: week 1 is days 1 to 7 from entry, and a week can be held."""

from __future__ import annotations

import datetime
from dataclasses import dataclass

WEEK = 7


@dataclass(slots=True)
class Weeks:
    """The week of one item since it was entered, counted from 1.

    `trained` says whether the current seven days had a session; `due` that a week is over and the next not begun;
    `turned` that it began this morning, which an answer of the same date may still take back.
    """

    start: datetime.date
    number: int = 1
    trained: bool = False
    due: bool = False
    turned: bool = False

    def begin(self, start: datetime.date) -> None:
        """Week 1 from this date on."""
        self.start, self.number = start, 1
        self.trained = self.due = self.turned = False

    def morning(self, today: datetime.date, recorded: bool, clear: bool) -> None:
        """Turn to the next week where one is over and nothing holds it.

        Once sessions are recorded at all (`recorded`) a week without one does not count. While `down when` is yes or
        unknown (not `clear`) the week holds.
        """
        self.turned = False
        if today > self.start and (today - self.start).days % WEEK == 0:
            self.due = self.due or self.trained or not recorded
            self.trained = False
        if self.due and clear:
            self.number += 1
            self.due, self.turned = False, True

    def evening(self, clear: bool) -> None:
        """Hold the week that began this morning where `down when` has turned out yes or unknown."""
        if self.turned and not clear:
            self.number -= 1
            self.due = True
        self.turned = False
