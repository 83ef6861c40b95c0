"""How much pain is all right: the zones that the protocol sets, and nothing where it sets none."""

from __future__ import annotations

from protodsl.handout.blocks import Item, PainBand, PainScale, Section
from protodsl.handout.draft import Draft
from protodsl.handout.phrase import Phrase, Written
from protodsl.handout.words import line, number, say
from protodsl.model.protocol import Zone
from protodsl.model.text import Prose


def pain(draft: Draft) -> Section[Phrase] | None:
    """The scale with its zones; the first is plain, the last black, those between hatched."""
    zones = draft.protocol.zones
    if not zones:
        return None
    bands = tuple(_band(draft, zone, at, len(zones)) for at, zone in enumerate(zones))
    return Section("pain", say("pain.head"), (PainScale(say("pain.intro"), bands),), whole=True)


def _band(draft: Draft, zone: Zone, at: int, count: int) -> PainBand[Phrase]:
    tone = 0 if at == 0 else 2 if at == count - 1 else 1
    proses = zone.lines or (zone.words,)
    items = tuple(
        Item(_said(zone, prose) if place == 1 else line(prose), f"pain/zone-{at + 1}/{place}", draft.origin(zone.span))
        for place, prose in enumerate(proses, 1)
    )
    return PainBand(zone.low, zone.high, say("name", name=Written(zone.words)), items, tone)


def _said(zone: Zone, prose: Prose) -> Phrase:
    """The first line of a zone, behind its numbers."""
    if zone.low == zone.high:
        return say("pain.zone.one", low=number(zone.low), text=line(prose))
    return say("pain.zone", low=number(zone.low), high=number(zone.high), text=line(prose))
