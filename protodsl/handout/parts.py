"""The parts of the plan for the clinician: what ends each, what leads back, and how far one may go in it."""

from __future__ import annotations

from collections.abc import Iterator

from protodsl.handout.blocks import Item, Row, Section
from protodsl.handout.draft import Draft
from protodsl.handout.limits import bearing, forbidden, limited
from protodsl.handout.phrase import InWords, Phrase, Written
from protodsl.handout.places import places
from protodsl.handout.titles import phase_number
from protodsl.handout.words import say
from protodsl.model.protocol import Phase
from protodsl.source import Span


def parts(draft: Draft) -> Section[Phrase] | None:
    """A row for each phase; none where the protocol has no phases."""
    rows = tuple(
        Row(
            say("plan.part", number=phase_number(draft, phase), title=Written(phase.title)), tuple(_lines(draft, phase))
        )
        for phase in draft.protocol.phases
    )
    return Section("parts", say("parts.head"), rows) if rows else None


def _lines(draft: Draft, phase: Phase) -> Iterator[Item[Phrase]]:
    for at, until in enumerate(phase.until):
        clause = InWords(until.condition, until.streak)
        yield Item(say("parts.until.and" if at else "parts.until", clause=clause, line=_at(draft, until.span)))
    if not phase.until:
        yield Item(say("parts.until.none"))
    for back in phase.back_to:
        to = next((one for one in draft.protocol.phases if one.name == back.phase), phase)
        clause = InWords(back.condition, back.streak)
        where = phase_number(draft, to)
        yield Item(say("parts.back", number=where, clause=clause, line=_at(draft, back.span)))
    for limit in phase.limits:
        yield Item(say("parts.limit", text=limited(limit), line=_at(draft, limit.span)))
    for forbid in phase.forbids:
        yield Item(say("parts.limit", text=forbidden(forbid), line=_at(draft, forbid.span)))
    if phase.bearing is not None:
        yield Item(say("parts.limit", text=bearing(phase.bearing), line=_at(draft, phase.span)))


def _at(draft: Draft, span: Span) -> Phrase:
    return places(draft, (span,))
