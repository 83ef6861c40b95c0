"""The general sheet: everything a protocol says, for somebody at home, without a person to decide anything by."""

from __future__ import annotations

from protodsl.handout.about import about
from protodsl.handout.advice import advice, care
from protodsl.handout.before import before
from protodsl.handout.blocks import Footer, Handout, Section
from protodsl.handout.cards import cards
from protodsl.handout.daily import ask, daily
from protodsl.handout.diary import diary
from protodsl.handout.draft import Draft, draft
from protodsl.handout.flare import flare
from protodsl.handout.masthead import masthead
from protodsl.handout.needs import needs
from protodsl.handout.options import Options
from protodsl.handout.pain import pain
from protodsl.handout.phrase import Literal, Phrase, Written
from protodsl.handout.plan import plan
from protodsl.handout.stop import stop
from protodsl.handout.words import say
from protodsl.model.clinic import Clinic
from protodsl.model.protocol import Protocol


def compose_sheet(protocol: Protocol, clinic: Clinic, options: Options) -> Handout[Phrase]:
    """The parts in order: safety before welcome, the plan before the exercises, the diary last."""
    on = draft(protocol, clinic, options)
    found: tuple[Section[Phrase] | None, ...] = (
        stop(on),
        before(on),
        *plan(on),
        needs(on),
        pain(on),
        flare(on),
        care(on),
        advice(on),
        *cards(on),
        daily(on),
        ask(on),
        about(on),
        diary(on),
    )
    sections = tuple(section for section in found if section is not None)
    return Handout(
        "sheet", say("name", name=Written(protocol.title)), masthead(on), sections, footer(on), options.digest
    )


def footer(on: Draft) -> Footer[Phrase]:
    """The sheet's title and version, and whom to call."""
    left = (say("name", name=Written(on.protocol.title)), say("footer.version", version=Literal(on.protocol.version)))
    right = say("footer.worried", phone=Literal(on.clinic.contact.phone))
    return Footer(left, right, say("footer.page", page=Literal("{page}"), pages=Literal("{pages}")))
