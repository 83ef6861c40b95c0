"""The pages of random people: they are always made, keep every safety line, and their minutes add up.

A run in CI is small; `PROTODSL_DECIDED=10000 python -m pytest tests/properties/test_person_pages.py` makes as many.
"""

from __future__ import annotations

import os
import re
from collections import Counter
from collections.abc import Iterator
from datetime import timedelta
from random import Random

from protodsl.decide import Plan, decide, latest_date
from protodsl.decide.plan import REFER, UNANSWERED
from protodsl.decide.truth import NO
from protodsl.handout import Options, safety_items
from protodsl.handout.blocks import Diary, ExerciseCard, Handout, Table
from protodsl.handout.person import compose_case_page, compose_person, compose_referral
from protodsl.handout.phrase import Phrase
from protodsl.localise import localise
from protodsl.model.case import Case, Versions
from protodsl.model.clinic import Clinic, Contact
from protodsl.model.protocol import Protocol
from protodsl.render import Style, html
from protodsl.source import Source
from tests.properties.random_cases import history
from tests.properties.test_decide import WEIGHTS, protocol_of
from tests.unit.handout.person.plans import strings
from tests.unit.handout.person.test_safety import missing

MANY = int(os.environ.get("PROTODSL_DECIDED", "150"))
SEED = int(os.environ.get("PROTODSL_SEED", "0"))
CLINIC = Clinic("Alder Quay", "", Contact("Call the ambulance", "112"), Contact("Call us", "555 0100"), weights=WEIGHTS)
_HISTORIES = 10


def test_pages_of_random_people() -> None:
    """Each kind of outcome is met, and for each just the pages that belong to it are made."""
    seen: Counter[str] = Counter()
    for seed in range(SEED, SEED + MANY // _HISTORIES):
        random = Random(seed)
        protocol, text = protocol_of(random)
        for _ in range(_HISTORIES):
            case = history(protocol, random)
            seen[_pages(protocol, case, text)] += 1
    assert seen["sheet"] and seen[REFER] and seen[UNANSWERED] and sum(seen.values()) == MANY // _HISTORIES * _HISTORIES


def _pages(protocol: Protocol, case: Case, text: str) -> str:
    versions, today = Versions(((case.started, protocol),)), latest_date(case)
    plan = decide(versions, case, CLINIC, today).value
    if plan is None:
        return "error"
    before = decide(versions, case, CLINIC, today - timedelta(7)).value
    options = Options(sources={"input.protocol": Source("input.protocol", text), "": Source("", "")})
    page = _words(compose_case_page(plan, CLINIC, options, before), plan)
    assert html(page, Style()).diagnostics == ()
    sheet, referral = compose_person(plan, CLINIC, options, before), compose_referral(plan, CLINIC, options)
    assert (sheet is not None, referral is not None) == (not plan.refused, plan.refused == REFER)
    if referral is not None:
        _names_no_exercise(_words(referral, plan), plan)
    if sheet is not None:
        assert missing(plan, CLINIC, options) == set()
        _sheet(sheet, plan)
    return plan.refused or "sheet"


def _words(page: Handout[Phrase], plan: Plan) -> Handout[str]:
    words = localise(page, plan.protocol.scope, CLINIC, "en")
    assert words.value is not None
    return words.value


def _names_no_exercise(page: Handout[str], plan: Plan) -> None:
    said = " ".join(strings(page)).lower()
    for name in (*plan.protocol.scope.exercises, *plan.protocol.scope.progressions):
        assert not re.search(rf"\b{re.escape(name.lower())}\b", said)


def _sheet(sheet: Handout[Phrase], plan: Plan) -> None:
    page = _words(sheet, plan)
    assert html(page, Style()).diagnostics == ()
    ids = [item.safety for item in safety_items(sheet)]
    assert len(ids) == len(set(ids))
    cards = [block for block in _blocks(page) if isinstance(block, ExerciseCard)]
    assert [card.id for card in cards] == [item.exercise.name for item in plan.items]
    for item in plan.items:
        # Nothing that somebody's answers forbid, or may forbid, is printed.
        assert {one.truth for one in item.avoids} <= {NO}
    for table in (block for block in _blocks(page) if isinstance(block, Table) and block.kind == "week"):
        for day in plan.week:
            column = [row[day.weekday + 1].text for row in table.rows]
            assert sum(int(cell) for cell in column if cell.isdigit()) == int(table.foot[day.weekday + 1].text)
    planned = {day for item in plan.items if not item.supervised for day in item.dates}
    for diary in (block for block in _blocks(page) if isinstance(block, Diary)):
        boxes = [bool(due) for week in diary.weeks for _, due in week.days]
        dates = [plan.first + timedelta(at) for at in range((plan.last - plan.first).days + 1)]
        assert boxes == [day in planned for day in dates]


def _blocks(page: Handout[str]) -> Iterator[object]:
    for section in page.sections:
        yield from section.blocks
