"""No day takes longer than the protocol's budget."""

from __future__ import annotations

from collections.abc import Iterator
from decimal import Decimal

from protodsl.check.context import Context
from protodsl.check.doses import Doses
from protodsl.check.reach import Reach
from protodsl.diagnostics import dose as say
from protodsl.diagnostics.diagnostic import Diagnostic
from protodsl.dose.plan import Alternatives, Item, Week, week_of
from protodsl.model.protocol import Entry, Protocol


def budget(entry: Entry, context: Context) -> Iterator[Diagnostic]:
    """The longest day of each phase against the budget; what cannot be timed is left out and named."""
    for protocol in entry.protocols:
        for reach in context.reach(protocol):
            if protocol.budget is not None:
                yield from _longest_day(protocol, protocol.budget, reach, context.doses)


def _longest_day(protocol: Protocol, most: Decimal, reach: Reach, doses: Doses) -> Iterator[Diagnostic]:
    found: list[tuple[Decimal, int, Week]] = []
    for number in doses.weeks_of_all([item.layers for item in reach.items]):
        # Days are only looked at where everything on one day would be too long.
        if sum((_minutes(one, number, doses) for one in reach.groups), Decimal(0)) > most:
            week = week_of(protocol, reach.phase, number)
            found.append((week.longest_day, -number, week))
    if not found:
        return
    longest, number, week = max(found, key=lambda one: one[:2])
    if longest > most:
        day = week.minutes.index(longest)
        timed = [one for one in week.items if one.minutes is not None and day in one.days]
        timed.sort(key=lambda one: -(one.minutes or 0))
        yield say.over_budget(
            reach.phase.name if reach.phase else protocol.name,
            longest,
            most,
            -number,
            [(one.item.exercise, one.minutes or Decimal(0)) for one in timed],
            [one.item.exercise for one in week.untimed if day in one.days],
            reach.phase.span if reach.phase else protocol.span,
            [one.item.give.span for one in timed],
        )


def _minutes(one: Item | Alternatives, number: int, doses: Doses) -> Decimal:
    """The most minutes that something given can take on one day; of alternatives the longest."""
    if isinstance(one, Item):
        return doses.minutes(one.layers, number) or Decimal(0)
    options = [sum((_minutes(inner, number, doses) for inner in option), Decimal(0)) for option in one.options]
    return sum(sorted(options)[-one.takes :], Decimal(0))
