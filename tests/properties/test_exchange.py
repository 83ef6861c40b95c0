"""What is handed on of random people: by its standard, and without an exercise where a danger sign stands against it.

A run in CI is small; `PROTODSL_DECIDED=5000 python -m pytest tests/properties/test_exchange.py` makes as many.
"""

from __future__ import annotations

import json
import os
import re
from collections import Counter
from datetime import timedelta
from random import Random
from typing import Any

import icalendar
from fhir.resources.bundle import Bundle
from fhir.resources.R4B.bundle import Bundle as BundleR4B

from protodsl.decide import Plan, decide, latest_date
from protodsl.decide.plan import REFER, UNANSWERED
from protodsl.exchange.export import export_plan, export_protocol
from protodsl.handout import Options
from protodsl.model.case import Versions
from protodsl.model.protocol import Protocol
from protodsl.source import Source
from tests.properties.random_cases import history
from tests.properties.test_decide import protocol_of
from tests.properties.test_person_pages import CLINIC
from tests.unit.exchange import fhir_rules as standard
from tests.unit.exchange import test_json, test_table

MANY = int(os.environ.get("PROTODSL_DECIDED", "36"))
SEED = int(os.environ.get("PROTODSL_SEED", "0"))
_HISTORIES = 6
_FHIR: dict[str, tuple[Any, str]] = {"fhir-r5": (Bundle, "r5"), "fhir-r4b": (BundleR4B, "r4b")}


def test_what_is_handed_on_of_random_people() -> None:
    """Each kind of outcome is met, and every format of each keeps its standard."""
    seen: Counter[str] = Counter()
    for seed in range(SEED, SEED + MANY // _HISTORIES):
        random = Random(seed)
        protocol, text = protocol_of(random)
        options = Options(digest="1-2", version="1", sources={"input.protocol": Source("input.protocol", text)})
        _of_protocol(protocol, options)
        for _ in range(_HISTORIES):
            case = history(protocol, random)
            versions, today = Versions(((case.started, protocol),)), latest_date(case)
            plan = decide(versions, case, CLINIC, today).value
            if plan is None:
                seen["error"] += 1
                continue
            _of_plan(plan, decide(versions, case, CLINIC, today - timedelta(7)).value, options)
            seen[plan.refused or "sheet"] += 1
    assert seen["sheet"] and seen[REFER] and seen[UNANSWERED]


def _of_protocol(protocol: Protocol, options: Options) -> None:
    made = {form: export_protocol(form, protocol, CLINIC, options).value for form in ("csv", "json", *_FHIR)}
    assert test_table.read(made["csv"] or b"")
    assert test_json.faults("protocol", json.loads(made["json"] or b"")) == []
    for form in _FHIR:
        _bundle(made[form], form)


def _of_plan(plan: Plan, before: Plan | None, options: Options) -> None:
    forms = ("ics", "csv", "json", *_FHIR)
    made = {form: export_plan(form, plan, CLINIC, options, before).value for form in forms}
    assert test_json.faults("plan", json.loads(made["json"] or b"")) == []
    for form in _FHIR:
        _bundle(made[form], form)
    if plan.refused:
        assert made["ics"] is made["csv"] is None
        told = (made["json"] or b"") + (made["fhir-r5"] or b"") + (made["fhir-r4b"] or b"")
        titles = {one.title.text for one in plan.protocol.scope.exercises.values()}
        assert not [title for title in titles if re.search(rf"\b{re.escape(title)}\b", told.decode())]
        return
    calendar: Any = icalendar.Calendar.from_ical(made["ics"] or b"")
    days = {day for item in plan.items if not item.supervised for day in item.dates}
    assert {one["DTSTART"].dt for one in calendar.events if str(one["SUMMARY"]).startswith("Exercise ")} <= days
    exercises = [one for one in calendar.events if str(one["SUMMARY"]).startswith(("Exercise ", "Exercises "))]
    assert {one["DTSTART"].dt for one in exercises} == days
    rows = test_table.read(made["csv"] or b"") if plan.items else []
    assert [row["exercise"] for row in rows if row["from"] == plan.first.isoformat()] == [
        item.exercise.name for item in plan.items
    ]


def _bundle(data: bytes | None, form: str) -> None:
    library, release = _FHIR[form]
    bundle = json.loads(data or b"")
    library.model_validate(bundle)
    assert standard.wrong_codes(bundle, release) == []
    assert standard.broken_invariants(bundle) == []
    assert standard.broken_references(bundle) == []
