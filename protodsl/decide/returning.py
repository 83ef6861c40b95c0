"""What is left out for this person for a time that ends within the period of the sheet."""

from __future__ import annotations

import datetime
from dataclasses import replace

from protodsl.decide.gate import Gate
from protodsl.decide.offers import barred, holds, in_force, offers
from protodsl.decide.parts import printed
from protodsl.decide.plan import Returning
from protodsl.decide.replay import Replay
from protodsl.decide.truth import YES


def returning(run: Replay, last: datetime.date) -> tuple[Returning, ...]:
    """Each item once, with the date from which on it is given again; nothing that something else keeps off today."""
    context = run.context
    now = [one for one in run.case.left_out if in_force(one.date, one.until, context.date)]
    found = []
    for item in dict.fromkeys(one.item for one in now):
        ends = [one.until for one in run.case.left_out if one.item == item and one.until is not None]
        day = max(ends, default=datetime.date.max)
        if day >= last:
            continue
        day += datetime.timedelta(days=1)
        out = barred(context.protocol, run.gate.phase, run.case, day)
        if item not in out and _would_be_given(item, replace(run.gate, out=out), run):
            found.append(Returning(item, day))
    return tuple(found)


def _would_be_given(item: str, gate: Gate, run: Replay) -> bool:
    """Whether it is offered, or stands in something that is given, and nothing else bars it."""
    context = run.context
    for offer in offers(context.protocol, gate.phase, run.case, context.date):
        give = offer.give
        if give.item == item and holds(give, context).truth is YES:
            return item in context.protocol.scope.progressions or _is_let(item, gate)
    parts = (part for state in run.state.items.values() if state.given for part in printed(state, gate, context).parts)
    return any(part.asked == item and not part.swapped for part in parts)


def _is_let(item: str, gate: Gate) -> bool:
    passed = gate.let(item).exercise
    return passed is not None and passed.name == item
