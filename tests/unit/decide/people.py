"""Findings, answers and conditions from text, for tests that decide."""

from __future__ import annotations

from collections.abc import Mapping
from datetime import date

from protodsl.decide.evaluate import Verdict, evaluate
from protodsl.decide.terms import Moment
from protodsl.decide.truth import NO, YES, Truth
from protodsl.decide.values import ANSWER, Values
from protodsl.model.case import Affected, Observation, Value
from protodsl.model.condition import Condition
from protodsl.model.finding import Finding
from protodsl.model.protocol import Entry
from tests.support import entry

DAY = date(2026, 11, 2)


def condition_of(text: str, written: str) -> tuple[Condition, Mapping[str, Finding]]:
    """A condition over the findings that `text` declares, and those findings."""
    found: Entry = entry(f"{text}\nexercise practice\n  do\n    Stand.\n  caution if {written}\n    Take care.\n")
    return found.scope.exercises["practice"].caution[0].condition, found.scope.findings


def moment(findings: Mapping[str, Finding], today: date = DAY, side: Affected | None = None) -> Moment:
    """A moment at which nothing is known yet."""
    return Moment(today, DAY, DAY, side or Affected("right"), findings, Values())


def said(at: Moment, finding: str, value: Value, side: str | None = None, day: date = DAY) -> None:
    """Something that was answered on a day."""
    at.values.record(Observation(finding, side, value, day), ANSWER)


def decided(condition: Condition, at: Moment) -> Verdict:
    """The verdict, the same whichever way it leans, since one value stands for each finding."""
    strict, loose = evaluate(condition, at, NO), evaluate(condition, at, YES)
    assert strict == loose
    return strict


TRUTHS: Mapping[bool | None, Truth] = {True: Truth.YES, False: Truth.NO, None: Truth.UNKNOWN}
