"""Whose sheet it is and what it is for: the few lines over everything."""

from __future__ import annotations

from protodsl.handout.blocks import Masthead
from protodsl.handout.draft import Draft
from protodsl.handout.phrase import Day, Literal, Phrase, Written
from protodsl.handout.words import say


def masthead(draft: Draft) -> Masthead[Phrase]:
    """The clinic, the protocol's title, for whom it is, and a line to write the name by hand."""
    protocol = draft.protocol
    found: list[Phrase] = []
    if protocol.audience is not None:
        found.append(say("masthead.audience", audience=Written(protocol.audience)))
    found.append(say("masthead.name"))
    title = say("name", name=Written(protocol.title))
    return Masthead(Literal(draft.clinic.name), Literal(draft.clinic.address), title, tuple(found))


def version(draft: Draft) -> Phrase:
    """The version, and when it was reviewed if it was."""
    protocol = draft.protocol
    if protocol.review is None:
        return say("masthead.version", version=Literal(protocol.version))
    return say(
        "masthead.reviewed",
        version=Literal(protocol.version),
        date=Day(protocol.review.date),
        next=Day(protocol.review.next_by),
    )
