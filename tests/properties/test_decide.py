"""Random protocols and histories decided the same by the product and by a plain reading of the rules.

A run in CI is small; `PROTODSL_DECIDED=100000 python -m pytest tests/properties/test_decide.py -k many` compares as
many pairs of a protocol and a history as it says, from seeds in order beginning with `PROTODSL_SEED`.
"""

from __future__ import annotations

import datetime
import os
from collections import Counter
from collections.abc import Iterator
from dataclasses import replace
from decimal import Decimal
from random import Random
from typing import Any

from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from protodsl.decide import Plan, decide, latest_date
from protodsl.decide.decide import decide_twice
from protodsl.decide.truth import Truth
from protodsl.model.case import Case, Versions
from protodsl.model.clinic import Clinic, Contact
from protodsl.model.protocol import Protocol
from protodsl.outcome import Outcome
from tests.properties.oracle import Oracle
from tests.properties.random_cases import changed_text, history, protocol_text
from tests.support import compiled

WEIGHTS = tuple(Decimal(number) for number in ("1", "2", "2.5", "5", "7.5", "10", "12.5"))
CLINIC = Clinic("Alder Quay", "", Contact("", "112"), Contact("", "555 0100"), weights=WEIGHTS)
MANY = int(os.environ.get("PROTODSL_DECIDED", "400"))
SEED = int(os.environ.get("PROTODSL_SEED", "0"))
HISTORIES = 10


def protocol_of(random: Random) -> tuple[Protocol, str]:
    """A protocol that has no error."""
    text = protocol_text(random)
    return whole_protocol(text), text


def whole_protocol(text: str) -> Protocol:
    """The protocol of a text that has no error."""
    entry, diagnostics = compiled(text)
    errors = [one.message for one in diagnostics if one.severity.name == "ERROR"]
    assert entry is not None and not errors, (errors, text)
    return entry.protocols[0]


def changed_of(text: str, random: Random) -> Protocol | None:
    """The protocol with personal changes made in its text; of half of the protocols there is none."""
    return whole_protocol(changed_text(text, random)) if random.random() < 0.5 else None


def versions_of(protocol: Protocol, changed: Protocol | None, case: Case, random: Random) -> Versions:
    """The protocol from the start; for half of the people the changed one from a date, for good or for some days."""
    spans = [(case.started, protocol)]
    if changed is not None and random.random() < 0.5:
        first = case.started + datetime.timedelta(days=random.randint(0, 20))
        spans = [one for one in spans if one[0] < first] + [(first, changed)]
        if random.random() < 0.5:
            spans.append((first + datetime.timedelta(days=random.randint(1, 8)), protocol))
    return Versions(tuple(spans))


def seen(plan: Plan) -> dict[str, Any]:
    """What a plan decides, in the words of the oracle."""
    return {
        "phase": plan.phase.name if plan.phase else None,
        "levels": {one.progression: (one.level, one.printed) for one in plan.levels},
        "printed": {(one.exercise.name, one.item, one.asked, one.week) for one in plan.items},
        "volumes": {one.exercise.name: one.dose.volume for one in plan.items},
        "loads": {one.exercise.name: one.load.kilograms if one.load else None for one in plan.items},
        "moves": [(move.date, move.kind, move.item, *shown(move)) for move in plan.moves],
    }


def whole(plan: Plan) -> Any:
    """Everything on the sheet and the clinician's page, without the places in the case file."""
    return (
        seen(plan),
        plan.refused,
        [(one.exercise.name, one.days, one.dates, one.minutes, one.focus and one.focus.side) for one in plan.items],
        [(one.item, one.asked, one.replacement, [each.kind for each in one.reasons]) for one in plan.not_given],
        [(one.finding, one.side, [use.kind for use in one.uses]) for one in plan.questions],
        [(one.kind, one.truth, one.was_yes) for one in (*plan.emergencies, *plan.red_flags, *plan.calls)],
        [(one.date, one.kind, one.before, one.after) for one in plan.moves],
        plan.uncovered,
        [(one.kind, one.item) for one in plan.told],
    )


def shown(move: Any) -> tuple[str, str]:
    """Levels and phases; the amounts of steps are compared as loads and volumes."""
    return ("", "") if move.kind in ("add", "take off", "adjust") else (move.before, move.after)


def agree(versions: Versions, case: Case) -> str:
    """Fails where the two readings differ; says how it came out."""
    today = latest_date(case)
    outcome = decide(versions, case, CLINIC, today)
    return compared(outcome, Oracle(versions, case, WEIGHTS, today))


