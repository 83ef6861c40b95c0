"""Rises of an amount from week to week of one dose, and from level to level of one exercise."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from decimal import ROUND_HALF_EVEN, Decimal
from itertools import pairwise
from typing import NamedTuple

from protodsl.check.context import Context
from protodsl.diagnostics import dose as say
from protodsl.model.dose import Dose
from protodsl.model.protocol import Entry
from protodsl.source import Span


class Rise(NamedTuple):
    """A rise in percent to one place: of which exercise, from when on, at which line, after which line."""

    exercise: str
    when: str
    percent: Decimal
    at: Span
    before: Span


Measure = Callable[[Dose, Dose], tuple[Decimal, Decimal] | None]
"""The amounts of two doses, or None where they cannot be compared."""


def rises(entry: Entry, context: Context, measure: Measure) -> Iterator[Rise]:
    """Every rise from one stretch of weeks to the next, and from the end of a level to the beginning of the next."""
    for one in context.given:
        for before, after in pairwise(one.weeks):
            percent = _rise(measure(one.dose(before), one.dose(after)))
            if percent is not None:
                yield Rise(one.exercise.name, say.in_week(after), percent, one.place(after), one.place(before))
    yield from _between_levels(entry, context, measure)


def _between_levels(entry: Entry, context: Context, measure: Measure) -> Iterator[Rise]:
    """The last week of a level against the first of the next, for an exercise that both hold."""
    for protocol in entry.protocols:
        for reach in context.reach(protocol):
            for before, after in pairwise(reach.items):
                if before.exercise != after.exercise or before.level == after.level:
                    continue
                if before.progression is None or before.progression != after.progression:
                    continue
                doses = context.doses
                last = doses.weeks(before.layers)[-1]
                percent = _rise(measure(doses.dose(before.layers, last), doses.dose(after.layers, 1)))
                if percent is not None:
                    when = say.in_level(after.level or "")
                    yield Rise(after.exercise, when, percent, after.give.span, before.give.span)


def _rise(amounts: tuple[Decimal, Decimal] | None) -> Decimal | None:
    """The rise in percent to one place; None where there is nothing to compare."""
    if amounts is None or amounts[0] <= 0:
        return None
    before, after = amounts
    return ((after - before) * 100 / before).quantize(Decimal("0.1"), ROUND_HALF_EVEN)
