"""Take care, and advice: what holds for the whole protocol beside the exercises."""

from __future__ import annotations

from protodsl.handout.blocks import Item, Row, Section
from protodsl.handout.draft import Draft
from protodsl.handout.phrase import Phrase, Written
from protodsl.handout.words import if_so, line, lines, one_after_the_other, say


def care(draft: Draft) -> Section[Phrase] | None:
    """The protocol's cautions, each with the condition under which it holds."""
    items = tuple(
        Item(
            one_after_the_other(if_so(caution.condition), lines(caution.lines)),
            f"care/{at}",
            draft.origin(caution.span),
        )
        for at, caution in enumerate(draft.protocol.cautions, 1)
    )
    return Section("care", say("care.head"), (Row(say("card.caution"), items, "change"),)) if items else None


def advice(draft: Draft) -> Section[Phrase] | None:
    """Every titled piece of advice as a row."""
    rows = tuple(
        Row(Written(one.title), tuple(Item(line(prose)) for prose in one.lines)) for one in draft.protocol.advice
    )
    return Section("advice", say("advice.head"), rows) if rows else None
