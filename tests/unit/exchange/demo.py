"""The demo's protocols and cases as what is handed on is made from, and the same cases with a danger sign."""

from __future__ import annotations

from dataclasses import replace
from datetime import date
from functools import cache
from pathlib import Path

from protodsl.case_checking import check_cases
from protodsl.case_compiler import Decided, decide_case
from protodsl.compiler import check_files, open_run
from protodsl.decide import decide
from protodsl.decide.plan import REFER, UNANSWERED, Plan
from protodsl.exchange.export import export_plan, export_protocol
from protodsl.handout import Options
from protodsl.model.case import Observation
from protodsl.model.clinic import Clinic
from protodsl.model.protocol import Protocol
from protodsl.project import open_project
from protodsl.resolve.case import Person
from protodsl.run import Run

DEMO = Path(__file__).resolve().parents[3] / "protocols_demo"
AS_OF = date(2026, 11, 25)
CASES = ("P-0417", "P-0423", "P-0431", "P-0438")
DATA = ("ics", "csv", "json", "fhir-r5", "fhir-r4b")


@cache
def run() -> Run:
    """The demo with every file read once."""
    opened = open_run(open_project(DEMO), AS_OF)
    check_files(opened, [DEMO], with_cases=False)
    return opened


@cache
def person(case: str) -> Person:
    """One of the demo's people."""
    found = next(check_cases(f"cases/{case}.case", run()))
    assert found.person is not None
    return found.person


@cache
def decided(case: str) -> Decided:
    """What is decided for one of the demo's people today, and what was for the sheet before."""
    made = decide_case(person(case), run()).value
    assert made is not None
    return made


@cache
def refused(case: str, why: str) -> Plan:
    """The plan of a case whose first danger sign is answered with yes today, or with not known, and decided anew."""
    who = person(case)
    finding = decided(case).plan.emergencies[0].deciding[0].finding
    value = {REFER: True, UNANSWERED: None}[why]
    answer = Observation(finding, None, value, decided(case).plan.as_of)
    kept = tuple(one for one in who.case.observations if (one.finding, one.date) != (finding, answer.date))
    made = decide(who.versions, replace(who.case, observations=(*kept, answer)), clinic()).value
    assert made is not None and made.refused == why
    return made


@cache
def protocols() -> dict[str, Protocol]:
    """The demo's protocols by name."""
    entries = (run().entry(path.name) for path in sorted(DEMO.glob("*.protocol")))
    return {one.name: one for entry in entries if entry.value for one in entry.value.protocols}


def clinic() -> Clinic:
    """The clinic of the demo."""
    return run().project.clinic


def options() -> Options:
    """What is handed on, in English."""
    return Options(digest="12345-67890", version="0.1.0", sources=run().sources())


def plan_file(form: str, plan: Plan, previous: Plan | None = None) -> bytes | None:
    """A plan in a format."""
    return export_plan(form, plan, clinic(), options(), previous).value


def case_file(form: str, case: str) -> bytes:
    """A demo case in a format."""
    made = plan_file(form, decided(case).plan, decided(case).previous)
    assert made is not None
    return made


def protocol_file(form: str, name: str) -> bytes:
    """A demo protocol in a format."""
    made = export_protocol(form, protocols()[name], clinic(), options()).value
    assert made is not None
    return made
