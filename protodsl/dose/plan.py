"""What a phase of a protocol comes to: minutes on each day of the week, and sets a week for each target.

Without a person nobody knows the level of a progression or the choice among several: the longest is taken, so that the
day is never longer than said here.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass
from decimal import ROUND_CEILING, Decimal

from protodsl.dose.totals import day, days_a_week, week
from protodsl.dose.weekdays import WEEK, Weekly, schedule
from protodsl.model.dose import Dosage, Dose, Range
from protodsl.model.dosing import dose_of
from protodsl.model.exercise import Give
from protodsl.model.protocol import Choose, Content, Phase, Protocol
from protodsl.model.reach import gives_of
from protodsl.source import Span

# Above this effort (0 to 10), or with this many repetitions left or fewer, work without a load counts as strength work.
# Common practice, no source.
_HARD_EFFORT = Decimal(7)
_FEW_LEFT = Decimal(3)


@dataclass(frozen=True, slots=True)
class Item:
    """One exercise as a phase gives it, alone or as a part of a level; `layers` run from strongest to weakest.

    `give` is the line that names the exercise; `outer`, for a part of a level, the line that gives the progression.
    """

    exercise: str
    give: Give
    layers: tuple[Dosage, ...]
    works: tuple[str, ...]
    progression: str | None = None
    level: str | None = None
    outer: Give | None = None

    def dose(self, number: int) -> Dose:
        """The dose in week `number`, counted from 1 from entry to the item or level."""
        return dose_of(number, self.layers)


@dataclass(frozen=True, slots=True)
class Alternatives:
    """Sets of items of which `takes` are done at once: one level of a progression, or the person's choice."""

    options: tuple[tuple[Item | Alternatives, ...], ...]
    takes: int = 1


@dataclass(frozen=True, slots=True)
class Timed:
    """An item with its weekdays (0 Monday) and the minutes of one of its days, rounded up; None: it cannot be timed."""

    item: Item
    days: tuple[int, ...]
    minutes: Decimal | None


@dataclass(frozen=True, slots=True)
class Week:
    """A week's items with their days; `minutes` of each day from Monday sums what can be timed."""

    items: tuple[Timed, ...]

    @property
    def minutes(self) -> tuple[Decimal, ...]:
        """Minutes of each of the seven days; what cannot be timed is left out."""
        return tuple(
            sum((one.minutes for one in self.items if one.minutes is not None and number in one.days), Decimal(0))
            for number in range(WEEK)
        )

    @property
    def longest_day(self) -> Decimal:
        """Minutes of the longest day."""
        return max(self.minutes)

    @property
    def untimed(self) -> tuple[Timed, ...]:
        """Items that cannot be timed: until tired, until settled, by the hour, distances, steps and breaths."""
        return tuple(one for one in self.items if one.minutes is None)


def items(protocol: Protocol, phase: Phase | None) -> tuple[Item, ...]:
    """Every exercise a phase gives, each level of each progression in turn."""
    return tuple(_flat(groups(protocol, phase)))


def groups(protocol: Protocol, phase: Phase | None) -> tuple[Item | Alternatives, ...]:
    """What a phase gives as items and alternatives, the protocol's own gives first; nothing that is left out."""
    allowed = frozenset(give.span for give in gives_of(protocol, phase))
    found = list(_contents(protocol, phase, protocol.contents, allowed))
    for one in protocol.phases if phase is None else (phase,):
        found += _contents(protocol, one, one.contents, allowed)
    return tuple(found)


def week_of(protocol: Protocol, phase: Phase | None, number: int, at_home: bool = False) -> Week:
    """The longest week a person in this phase can have, all items and levels at their own week `number`.

    `at_home`: without what is done with a clinician only.
    """
    found = groups(protocol, phase)
    return timed(_longest(home(protocol, found) if at_home else found, number), number)


def home(protocol: Protocol, found: Iterable[Item | Alternatives]) -> tuple[Item | Alternatives, ...]:
    """What is left to do at home of items and alternatives."""
    left: list[Item | Alternatives] = []
    for one in found:
        if isinstance(one, Alternatives):
            left.append(Alternatives(tuple(home(protocol, option) for option in one.options), one.takes))
        elif not with_us_only(protocol, one):
            left.append(one)
    return tuple(left)


def with_us_only(protocol: Protocol, item: Item) -> bool:
    """Whether an item is done with a clinician only: its exercise or a give on the way to it is `supervised`."""
    gives = (item.give,) if item.outer is None else (item.give, item.outer)
    return protocol.scope.exercises[item.exercise].supervised or any(give.supervised for give in gives)


