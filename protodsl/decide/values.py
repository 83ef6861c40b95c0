"""Dated values of findings, one history for each finding and side, grown day by day."""

from __future__ import annotations

import calendar
import datetime
from dataclasses import dataclass, field
from typing import Any, NamedTuple

from protodsl.decide.plan import Evidence
from protodsl.model.case import Observation
from protodsl.model.finding import Finding
from protodsl.units import Quantity

# Answers of a day come before its sessions.
ANSWER, SESSION = 0, 1

# How long the last value of a finding that is fresh for one session counts outside sessions.
DAYS_AFTER_SESSION = 7

Key = tuple[str, str | None]


class Known(NamedTuple):
    """One value as it was said (None: `unknown`), with where it comes from, and whether it is doubtful for rising.

    A value of a session that was not done as asked says nothing on whether somebody may go further.
    """

    value: Any
    evidence: Evidence
    doubtful: bool = False


def known(seen: Observation, doubtful: bool = False) -> Known:
    """A value as it stands in the case."""
    return Known(seen.value, Evidence(seen.finding, seen.side, seen.value, seen.date, False, seen.span), doubtful)


class Entry(NamedTuple):
    """What stands for a finding and side on one date, answers or sessions; where several stand, all of them."""

    date: datetime.date
    rank: int
    values: list[Known]


@dataclass(slots=True)
class Values:
    """Every value known so far, with how many there are of each finding, so that results can be kept."""

    _history: dict[Key, list[Entry]] = field(default_factory=dict)
    _counts: dict[str, list[int]] = field(default_factory=dict)

    def record(self, seen: Observation, rank: int, doubtful: bool = False) -> None:
        """Add a value; dates never go back, and on one date sessions come behind answers."""
        history = self._history.setdefault((seen.finding, seen.side), [])
        if history and history[-1].date == seen.date and history[-1].rank == rank:
            history[-1].values.append(known(seen, doubtful))
        else:
            history.append(Entry(seen.date, rank, [known(seen, doubtful)]))
        self.counter(seen.finding)[0] += 1

    def latest(self, finding: str, side: str | None) -> Entry | None:
        """What was said last."""
        history = self._history.get((finding, side))
        return history[-1] if history else None

    def history(self, finding: str, side: str | None) -> list[Entry]:
        """Everything that was said, oldest first."""
        return self._history.get((finding, side), [])

    def counter(self, finding: str) -> list[int]:
        """A list whose one number grows whenever something is said on the finding."""
        return self._counts.setdefault(finding, [0])


def is_fresh(finding: Finding, said: datetime.date, today: datetime.date) -> bool:
    """Whether a value still counts: one that is older than `fresh` allows is unknown."""
    last = last_day(finding, said)
    return last is None or today <= last


def last_day(finding: Finding, said: datetime.date) -> datetime.date | None:
    """The last date on which a value counts outside sessions; None where it never grows old."""
    if finding.one_session:
        return after_days(said, DAYS_AFTER_SESSION)
    return None if finding.fresh is None else later(said, finding.fresh)


def later(start: datetime.date, time: Quantity) -> datetime.date:
    """The date a stretch of time after another; of a month that is too short its last day."""
    assert time.unit is not None
    amount = time.value * time.unit.factor
    if time.unit.dimension == "time":
        return after_days(start, int(amount // 86400))
    months = start.year * 12 + start.month - 1 + int(amount)
    year, month = divmod(months, 12)
    if year > datetime.MAXYEAR:
        return datetime.date.max
    return datetime.date(year, month + 1, min(start.day, calendar.monthrange(year, month + 1)[1]))


def after_days(start: datetime.date, days: int) -> datetime.date:
    """A date so many days later, at most the last there is."""
    left = (datetime.date.max - start).days
    return start + datetime.timedelta(days=min(days, left))
