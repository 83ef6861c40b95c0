"""Every page of the demo clinic as a handout in words, made without any renderer."""

from __future__ import annotations

from collections.abc import Iterator
from datetime import date
from functools import cache
from pathlib import Path

from protodsl import handout, localise
from protodsl.asked import Asked, style
from protodsl.case_checking import check_cases
from protodsl.case_compiler import decide_case
from protodsl.compiler import open_run
from protodsl.handout.blocks import Handout
from protodsl.handout.options import Options
from protodsl.handout.person import compose_case_page, compose_person
from protodsl.handout.phrase import Phrase
from protodsl.model.protocol import Scope
from protodsl.project import open_project
from protodsl.render import Style
from tests.unit.handout.demo import PROTOCOLS, ROOT

AS_OF = date(2026, 11, 25)


@cache
def demo_pages() -> dict[str, tuple[Handout[str], Style]]:
    """The pages by name: sheet, clinician's page and questions of each protocol, both pages of each case."""
    project = open_project(ROOT)
    look = style(project, Asked())
    found: dict[str, tuple[Handout[str], Style]] = {}
    for name, composed, scope in (*_of_protocols(), *_of_cases()):
        page = localise.localise(composed, scope, project.clinic, "en").value
        assert page is not None, name
        found[name] = (page, look)
    return found


def _of_protocols() -> Iterator[tuple[str, Handout[Phrase], Scope]]:
    run = open_run(open_project(ROOT), AS_OF)
    options = Options(digest="0123456789abcdef", version="1")
    for path in PROTOCOLS:
        entry = run.entry(path.name)
        for one in entry.value.protocols if entry.value else ():
            clinic = run.project.clinic
            yield f"{one.name}, sheet", handout.compose_sheet(one, clinic, options), one.scope
            page = handout.compose_clinician(one, clinic, entry.diagnostics, Options(sources=run.sources()))
            yield f"{one.name}, clinician", page, one.scope
            yield f"{one.name}, questions", handout.compose_questions(one, clinic, options), one.scope


def _of_cases() -> Iterator[tuple[str, Handout[Phrase], Scope]]:
    run = open_run(open_project(ROOT), AS_OF)
    for path in sorted(Path(ROOT, "cases").glob("*.case")):
        for case in check_cases(f"cases/{path.name}", run):
            assert case.person is not None
            decided = decide_case(case.person, run).value
            assert decided is not None
            plan, scope = decided.plan, decided.plan.protocol.scope
            options = Options(digest="0123456789abcdef", version="1", sources=run.sources())
            sheet = compose_person(plan, run.project.clinic, options, decided.previous)
            if sheet is not None:
                yield f"{case.id}, sheet", sheet, scope
            yield f"{case.id}, clinician", compose_case_page(plan, run.project.clinic, options, decided.previous), scope
