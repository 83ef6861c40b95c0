"""One person's sheet: only what applies today, in the order of the page for the fridge first."""

from __future__ import annotations

from protodsl.decide.plan import Plan
from protodsl.handout.advice import advice, care
from protodsl.handout.blocks import Handout, Section
from protodsl.handout.daily import ask
from protodsl.handout.flare import flare
from protodsl.handout.needs import needs
from protodsl.handout.options import Options
from protodsl.handout.pain import pain
from protodsl.handout.person.about import about
from protodsl.handout.person.cards import cards
from protodsl.handout.person.changed import changed
from protodsl.handout.person.daily import daily
from protodsl.handout.person.diary import diary
from protodsl.handout.person.masthead import footer, masthead
from protodsl.handout.person.part import part
from protodsl.handout.person.today import drafted
from protodsl.handout.person.voice import spoken
from protodsl.handout.person.week import week
from protodsl.handout.phrase import Phrase, Written
from protodsl.handout.stop import stop
from protodsl.handout.words import say
from protodsl.model.clinic import Clinic


def compose_person(
    plan: Plan, clinic: Clinic, options: Options, previous: Plan | None = None
) -> Handout[Phrase] | None:
    """The sheet for today; None where the plan is refused: no exercise is printed then.

    `previous` is what was decided for the sheet before this one: what changed is told from it, and why from the moves
    dated after it. Without it nothing is said to have changed.
    """
    if plan.refused:
        return None
    on = drafted(plan, clinic, options)
    found: tuple[Section[Phrase] | None, ...] = (
        stop(on),
        changed(plan, on, previous),
        week(plan, on),
        part(plan, on),
        needs(on),
        pain(on),
        flare(on),
        care(on),
        advice(on),
        *cards(plan, on),
        daily(plan, on),
        ask(on),
        about(plan, on),
        diary(plan, on),
    )
    sections = tuple(section for section in found if section is not None)
    title = say("name", name=Written(plan.protocol.title))
    sheet = Handout("sheet", title, masthead(plan, on), sections, footer(plan, on), options.digest)
    return spoken(sheet, plan.side.worse)
