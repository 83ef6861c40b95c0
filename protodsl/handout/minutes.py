"""How long a day takes: the longest day of a phase, and what is left out of the sum because it cannot be timed."""

from __future__ import annotations

from collections.abc import Iterator
from decimal import Decimal

from protodsl.dose.plan import Week, items, week_of, with_us_only
from protodsl.handout.blocks import Item, Row
from protodsl.handout.draft import Draft
from protodsl.handout.phrase import Listed, Phrase
from protodsl.handout.words import counted, number, say
from protodsl.model.protocol import Phase


def minutes(draft: Draft, phase: Phase | None) -> Iterator[Row[Phrase]]:
    """The minutes of the longest day at home, and by name whatever is not in them."""
    weeks = [week_of(draft.protocol, phase, at, at_home=True) for at in weeks_with_a_change(draft, phase)]
    longest = max((week.longest_day for week in weeks if week.items), default=Decimal(0))
    lines: list[Item[Phrase]] = []
    if longest > 0:
        lines.append(Item(counted("plan.minutes.longest", longest)))
    left_out = untimed(draft, weeks)
    if left_out:
        key = "plan.minutes.not-counted" if longest > 0 else "plan.minutes.none"
        lines.append(Item(counted(key, len(left_out), numbers=Listed(left_out))))
    with_us = at_the_clinic(draft, phase)
    if with_us:
        lines.append(Item(counted("plan.minutes.with-us", len(with_us), numbers=Listed(with_us))))
    if lines:
        yield Row(say("plan.minutes"), tuple(lines))


def at_the_clinic(draft: Draft, phase: Phase | None) -> tuple[Phrase, ...]:
    """The numbers of the exercises that a phase gives with a clinician only."""
    found = items(draft.protocol, phase)
    names = {item.exercise for item in found if with_us_only(draft.protocol, item)}
    return tuple(number(at) for name, at in draft.numbers.items() if name in names)


def weeks_with_a_change(draft: Draft, phase: Phase | None) -> tuple[int, ...]:
    """The weeks in which a dose can change: the first, and every first week of a row of a dose table."""
    layers = [layer for uses in draft.uses.values() for use in uses if use.phase == phase for layer in use.layers]
    return tuple(sorted({1, *(row.first for layer in layers for row in layer.weeks)}))


def untimed(draft: Draft, weeks: list[Week]) -> tuple[Phrase, ...]:
    """The numbers of the exercises that cannot be timed."""
    names = {one.item.exercise for week in weeks for one in week.untimed}
    return tuple(number(at) for name, at in draft.numbers.items() if name in names)
