"""A bad spell: what the protocol says to do in one."""

from __future__ import annotations

from protodsl.handout.blocks import Item, Paragraphs, Section
from protodsl.handout.draft import Draft
from protodsl.handout.phrase import Phrase
from protodsl.handout.words import line, say


def flare(draft: Draft) -> Section[Phrase] | None:
    """The lines of the flare-up as paragraphs; none where the protocol has none."""
    lines = tuple(
        Item(line(prose), f"flare/{at}", draft.origin(prose.span))
        for at, prose in enumerate(draft.protocol.flare_up, 1)
    )
    return Section("flare", say("flare.head"), (Paragraphs(lines),), whole=True) if lines else None
