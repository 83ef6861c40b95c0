"""Every stage of one person's case in order: from the case file to the plan of a date, and on to its pages."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field, replace
from datetime import date

from protodsl import exchange, handout
from protodsl.asked import Asked, inputs_of, options_of
from protodsl.case_checking import CheckedCase
from protodsl.decide import decide, decide_twice, latest_date
from protodsl.decide.plan import REFER, UNANSWERED, Plan
from protodsl.diagnostics.cases import nothing_left
from protodsl.diagnostics.diagnostic import Severity, in_order
from protodsl.diagnostics.translation import referral_in_own_language
from protodsl.formats import CASE, CLINICIAN, DATA, HANDOUT, HTML, SHEET, made_for
from protodsl.handout.blocks import Handout
from protodsl.handout.person import compose_case_page, compose_person, compose_referral
from protodsl.handout.phrase import Phrase
from protodsl.languages import Words
from protodsl.outcome import Outcome
from protodsl.pages import data_forms, make_pages, sources_of, translation, with_data
from protodsl.pictured import Pictured
from protodsl.project import CLINIC_FILE
from protodsl.render import SUPPLEMENT, Attachment
from protodsl.resolve.case import Person
from protodsl.run import Run

__all__ = ["REFER", "UNANSWERED", "Decided", "MadeCase", "decide_case", "make_case", "previous_date", "unanswered"]


@dataclass(frozen=True, slots=True)
class Decided:
    """What was decided for a person, and what had been for the sheet before (None: this one is the first)."""

    plan: Plan
    previous: Plan | None = None


@dataclass(frozen=True, slots=True)
class MadeCase:
    """The pages of one case by kind (SHEET, CLINICIAN) and format; `refused` as in the plan, then there is no sheet.

    Where `refused` is REFER the page of kind SHEET is the referral page, and it is the only one.
    """

    refused: str = ""
    pages: Mapping[str, Mapping[str, bytes]] = field(default_factory=dict)
    unanswered: tuple[str, ...] = ()


def decide_case(person: Person, run: Run, as_of: date | None = None, since: date | None = None) -> Outcome[Decided]:
    """The plan as of a date (None: the latest of the case); `since` is the date of the sheet before."""
    case, clinic = person.case, run.project.clinic
    today = as_of or latest_date(case)
    before = since or previous_date(person, today)
    if before is None or before >= today:
        alone = decide(person.versions, case, clinic, today)
        previous = decide(person.versions, case, clinic, before).value if before is not None and alone.value else None
        return Outcome(Decided(alone.value, previous) if alone.value else None, alone.diagnostics)
    decided, earlier = decide_twice(person.versions, case, clinic, today, before)
    return Outcome(Decided(decided.value, earlier.value) if decided.value else None, decided.diagnostics)


def previous_date(person: Person, today: date) -> date | None:
    """The visit before: the last date before today on which answers were written down; None where there is none."""
    case = person.case
    days = {one.date for one in case.observations if not one.corrects} | {one.date for one in case.chosen}
    return max((day for day in days if case.started <= day < today), default=None)


def make_case(
    checked: CheckedCase,
    run: Run,
    asked: Mapping[str, Asked],
    as_of: date | None = None,
    since: date | None = None,
) -> Outcome[MadeCase]:
    """The pages of one case, as `asked` says for each kind that is wanted; None where it cannot be decided.

    The referral page is made whatever is wanted, in the formats of the first that is, one to be read among them.
    """
    assert checked.person is not None
    decided = decide_case(checked.person, run, as_of, since)
    if decided.value is None:
        return Outcome(None, decided.diagnostics)
    plan = decided.value.plan
    said = decided.diagnostics
    if not plan.items and not plan.refused:
        said += (nothing_left(plan.case.id, plan.as_of, plan.case.span),)
    pages: dict[str, Mapping[str, bytes]] = {}
    if plan.refused == REFER:
        asked = {SHEET: _to_be_read(asked.get(SHEET) or next(iter(asked.values())))}
    for kind, wanted in asked.items():
        made = _page(kind, decided.value, checked, run, wanted)
        if made is not None:
            said += made.diagnostics
            pages[kind] = made.value or {}
    return Outcome(MadeCase(plan.refused, pages, unanswered(plan)), in_order(said))


def _to_be_read(asked: Asked) -> Asked:
    """The same, with a format that somebody can read: a referral has to reach a person."""
    readable = made_for(asked.formats, SHEET, CASE, HANDOUT)
    return replace(asked, kind=SHEET, formats=asked.formats if readable else (*asked.formats, HTML))


def unanswered(plan: Plan) -> tuple[str, ...]:
    """The findings that an emergency or a red flag waits for."""
    flags = (*plan.emergencies, *plan.red_flags)
    return tuple(dict.fromkeys(one.finding for flag in flags for one in flag.unknown))


def _page(
    kind: str, decided: Decided, checked: CheckedCase, run: Run, asked: Asked
) -> Outcome[dict[str, bytes]] | None:
    """One page; None where the plan has none of this kind."""
    plan, clinic = decided.plan, run.project.clinic
    files = checked.entry.value.files if checked.entry and checked.entry.value else ()
    words = run.words(asked, (checked.path, *files))
    pictured = run.pictured_for(plan, asked)
    digest = _digest(kind, decided, checked, run, asked, words, pictured)
    options = options_of(asked, digest, run.sources(), pictured)
    composed: Handout[Phrase] | None
    if kind == CLINICIAN:
        composed = compose_case_page(plan, clinic, options, decided.previous)
    elif plan.refused == REFER:
        composed = compose_referral(plan, clinic, options)
    else:
        composed = compose_person(plan, clinic, options, decided.previous)
    if composed is None and not made_for(asked.formats, kind, CASE, DATA):
        return None
    pages: Outcome[dict[str, bytes]] = Outcome({})
    if composed is not None:
        attached = _attached(kind, decided, checked, run, asked, words, options)
        pages = make_pages(composed, plan.protocol.scope, run.project, asked, words, CASE, attached)
    own = clinic.languages[0]
    if plan.refused == REFER and not pages.value and asked.language != own:
        # A page that sends somebody to be seen today is not kept back for want of words: whoever holds it reads it out.
        there = _page(kind, decided, checked, run, replace(asked, language=own))
        assert there is not None, "the referral page is there in every language"
        said = tuple(referral_in_own_language(one, own) for one in pages.diagnostics if one.severity is Severity.ERROR)
        return Outcome(there.value, (*said, *there.diagnostics))
    forms = data_forms(asked, CASE, words, pages)
    told = translation(words)
    return with_data(
        pages, forms, lambda name: exchange.export_plan(name, plan, clinic, options, decided.previous, told)
    )


def _attached(
    kind: str, decided: Decided, checked: CheckedCase, run: Run, asked: Asked, words: Words, options: handout.Options
) -> tuple[Attachment, ...]:
    """What stands inside a PDF to be kept: the protocol as written, and with a person's sheet the calendar.

    Nothing of the case itself. A page without exercises holds nothing that has any.
    """
    plan = decided.plan
    if not asked.archive or plan.refused or checked.entry is None:
        return ()
    attached = sources_of(asked, checked.entry, run.sources())
    if kind != SHEET or asked.draft or asked.beside:
        return attached
    made = exchange.export_plan("ics", plan, run.project.clinic, options, decided.previous, translation(words)).value
    return attached if made is None else (*attached, Attachment(f"{checked.id}.ics", "text/calendar", SUPPLEMENT, made))


def _digest(
    kind: str, decided: Decided, checked: CheckedCase, run: Run, asked: Asked, words: Words, pictured: Pictured
) -> str:
    files = (*(checked.entry.value.files if checked.entry and checked.entry.value else ()), CLINIC_FILE, checked.path)
    sources = run.sources()
    texts = {path: sources[path].text for path in files if path in sources} | dict(words.sources)
    inputs = {
        "kind": kind,
        "case": checked.id,
        "as of": decided.plan.as_of.isoformat(),
        "since": decided.previous.as_of.isoformat() if decided.previous else "",
        **inputs_of(asked, run.templates(asked)),
        **pictured.inputs,
    }
    return handout.digest(texts, inputs)
