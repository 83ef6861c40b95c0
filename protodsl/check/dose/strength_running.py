"""No target is trained for strength on two days running."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from itertools import combinations
from typing import NamedTuple

from protodsl.check.context import Context, Reach
from protodsl.check.weeks import turning_weeks_of_all
from protodsl.diagnostics import dose as say
from protodsl.diagnostics.diagnostic import Diagnostic
from protodsl.dose.plan import Alternatives, Item, Timed, groups, is_strength, timed
from protodsl.dose.weekdays import WEEK
from protodsl.model.dose import Dose
from protodsl.model.protocol import Entry, Protocol


class _Clash(NamedTuple):
    """Two items that train a target on neighbouring days; one of its own days next to another: the same item twice."""

    target: str
    first: Item
    second: Item
    days: tuple[int, int]


def strength_running(entry: Entry, context: Context) -> Iterator[Diagnostic]:
    """Days by the fixed rule of weekdays, which already keeps apart what it can; each pair of exercises once."""
    for protocol in entry.protocols:
        for reach in context.reach(protocol):
            said: set[tuple[str, frozenset[str]]] = set()
            for clash in _clashes(protocol, reach):
                names = frozenset((clash.first.exercise, clash.second.exercise))
                if (clash.target, names) not in said:
                    said.add((clash.target, names))
                    yield _say(clash, reach.phase.name if reach.phase else protocol.name)


def _say(clash: _Clash, where: str) -> Diagnostic:
    exercises = list(dict.fromkeys((clash.first.exercise, clash.second.exercise)))
    return say.strength_running(
        clash.target,
        exercises,
        clash.days,
        where,
        clash.first.give.span,
        [clash.second.give.span] if len(exercises) > 1 else [],
    )


def _clashes(protocol: Protocol, reach: Reach) -> Iterator[_Clash]:
    strong = [item for item in reach.items if any(_trains(item.dose(week)) for week in _weeks([item]))]
    if not strong:
        return
    wanted = frozenset(id(item.give) for item in strong)
    found = groups(protocol, reach.phase)
    for line_up in _line_ups(found):
        items = [item for item in line_up if id(item.give) in wanted]
        for week in _weeks(items):
            # What trains no strength leaves the days of the rest as they are.
            kept = [item for item in items if _trains(item.dose(week))]
            yield from _in_week(timed(kept, week).items, week)


def _weeks(items: Sequence[Item]) -> tuple[int, ...]:
    return turning_weeks_of_all(item.layers for item in items)


def _trains(dose: Dose) -> bool:
    """Strength, but for lowering alone: published as daily work (Alfredson et al. Am J Sports Med 1998;26:360-366)."""
    tempo = dose.repetition
    return is_strength(dose) and not (tempo and tempo.lower and not tempo.lift)


def _line_ups(found: Iterable[Item | Alternatives]) -> Iterator[tuple[Item, ...]]:
    """Items that can stand side by side: every level and every choice stands in one of them."""
    listed = list(found)
    for number in range(max((_depth(one) for one in listed), default=0)):
        yield tuple(item for one in listed for item in _picked(one, number))


def _depth(one: Item | Alternatives) -> int:
    if isinstance(one, Item):
        return 1
    return max((len(one.options), *(_depth(inner) for option in one.options for inner in option)))


def _picked(one: Item | Alternatives, number: int) -> Iterator[Item]:
    if isinstance(one, Item):
        yield one
        return
    options = one.options
    for at in range(min(one.takes, len(options))):
        for inner in options[(min(number, len(options) - 1) + at) % len(options)]:
            yield from _picked(inner, number)


def _in_week(items: Sequence[Timed], week: int) -> Iterator[_Clash]:
    """An item that meets itself is not looked at beside others: whatever they do, it stays so."""
    alone = [_Clash(target, one.item, one.item, days) for one, target, days in _meeting_themselves(items, week)]
    yield from alone
    by_themselves = {id(clash.first) for clash in alone}
    for one, other in combinations([one for one in items if id(one.item) not in by_themselves], 2):
        days = _neighbours(one, other)
        for target in one.item.works if days else ():
            if days and target in other.item.works:
                yield _Clash(target, one.item, other.item, days)


def _meeting_themselves(items: Sequence[Timed], week: int) -> Iterator[tuple[Timed, str, tuple[int, int]]]:
    """Items on two days running; every other day is none, though seven days are an odd number."""
    for one in items:
        often = one.item.dose(week).frequency
        days = None if often is not None and often.every_other_day else _neighbours(one, one)
        if days:
            yield from ((one, target, days) for target in one.item.works)


def _neighbours(one: Timed, other: Timed) -> tuple[int, int] | None:
    """The first two days running that hold one and the other."""
    for day in range(WEEK):
        after = (day + 1) % WEEK
        if (day in one.days and after in other.days) or (day in other.days and after in one.days):
            return day, after
    return None
