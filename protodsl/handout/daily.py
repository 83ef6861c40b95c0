"""Daily life: what one may do, and what not yet, in the whole protocol."""

from __future__ import annotations

from protodsl.handout.blocks import Item, Lines, Row, Section
from protodsl.handout.draft import Draft
from protodsl.handout.phrase import Phrase
from protodsl.handout.words import NOTHING, line, say

_LINES_TO_WRITE_ON = 4


def daily(draft: Draft) -> Section[Phrase] | None:
    """What may be done and what not yet; what holds for one phase only stands with that phase."""
    protocol = draft.protocol
    rows = []
    if protocol.may:
        rows.append(Row(say("daily.may"), tuple(Item(line(prose)) for prose in protocol.may), "feel"))
    if protocol.not_yet:
        items = tuple(
            Item(line(prose), f"daily/not-yet/{at}", draft.origin(prose.span))
            for at, prose in enumerate(protocol.not_yet, 1)
        )
        rows.append(Row(say("daily.not-yet"), items, "out"))
    return Section("daily", say("daily.head"), tuple(rows), whole=True) if rows else None


def ask(draft: Draft) -> Section[Phrase]:
    """Lines to write one's questions on."""
    return Section("ask", say("ask.head"), (Lines(NOTHING, _LINES_TO_WRITE_ON),), whole=True)
