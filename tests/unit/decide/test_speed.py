"""Six weeks of daily sessions are decided in 20 ms once parsed, and the cost grows with the sessions, no faster.

Time of the processor, the best of several runs, so that a busy machine changes little.
"""

from __future__ import annotations

import time
from datetime import date, timedelta
from pathlib import Path

from protodsl.decide import decide
from protodsl.resolve import Cache
from protodsl.resolve.case import Person, resolve_case
from protodsl.resolve.case_protocol import protocols_in
from protodsl.source import Source
from protodsl.syntax import parse_case
from tests.support import Shelf
from tests.unit.decide.cases import CLINIC

DEMO = Path(__file__).resolve().parents[3] / "protocols_demo"
START = date(2026, 11, 2)


def case_of(days: int) -> Person:
    """A person with an ankle sprain and a session on each of so many days, with the usual answers every week."""
    texts = {path.relative_to(DEMO).as_posix(): path.read_text("utf-8") for path in DEMO.rglob("*.protocol")}
    shelf = Shelf(texts)
    (followed,) = protocols_in("ankle-sprain.protocol", shelf, Cache())
    no = [
        name
        for name, one in followed.scope.findings.items()
        if one.role != "finding" and one.answer.kind.name == "YES_NO"
    ]
    lines = [f"case P-0417\n  protocol {followed.protocol.name}, version {followed.protocol.version}"]
    lines.append(f"  started {START}\n  language en\n  side right\n  has step, wall, chair, towel, band")
    for number in range(days):
        day = START + timedelta(days=number)
        if number % 7 == 0:
            lines.append(f"  on {day}\n    no: {', '.join(no)}")
            lines.append(f"    heel raises: left 22, right {min(22, 5 + number // 3)}")
            lines.append(f"    knee-to-wall: left 11 cm, right {6 + number // 14} cm")
        lines.append(f"  session {day}: as given, pain {number % 4}, pain next morning {number % 3}")
    parsed = parse_case(Source("p.case", "\n".join(lines) + "\n")).value
    assert parsed is not None
    person = resolve_case(parsed, lambda _: (followed,)).value
    assert person is not None
    return person


def milliseconds(person: Person) -> float:
    """The least time that deciding takes."""
    best = float("inf")
    for _ in range(7):
        before = time.process_time()
        decide(person.versions, person.case, CLINIC)
        best = min(best, time.process_time() - before)
    return best * 1000


def test_six_weeks_of_daily_sessions() -> None:
    person = case_of(42)
    assert len(person.case.sessions) == 42
    taken = milliseconds(person)
    assert taken <= 20, taken


def test_the_cost_grows_with_the_sessions_no_faster() -> None:
    """Four times as many sessions take less than six times as long."""
    short, long = milliseconds(case_of(42)), milliseconds(case_of(168))
    assert long < 6 * short, (short, long)
