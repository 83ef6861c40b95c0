"""Days of the week by one fixed rule: spread evenly from Monday, rest days kept, items that share a target kept apart.

Kept apart means: on the same day or with a day between, never on two days running (the week goes round: Sunday is next
to Monday). A rest of about 48 hours between strength sessions of one muscle group is common practice, no source.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from functools import cache
from itertools import combinations

WEEK = 7


@dataclass(frozen=True, slots=True)
class Weekly:
    """Something done on `days` days of the week; `apart` names the targets it trains for strength."""

    name: str
    days: int
    rest_day_between: bool = False
    apart: tuple[str, ...] = ()


def schedule(items: Sequence[Weekly]) -> tuple[tuple[int, ...], ...]:
    """For each item its days (0 Monday to 6 Sunday), chosen in order: fewest clashes, then evenest, then earliest."""
    chosen: list[tuple[Weekly, tuple[int, ...]]] = []
    for item in items:
        days = min(patterns(item.days, item.rest_day_between), key=lambda days: _clashes(item, days, chosen))
        chosen.append((item, days))
    return tuple(days for _, days in chosen)


@cache
def patterns(days: int, rest_day_between: bool) -> tuple[tuple[int, ...], ...]:
    """Every choice of that many days, evenest first, then earliest; with rest days kept where that can be."""
    found = list(combinations(range(WEEK), min(days, WEEK)))
    if rest_day_between:
        found = [choice for choice in found if not running(choice)] or found
    return tuple(sorted(found, key=lambda choice: (_unevenness(choice), choice)))


def running(days: Sequence[int]) -> bool:
    """Whether two of the days are neighbours in the week that goes round."""
    return any((day + 1) % WEEK in days for day in days)


def _clashes(item: Weekly, days: tuple[int, ...], chosen: list[tuple[Weekly, tuple[int, ...]]]) -> int:
    """How many pairs of neighbouring days train a target of this item for strength."""
    shared = {day for other, others in chosen if set(other.apart) & set(item.apart) for day in others}
    if not shared:
        return 0
    return sum(((day + 1) % WEEK in shared) + ((day - 1) % WEEK in shared) for day in days)


def _unevenness(days: tuple[int, ...]) -> int:
    """The squares of the gaps between the days, round the week: least where they are spread evenly."""
    if not days:
        return 0
    gaps = [(after - before) % WEEK or WEEK for before, after in zip(days, (*days[1:], days[0]), strict=True)]
    return sum(gap * gap for gap in gaps)
