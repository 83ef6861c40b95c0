"""No target is trained for strength on two days running."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from itertools import combinations
from typing import NamedTuple

from protodsl.check.context import Context
from protodsl.check.doses import Doses
from protodsl.check.reach import Reach
from protodsl.diagnostics import dose as say
from protodsl.diagnostics.diagnostic import Diagnostic
from protodsl.dose.plan import Alternatives, Item, Timed, is_strength, timed
from protodsl.dose.weekdays import WEEK
from protodsl.model.dose import Dose
from protodsl.model.protocol import Entry


class _Clash(NamedTuple):
    """Two items, by their number in a row of items, that train a target on neighbouring days; of one item: itself."""

    target: str
    first: int
    second: int
    days: tuple[int, int]


_Known = dict[tuple[object, ...], tuple[_Clash, ...]]


def strength_running(entry: Entry, context: Context) -> Iterator[Diagnostic]:
    """Days by the fixed rule of weekdays, which already keeps apart what it can; each pair of exercises once."""
    known: _Known = {}
    for protocol in entry.protocols:
        for reach in context.reach(protocol):
            said: set[tuple[str, frozenset[str]]] = set()
            for items, clash in _clashes(reach, context.doses, known):
                first, second = items[clash.first], items[clash.second]
                names = frozenset((first.exercise, second.exercise))
                if (clash.target, names) not in said:
                    said.add((clash.target, names))
                    yield _say(clash, first, second, reach.phase.name if reach.phase else protocol.name)


def _say(clash: _Clash, first: Item, second: Item, where: str) -> Diagnostic:
    exercises = list(dict.fromkeys((first.exercise, second.exercise)))
    others = [second.give.span] if len(exercises) > 1 else []
    return say.strength_running(clash.target, exercises, clash.days, where, first.give.span, others)


def _clashes(reach: Reach, doses: Doses, known: _Known) -> Iterator[tuple[tuple[Item, ...], _Clash]]:
    if not any(_trains(doses.dose(item.layers, week)) for item in reach.items for week in doses.weeks(item.layers)):
        return
    for line_up in _line_ups(reach.groups):
        for week in doses.weeks_of_all([item.layers for item in line_up]):
            # What trains no strength leaves the days of the rest as they are.
            kept = tuple(item for item in line_up if _trains(doses.dose(item.layers, week)))
            key = (week, *((doses.key(item.layers), item.works) for item in kept))
            if key not in known:
                known[key] = tuple(_in_week(timed(kept, week).items, week))
            yield from ((kept, clash) for clash in known[key])


def _trains(dose: Dose) -> bool:
    """Strength, but for lowering alone: published as daily work (Alfredson et al. Am J Sports Med 1998;26:360-366)."""
    tempo = dose.repetition
    return dose.volume is not None and is_strength(dose) and not (tempo and tempo.lower and not tempo.lift)


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
    alone: set[int] = set()
    for at, one in enumerate(items):
        often = one.item.dose(week).frequency
        # Every other day is never two days running, though seven days are an odd number.
        days = None if often is not None and often.every_other_day else _neighbours(one, one)
        if days:
            alone.add(at)
            yield from (_Clash(target, at, at, days) for target in one.item.works)
    for first, second in combinations([at for at in range(len(items)) if at not in alone], 2):
        days = _neighbours(items[first], items[second])
        for target in items[first].item.works if days else ():
            if days and target in items[second].item.works:
                yield _Clash(target, first, second, days)


def _neighbours(one: Timed, other: Timed) -> tuple[int, int] | None:
    """The first two days running that hold one and the other."""
    for day in range(WEEK):
        after = (day + 1) % WEEK
        if (day in one.days and after in other.days) or (day in other.days and after in one.days):
            return day, after
    return None