def compared(outcome: Outcome[Plan], oracle: Oracle) -> str:
    """Fails where the outcome is not what the oracle says."""
    decided = oracle.decided
    if outcome.value is None:
        codes = {one.code.id for one in outcome.diagnostics}
        if "L119" in codes:
            assert decided.clash
            return "two doses"
        assert codes == {"L104"}
        return "not placed"
    plan = outcome.value
    assert not decided.clash
    assert plan.refused == decided.refused
    found = seen(plan)
    assert found["phase"] == decided.phase
    assert sorted(found["moves"]) == sorted(decided.moves)
    assert found["levels"] == decided.levels
    if plan.refused:
        assert not plan.items
        return plan.refused
    assert found["printed"] == decided.printed
    assert found["volumes"] == decided.volumes
    assert found["loads"] == decided.loads
    for item in plan.items:  # by either reading
        assert all(line.truth is Truth.NO for line in item.avoids)
        assert all(oracle.mind.decide(line.condition).any.truth is False for line in item.exercise.avoid)
    return "sheet"


def shuffled(case: Case, random: Random) -> Case:
    """The same case with its lines in another order."""

    def mixed(lines: tuple[Any, ...]) -> tuple[Any, ...]:
        return tuple(sorted(random.sample(lines, len(lines)), key=lambda one: one.date))

    return replace(
        case,
        observations=mixed(case.observations),
        sessions=mixed(case.sessions),
        chosen=mixed(case.chosen),
        placings=mixed(case.placings),
        left_out=mixed(case.left_out),
        added=mixed(case.added),
        versions=mixed(case.versions),
    )


def until(case: Case, day: datetime.date) -> Case:
    """The case as it was written up to a date; corrections were made later and stand."""
    return replace(
        case,
        observations=tuple(one for one in case.observations if one.date <= day),
        sessions=tuple(one for one in case.sessions if one.date <= day),
        chosen=tuple(one for one in case.chosen if one.date <= day),
        placings=tuple(one for one in case.placings if one.date <= day),
        left_out=tuple(one for one in case.left_out if one.date <= day),
        added=tuple(one for one in case.added if one.date <= day),
        versions=tuple(one for one in case.versions if one.date <= day),
    )


@settings(max_examples=40, deadline=None, suppress_health_check=list(HealthCheck))
@given(st.randoms(use_true_random=False))
def test_decided_the_same(random: Random) -> None:
    """Any protocol, any history; where they differ, hypothesis looks for the smallest of both."""
    protocol, text = protocol_of(random)
    changed = changed_of(text, random)
    for _ in range(2):
        case = history(protocol, random, days=12)
        agree(versions_of(protocol, changed, case, random), case)


def test_many_are_decided_the_same() -> None:
    """As many pairs as asked for, each protocol with several histories; most come to a sheet."""
    outcomes: Counter[str] = Counter()
    for number in range(MANY // HISTORIES):
        random = Random(SEED + number)
        protocol, text = protocol_of(random)
        changed = changed_of(text, random)
        for each in range(HISTORIES):
            case = history(protocol, random)
            versions = versions_of(protocol, changed, case, random)
            try:
                outcomes[agree(versions, case)] += 1
            except Exception as error:
                raise AssertionError(f"seed {SEED + number}, history {each}\n{text}") from error
    print(dict(outcomes))
    assert outcomes["sheet"] > MANY // 2


def drawn(seeds: int, each: int) -> Iterator[tuple[Versions, Case, Random]]:
    """Some histories of each of so many protocols."""
    for seed in range(seeds):
        random = Random(seed)
        protocol, text = protocol_of(random)
        changed = changed_of(text, random)
        for _ in range(each):
            case = history(protocol, random)
            yield versions_of(protocol, changed, case, random), case, random


def test_no_order_of_lines_changes_anything() -> None:
    """Lines of one date, and of a whole file, in any order come to the same sheet and the same clinician's page."""
    for versions, case, random in drawn(60, 4):
        first = decide(versions, case, CLINIC)
        second = decide(versions, shuffled(case, random), CLINIC)
        assert (first.value is None) is (second.value is None)
        assert sorted(one.code.id for one in first.diagnostics) == sorted(one.code.id for one in second.diagnostics)
        if first.value is not None and second.value is not None:
            assert whole(first.value) == whole(second.value)


def test_what_comes_later_changes_no_earlier_sheet() -> None:
    """As of an earlier date the sheet is the one that was printed then."""
    for versions, case, random in drawn(60, 4):
        days = (latest_date(case) - case.started).days
        day = case.started + datetime.timedelta(days=random.randint(0, days))
        now, then = decide(versions, case, CLINIC, day), decide(versions, until(case, day), CLINIC, day)
        if now.value is not None and then.value is not None:
            assert whole(now.value) == whole(then.value)
        else:  # a placing that is written later makes good that there was none
            assert {one.code.id for one in (*now.diagnostics, *then.diagnostics)} <= {"L104", "L119"}


def test_two_evenings_of_one_replay_are_those_of_two() -> None:
    """The sheet of today beside that of an earlier date is the sheet of today."""
    for versions, case, random in drawn(60, 4):
        today = latest_date(case)
        day = today - datetime.timedelta(days=random.randint(1, 9))
        if day >= case.started:
            both = decide_twice(versions, case, CLINIC, today, day)
            for outcome, alone in zip(both, (today, day), strict=True):
                once = decide(versions, case, CLINIC, alone)
                assert outcome.diagnostics == once.diagnostics
                assert outcome.value == once.value
