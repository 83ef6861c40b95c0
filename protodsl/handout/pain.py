"""How much pain is all right: the zones that the protocol sets, and nothing where it sets none."""

from __future__ import annotations

from protodsl.handout.blocks import Item, PainBand, PainScale, Section
from protodsl.handout.draft import Draft
from protodsl.handout.phrase import Phrase, Written
from protodsl.handout.words import lines, number, say
from protodsl.model.protocol import Zone


def pain(draft: Draft) -> Section[Phrase] | None:
    """The scale with its zones; the first is plain, the last black, those between hatched."""
    zones = draft.protocol.zones
    if not zones:
        return None
    bands = tuple(_band(draft, zone, at, len(zones)) for at, zone in enumerate(zones))
    return Section("pain", say("pain.head"), (PainScale(say("pain.intro"), bands),), whole=True)


def _band(draft: Draft, zone: Zone, at: int, count: int) -> PainBand[Phrase]:
    """Its numbers, beside them what it is called and what to do in it."""
    tone = 0 if at == 0 else 2 if at == count - 1 else 1
    word = Written(zone.words)
    said = say("pain.zone", word=word, text=lines(zone.lines)) if zone.lines else say("pain.zone.word", word=word)
    item = Item(said, f"pain/zone-{at + 1}", draft.origin(zone.span))
    return PainBand(zone.low, zone.high, say("name", name=word), (item,), tone, _numbers(zone))


def _numbers(zone: Zone) -> Phrase:
    low = number(zone.low)
    return low if zone.low == zone.high else say("number.range", low=low, high=number(zone.high))
