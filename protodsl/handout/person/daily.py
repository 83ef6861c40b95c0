"""Daily life in this part of the plan: what one may do, what not yet, how far one may go, how much weight."""

from __future__ import annotations

from protodsl.decide.plan import Plan
from protodsl.handout.blocks import Block, Item, Row, Section
from protodsl.handout.daily import daily as everywhere
from protodsl.handout.draft import Draft
from protodsl.handout.limits import bearing, forbidden, limited
from protodsl.handout.phrase import Phrase
from protodsl.handout.words import say


def daily(plan: Plan, on: Draft) -> Section[Phrase] | None:
    """The rows of daily life, then the limits of the phase."""
    common = everywhere(on)
    rows: list[Block[Phrase]] = list(common.blocks) if common else []
    phase = plan.phase
    if phase is not None:
        limits = tuple(
            Item(limited(one), f"daily/limit/{at}", on.origin(one.span)) for at, one in enumerate(phase.limits, 1)
        )
        forbids = tuple(
            Item(forbidden(one), f"daily/forbid/{at}", on.origin(one.span)) for at, one in enumerate(phase.forbids, 1)
        )
        if limits:
            rows.append(Row(say("plan.limit"), limits, "out"))
        if forbids:
            rows.append(Row(say("plan.forbid"), forbids, "out"))
        if phase.bearing is not None:
            weight = Item(bearing(phase.bearing), "daily/bearing", on.origin(phase.span))
            rows.append(Row(say("plan.bearing"), (weight,), "side"))
    return Section("daily", say("daily.head"), tuple(rows), whole=True) if rows else None