def timed(chosen: Sequence[Item], number: int) -> Week:
    """A week of just these items: their days by the fixed rule, and their minutes."""
    doses = [item.dose(number) for item in chosen]
    plan = schedule([_weekly(item, dose) for item, dose in zip(chosen, doses, strict=True)])
    return Week(
        tuple(
            Timed(item, days, minutes_of_day(dose))
            for item, dose, days in zip(chosen, doses, plan, strict=True)
            if dose.volume is not None
        )
    )


def minutes_of_day(dose: Dose) -> Decimal | None:
    """Whole minutes of a training day, rounded up from the upper end; None where it cannot be timed."""
    seconds = day(dose).seconds
    return None if seconds is None else (seconds.high / 60).to_integral_value(ROUND_CEILING)


def sets_per_target(chosen: Iterable[Item], number: int) -> Mapping[str, Range]:
    """Sets of one side in a week for each target, in the order the targets are first trained."""
    totals: dict[str, Range] = {}
    for item in chosen:
        sets = week(item.dose(number)).sets
        for target in item.works:
            before = totals.get(target, Range(Decimal(0), Decimal(0)))
            totals[target] = Range(before.low + sets.low, before.high + sets.high)
    return totals


def is_strength(dose: Dose) -> bool:
    """Whether a dose trains strength: against a load other than one's own weight, or at a hard effort."""
    if dose.load is not None and (dose.load.name != "body weight" or dose.load.weight is not None):
        return True
    if dose.effort is None:
        return False
    return dose.effort.amount.low <= _FEW_LEFT if dose.effort.reserve else dose.effort.amount.high >= _HARD_EFFORT


def _weekly(item: Item, dose: Dose) -> Weekly:
    often = days_a_week(dose.frequency)
    return Weekly(
        item.exercise,
        int(often.high.to_integral_value(ROUND_CEILING)),
        bool(dose.frequency and (dose.frequency.rest_day_between or dose.frequency.every_other_day)),
        item.works if is_strength(dose) else (),
    )


def _contents(
    protocol: Protocol, phase: Phase | None, contents: Iterable[Content], allowed: frozenset[Span]
) -> Iterator[Item | Alternatives]:
    for one in contents:
        if isinstance(one, Give):
            if one.span in allowed:
                yield from _given(protocol, phase, one)
        elif isinstance(one, Choose):
            options = tuple(tuple(_given(protocol, phase, give)) for give in one.gives if give.span in allowed)
            yield Alternatives(options, one.count)
        else:
            yield from _contents(protocol, phase, one.contents, allowed)


def _given(protocol: Protocol, phase: Phase | None, give: Give) -> Iterator[Item | Alternatives]:
    """A give as its exercise, or as the levels of its progression."""
    outer = (phase.dosage, protocol.dosage) if phase else (protocol.dosage,)
    progression = protocol.scope.progressions.get(give.item)
    if progression is None:
        exercise = protocol.scope.exercises.get(give.item)
        if exercise is not None:
            yield Item(give.item, give, (give.dosage, exercise.dosage, *outer), exercise.works)
        return
    levels = []
    for level in progression.levels:
        found = []
        for inner in level.gives:
            exercise = protocol.scope.exercises.get(inner.item)
            if exercise is not None:
                layers = (inner.dosage, level.dosage, give.dosage, progression.dosage, exercise.dosage, *outer)
                found.append(Item(inner.item, inner, layers, exercise.works, progression.name, level.name, give))
        levels.append(tuple(found))
    yield Alternatives(tuple(levels))


def _flat(found: Iterable[Item | Alternatives]) -> Iterator[Item]:
    for one in found:
        if isinstance(one, Item):
            yield one
        else:
            for option in one.options:
                yield from _flat(option)


def _longest(found: Iterable[Item | Alternatives], number: int) -> tuple[Item, ...]:
    """The items of the longest week: of alternatives the options with the most minutes, the first where equal."""
    chosen: list[Item] = []
    for one in found:
        if isinstance(one, Item):
            chosen.append(one)
            continue
        options = [_longest(option, number) for option in one.options]
        order = sorted(range(len(options)), key=lambda at: (-_minutes(options[at], number), at))
        for at in sorted(order[: one.takes]):
            chosen += options[at]
    return tuple(chosen)


def _minutes(chosen: Sequence[Item], number: int) -> Decimal:
    return sum((minutes_of_day(item.dose(number)) or Decimal(0) for item in chosen), Decimal(0))
