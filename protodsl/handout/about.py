"""About this sheet: for whom it is, what it aims at, where it comes from, and what it does not replace."""

from __future__ import annotations

from protodsl.handout.blocks import Item, Row, Section
from protodsl.handout.draft import Draft
from protodsl.handout.masthead import version
from protodsl.handout.phrase import AUTHOR, Literal, Phrase, Written
from protodsl.handout.words import line, one_after_the_other, say


def about(draft: Draft) -> Section[Phrase]:
    """Rows on the sheet itself; the usual caution is always among them."""
    protocol, clinic = draft.protocol, draft.clinic
    caution = say(
        "about.only",
        emergency=Literal(clinic.emergency.phone),
        phone=Literal(clinic.contact.phone),
        clinic=Literal(clinic.name),
    )
    rows = [Row(say("about.only.head"), (Item(caution, "about/only"),))]
    if protocol.audience is not None:
        rows.append(Row(say("about.audience"), (Item(line(protocol.audience)),)))
    rows.append(Row(say("about.sides.head"), (Item(say("about.sides")),)))
    if protocol.sources:
        rows.append(Row(say("about.sources"), tuple(Item(Written(source)) for source in protocol.sources)))
    rows.append(Row(say("about.version.head"), (Item(_version(draft)),)))
    return Section("about", say("about.head"), tuple(rows))


def _version(draft: Draft) -> Phrase:
    said: list[Phrase] = [say("about.protocol", name=Literal(draft.protocol.name, AUTHOR)), version(draft)]
    if draft.protocol.review is not None:
        said.append(say("about.by", by=Literal(draft.protocol.review.by, AUTHOR)))
    if draft.options.digest:
        said.append(say("about.digest", digest=Literal(draft.options.digest)))
    if draft.options.version:
        said.append(say("about.product", version=Literal(draft.options.version)))
    return one_after_the_other(*said)
