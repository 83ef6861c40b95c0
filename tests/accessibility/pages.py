"""Every page that the demo clinic can make, in every language, form and kind, composed when it is asked for."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, replace
from datetime import date
from functools import cache
from pathlib import Path
from typing import Any

from protodsl import handout, localise
from protodsl.asked import Asked, options_of, style
from protodsl.case_checking import CheckedCase, check_cases
from protodsl.case_compiler import Decided, decide_case
from protodsl.compiler import open_run
from protodsl.decide.plan import REFER
from protodsl.formats import CLINICIAN, QUESTIONS, SHEET
from protodsl.handout.blocks import Handout, Picture
from protodsl.handout.person import compose_case_page, compose_person, compose_referral
from protodsl.handout.phrase import Phrase
from protodsl.model.protocol import Protocol, Scope
from protodsl.pictured import Pictured
from protodsl.project import open_project
from protodsl.render import Style
from protodsl.run import Run

DEMO = Path(__file__).parents[2] / "protocols_demo"
# Every review date of the demo lies after this day.
DAY = date(2026, 11, 25)
REFERRAL = "referral"
# A danger sign of the protocol that this case follows, answered with yes on the day of the sheet.
REFERRED = ("P-0423", "    yes: fever\n")
USUAL, LARGE, COMPACT, LETTER = "usual", "large", "compact", "letter"
FORMS = {
    USUAL: Asked(),
    LARGE: Asked(large_print=True),
    COMPACT: Asked(compact=True),
    LETTER: Asked(paper="Letter"),
}
PROTOCOL_KINDS, CASE_KINDS = (SHEET, CLINICIAN, QUESTIONS), (SHEET, CLINICIAN)


@dataclass(frozen=True, slots=True)
class Wanted:
    """One page: of which protocol or case, of which kind, in which language and form, with figures or without."""

    subject: str
    kind: str = SHEET
    language: str = "en"
    form: str = USUAL
    figures: bool = False

    @property
    def name(self) -> str:
        """What it is called in a list of tests."""
        parts = [self.subject, self.kind, self.language, self.form]
        return ", ".join((*parts, "figures") if self.figures else parts)

    @property
    def asked(self) -> Asked:
        """The same as the command line asks for it; what is no English is a draft, as nobody has reviewed it."""
        kind = SHEET if self.kind == REFERRAL else self.kind
        return replace(FORMS[self.form], kind=kind, language=self.language, draft=self.language != "en")


def protocols() -> tuple[str, ...]:
    """The names of the demo's protocols."""
    return tuple(_protocols())


def cases() -> tuple[str, ...]:
    """The ids of the demo's cases."""
    return tuple(sorted(path.stem for path in DEMO.glob("cases/*.case")))


def languages() -> tuple[str, ...]:
    """The languages that the product has words for and the shipped fonts letters: Chinese needs fonts besides."""
    return tuple(one for one in localise.languages() if not one.startswith("zh"))


def subjects() -> Iterator[tuple[str, str]]:
    """Every page of the demo in the clinic's own language: whose it is, and its kind."""
    yield from ((name, kind) for name in protocols() for kind in PROTOCOL_KINDS)
    yield from ((name, kind) for name in cases() for kind in CASE_KINDS)
    yield REFERRED[0], REFERRAL


def every_page() -> Iterator[Wanted]:
    """The whole matrix: subjects, languages, forms, and figures where the page shows any."""
    for language in languages():
        for form in FORMS:
            for subject, kind in subjects():
                yield Wanted(subject, kind, language, form)
                if kind == SHEET:
                    yield Wanted(subject, kind, language, form, figures=True)


def made(wanted: Wanted) -> tuple[Handout[str], Style]:
    """The page in its words, and how it is set."""
    run, asked = _run(), wanted.asked
    if wanted.subject in cases():
        composed, scope, files = _of_case(wanted, run)
    else:
        composed, scope, files = _of_protocol(wanted, run)
    words = run.words(asked, files)
    clinic = run.project.clinic
    spoken = localise.speak(composed, scope, clinic, asked.language, words.texts, words.written_in)
    assert spoken.value is not None, [one.message for one in spoken.diagnostics]
    page, look = spoken.value.page, style(run.project, asked)
    if asked.draft:
        page = localise.as_draft(page, look.language, asked.language, clinic.languages[0])
    return page, look


def has_pictures(page: Handout[str]) -> bool:
    """Whether an exercise of the page shows a picture."""
    blocks = (block for section in page.sections for block in section.blocks)
    return any(isinstance(getattr(block, "picture", None), Picture) for block in blocks)


@cache
def _run() -> Run:
    return open_run(open_project(DEMO), DAY)


@cache
def _referred() -> tuple[Run, CheckedCase]:
    case, line = REFERRED
    path = f"cases/{case}.case"
    text = (DEMO / path).read_text(encoding="utf-8")
    before, day, after = text.rpartition("  on 2026-11-25\n")
    answered = before + day + line + after.replace("fever, ", "", 1)
    run = open_run(open_project(DEMO), DAY, {path: answered.encode()})
    return run, next(check_cases(path, run))


@cache
def _protocols() -> dict[str, tuple[Protocol, Any]]:
    entries = [_run().entry(path.name) for path in sorted(DEMO.glob("*.protocol"))]
    return {one.name: (one, entry) for entry in entries if entry.value for one in entry.value.protocols}


@cache
def _decided(case: str, kind: str) -> tuple[Decided, CheckedCase]:
    if kind == REFERRAL:
        run, checked = _referred()
    else:
        run = _run()
        checked = next(check_cases(f"cases/{case}.case", run))
    assert checked.person is not None, checked.diagnostics
    decided = decide_case(checked.person, run).value
    assert decided is not None
    return decided, checked


def _of_protocol(wanted: Wanted, run: Run) -> tuple[Handout[Phrase], Scope, tuple[str, ...]]:
    protocol, entry = _protocols()[wanted.subject]
    pictured = run.pictured(protocol, wanted.asked) if wanted.figures else Pictured()
    options = options_of(wanted.asked, "0123456789abcdef", run.sources(), pictured)
    clinic = run.project.clinic
    if wanted.kind == CLINICIAN:
        composed = handout.compose_clinician(protocol, clinic, entry.diagnostics, options)
    elif wanted.kind == QUESTIONS:
        composed = handout.compose_questions(protocol, clinic, options)
    else:
        composed = handout.compose_sheet(protocol, clinic, options)
    return composed, protocol.scope, entry.value.files


def _of_case(wanted: Wanted, run: Run) -> tuple[Handout[Phrase], Scope, tuple[str, ...]]:
    decided, checked = _decided(wanted.subject, wanted.kind)
    plan, clinic = decided.plan, run.project.clinic
    pictured = run.pictured_for(plan, wanted.asked) if wanted.figures else Pictured()
    options = options_of(wanted.asked, "0123456789abcdef", run.sources(), pictured)
    composed: Handout[Phrase] | None
    if wanted.kind == CLINICIAN:
        composed = compose_case_page(plan, clinic, options, decided.previous)
    elif wanted.kind == REFERRAL:
        assert plan.refused == REFER
        composed = compose_referral(plan, clinic, options)
    else:
        composed = compose_person(plan, clinic, options, decided.previous)
    assert composed is not None
    assert checked.entry is not None and checked.entry.value is not None
    return composed, plan.protocol.scope, (checked.path, *checked.entry.value.files)
