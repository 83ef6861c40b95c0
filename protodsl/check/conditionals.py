"""Every line of an entry that hangs on a condition, with its keyword and the scope its names are looked up in."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from typing import NamedTuple

from protodsl.model.condition import Condition
from protodsl.model.dose import Dosage
from protodsl.model.exercise import Exercise, Give, Progression
from protodsl.model.finding import Finding
from protodsl.model.protocol import Phase, Protocol, Scope
from protodsl.model.reach import items_of


class Conditional(NamedTuple):
    """A condition under its keyword; a row of a finding has the keyword `if`. `unless` turns it round."""

    keyword: str
    condition: Condition
    scope: Scope
    unless: bool = False


def conditionals(
    protocols: Iterable[Protocol],
    exercises: Iterable[tuple[Exercise, Scope]],
    progressions: Iterable[tuple[Progression, Scope]],
    findings: Iterable[tuple[Finding, Scope]],
) -> Iterator[Conditional]:
    """Each condition once, though inherited lines stand in many declarations."""
    seen: set[int] = set()
    for found in (
        *(one for finding, scope in findings for one in _of_finding(finding, scope)),
        *(one for exercise, scope in exercises for one in _of_exercise(exercise, scope)),
        *(one for progression, scope in progressions for one in _of_progression(progression, scope)),
        *(one for protocol in protocols for one in _of_protocol(protocol)),
    ):
        if id(found.condition) not in seen:
            seen.add(id(found.condition))
            yield found


def _of_finding(finding: Finding, scope: Scope) -> Iterator[Conditional]:
    for row in finding.rows:
        yield Conditional("if", row.condition, scope)


def _of_exercise(exercise: Exercise, scope: Scope) -> Iterator[Conditional]:
    for avoid in exercise.avoid:
        yield Conditional("avoid if", avoid.condition, scope)
    for caution in exercise.caution:
        yield Conditional("caution if", caution.condition, scope)
    yield from _of_dosage(exercise.dosage, scope)


def _of_progression(progression: Progression, scope: Scope) -> Iterator[Conditional]:
    for start in progression.start_at:
        yield Conditional("start at", start.condition, scope)
    yield from _of_dosage(progression.dosage, scope)
    for level in progression.levels:
        for trigger in level.up:
            yield Conditional("up when", trigger.condition, scope)
        for trigger in level.down:
            yield Conditional("down when", trigger.condition, scope)
        yield from _of_dosage(level.dosage, scope)
        yield from _of_gives(level.gives, scope)


def _of_protocol(protocol: Protocol) -> Iterator[Conditional]:
    scope = protocol.scope
    flags = (("emergency if", protocol.emergencies), ("red flag if", protocol.red_flags), ("call if", protocol.calls))
    for keyword, lines in flags:
        for flag in lines:
            yield Conditional(keyword, flag.condition, scope)
    for caution in protocol.cautions:
        yield Conditional("caution if", caution.condition, scope)
    yield from _of_dosage(protocol.dosage, scope)
    yield from _of_gives(items_of(protocol.contents), scope)
    for phase in protocol.phases:
        yield from _of_phase(phase, scope)


def _of_phase(phase: Phase, scope: Scope) -> Iterator[Conditional]:
    for until in phase.until:
        yield Conditional("until", until.condition, scope)
    for back in phase.back_to:
        yield Conditional("back to", back.condition, scope)
    for flag in phase.calls:
        yield Conditional("call if", flag.condition, scope)
    for caution in phase.cautions:
        yield Conditional("caution if", caution.condition, scope)
    yield from _of_dosage(phase.dosage, scope)
    yield from _of_gives(items_of(phase.contents), scope)


def _of_gives(gives: Iterable[Give], scope: Scope) -> Iterator[Conditional]:
    for give in gives:
        if give.condition is not None:
            yield Conditional("give", give.condition, scope, give.unless)
        yield from _of_dosage(give.dosage, scope)


def _of_dosage(dosage: Dosage, scope: Scope) -> Iterator[Conditional]:
    for step in dosage.steps:
        yield Conditional("take off" if step.change.value < 0 else "add", step.condition, scope)
