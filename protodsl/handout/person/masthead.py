"""Whose sheet it is: the case, a line to write the name on, from when to when, the next visit, the part of the plan."""

from __future__ import annotations

from protodsl.decide.plan import Plan
from protodsl.handout.blocks import Footer, Masthead
from protodsl.handout.draft import Draft
from protodsl.handout.person.dates import dated
from protodsl.handout.phrase import Literal, Phrase, Written
from protodsl.handout.words import number, say


def masthead(plan: Plan, on: Draft) -> Masthead[Phrase]:
    """Four lines at most; the name is never printed, it is written by hand."""
    found = [
        say("person.name", case=Literal(plan.case.id)),
        say("person.period", first=dated(plan.first), last=dated(plan.last)),
        next_visit(plan),
    ]
    if plan.phase is not None and len(plan.protocol.phases) > 1:
        found.append(say("person.phase", number=number(phase_number(plan)), title=Written(plan.phase.title)))
    title = say("name", name=Written(plan.protocol.title))
    return Masthead(Literal(on.clinic.name), Literal(on.clinic.address), title, tuple(found))


def next_visit(plan: Plan) -> Phrase:
    """The date of the next visit; none where it has passed or was never written."""
    visit = plan.case.next_visit
    if visit is None or visit <= plan.as_of:
        return say("person.visit.none")
    return say("person.visit", date=dated(visit))


def phase_number(plan: Plan, name: str = "") -> int:
    """The number of a phase by its name ("": the present one), counted from 1."""
    wanted = name or (plan.phase.name if plan.phase else "")
    return 1 + next((at for at, one in enumerate(plan.protocol.phases) if one.name == wanted), 0)


def footer(plan: Plan, on: Draft, titled: bool = True) -> Footer[Phrase]:
    """The case, the sheet's title (`titled`) and version, and whom to call."""
    version = say("footer.version", version=Literal(plan.protocol.version))
    case = say("person.case", case=Literal(plan.case.id), version=version)
    left = (say("name", name=Written(plan.protocol.title)), case) if titled else (case,)
    right = say("footer.worried", phone=Literal(on.clinic.contact.phone))
    return Footer(left, right, say("footer.page", page=Literal("{page}"), pages=Literal("{pages}")))
