"""The clinician's page of a case: what is open first, then what was decided and why, how it went, and the sums."""

from __future__ import annotations

from dataclasses import replace

from protodsl.decide.plan import REFER, Plan
from protodsl.handout.blocks import Footer, Handout, Masthead, Section
from protodsl.handout.draft import Draft
from protodsl.handout.needs import things
from protodsl.handout.options import Options
from protodsl.handout.person.charts import charts
from protodsl.handout.person.corrections import corrections
from protodsl.handout.person.dates import dated
from protodsl.handout.person.flags import flags, told
from protodsl.handout.person.loads import loads
from protodsl.handout.person.masthead import next_visit, phase_number
from protodsl.handout.person.moves import moves
from protodsl.handout.person.progress import progress
from protodsl.handout.person.questions import questions
from protodsl.handout.person.reasons import left_out, printed
from protodsl.handout.person.sums import sums
from protodsl.handout.person.today import drafted
from protodsl.handout.person.voice import side_of, spoken
from protodsl.handout.phrase import AUTHOR, Listed, Literal, Phrase, Written
from protodsl.handout.places import files
from protodsl.handout.words import number, one_after_the_other, say
from protodsl.model.clinic import Clinic


def compose_case_page(plan: Plan, clinic: Clinic, options: Options, previous: Plan | None = None) -> Handout[Phrase]:
    """The parts in order; `previous` is what was decided for the last sheet, whose sums stand beside today's."""
    on = replace(drafted(plan, clinic, options), protocol=plan.protocol)
    found: tuple[Section[Phrase] | None, ...] = (
        questions(plan, on),
        told(plan, on),
        flags(plan, on),
        left_out(plan, on),
        printed(plan, on),
        moves(plan, on),
        progress(plan, on),
        loads(plan, on),
        charts(plan),
        *sums(plan, on, previous),
        corrections(plan, on),
    )
    sections = tuple(section for section in found if section is not None)
    title = say("case.title", case=Literal(plan.case.id))
    left = (title, say("footer.version", version=Literal(plan.protocol.version)))
    page = say("footer.page", page=Literal("{page}"), pages=Literal("{pages}"))
    footer = Footer(left, say("clinician.not-for-patient"), page)
    handout = Handout("clinician", title, _masthead(plan, on, title), sections, footer, options.digest)
    return spoken(handout, plan.side.worse)


def _masthead(plan: Plan, on: Draft, title: Phrase) -> Masthead[Phrase]:
    """Which protocol, as of when, for which period; what is known of the person; what the short names stand for."""
    protocol, case = plan.protocol, plan.case
    said = [
        say("about.protocol", name=Literal(protocol.name, AUTHOR)),
        say("masthead.version", version=Literal(protocol.version)),
        say("case.as-of", date=dated(plan.as_of), started=dated(case.started)),
    ]
    lines = [one_after_the_other(*said), one_after_the_other(*_person(plan, on))]
    if plan.refused:
        lines.append(say("case.refer" if plan.refused == REFER else "case.unanswered"))
    else:
        period = say("person.period", first=dated(plan.first), last=dated(plan.last))
        lines.append(one_after_the_other(period, next_visit(plan)))
    key = files(on)
    if key is not None:
        lines.append(key)
    if on.options.digest:
        lines.append(say("about.digest", digest=Literal(on.options.digest)))
    return Masthead(Literal(on.clinic.name), say("clinician.for"), title, tuple(lines))


def _person(plan: Plan, on: Draft) -> list[Phrase]:
    """The side, the phase, and what the person has."""
    side = plan.side
    if side.worse is None:
        found = [say("case.side.none")]
    else:
        found = [say("case.side.both" if side.both else "case.side", side=side_of(side.worse))]
    if plan.phase is not None and plan.phase_since is not None:
        title = Written(plan.phase.title)
        found.append(say("case.phase", number=number(phase_number(plan)), title=title, date=dated(plan.phase_since)))
    has = plan.case.has
    if has is None:
        found.append(say("case.has.unsaid"))
    elif has:
        found.append(say("case.has", things=Listed(tuple(things(on, (name,)) for name in has))))
    else:
        found.append(say("case.has.none"))
    return found
