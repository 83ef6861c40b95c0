"""Every line that a patient reads, with the keyword it stands under and the declaration it belongs to."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from typing import NamedTuple

from protodsl.model.exercise import Exercise, Give, Progression
from protodsl.model.finding import Finding
from protodsl.model.protocol import Choose, Content, Flag, Phase, Protocol, Scope
from protodsl.model.text import Prose

Owner = Finding | Exercise | Progression | Protocol


class Text(NamedTuple):
    """A line of prose under its keyword, in a declaration: an exercise, progression, protocol or finding."""

    prose: Prose
    keyword: str
    owner: Owner


def texts(
    protocols: Iterable[Protocol],
    exercises: Iterable[tuple[Exercise, Scope]],
    progressions: Iterable[tuple[Progression, Scope]],
    findings: Iterable[Finding],
) -> Iterator[Text]:
    """Each line once for each declaration it stands in; sources and reasons for the clinician are not among them."""
    for finding in findings:
        yield from _owned(finding, _of_finding(finding))
    for exercise, _ in exercises:
        yield from _owned(exercise, _of_exercise(exercise))
    for progression, _ in progressions:
        yield from _owned(progression, _of_progression(progression))
    for protocol in protocols:
        yield from _owned(protocol, _of_protocol(protocol))


_Line = tuple[str, Prose | None]


def _owned(owner: Owner, lines: Iterable[_Line]) -> Iterator[Text]:
    for keyword, prose in lines:
        if prose is not None:
            yield Text(prose, keyword, owner)


def _each(keyword: str, lines: Iterable[Prose]) -> Iterator[_Line]:
    for prose in lines:
        yield keyword, prose


def _of_finding(finding: Finding) -> Iterator[_Line]:
    # A test is read by the clinician, so only its name and meaning reach the sheet.
    if finding.role != "test":
        yield "question", finding.words
    yield "means", finding.means
    yield "yes means", finding.yes_means
    yield "no means", finding.no_means


def _of_exercise(exercise: Exercise) -> Iterator[_Line]:
    yield "title", exercise.title
    yield from _each("do", exercise.do)
    yield "why", exercise.why
    yield "when", exercise.when
    yield from _each("feel", exercise.feel)
    yield from _each("normal", exercise.normal)
    for fix in exercise.fix:
        yield "fix", fix.line
    yield from _each("stop", exercise.stop)
    for caution in exercise.caution:
        yield from _each("caution if", caution.lines)


def _of_progression(progression: Progression) -> Iterator[_Line]:
    yield "title", progression.title
    # A default of the progression stands in every level that has none of its own.
    triggers = {id(one): one for level in progression.levels for one in (*level.up, *level.down)}
    for trigger in triggers.values():
        yield from _each("when", trigger.lines)
    for level in progression.levels:
        yield from _of_contents(level.gives)


def _of_protocol(protocol: Protocol) -> Iterator[_Line]:
    yield "title", protocol.title
    yield "for", protocol.audience
    yield from _each("goal", protocol.goals)
    yield "why", protocol.why
    yield "when", protocol.when
    yield from _of_flags(protocol.emergencies)
    yield from _of_flags(protocol.red_flags)
    yield from _each("flare-up", protocol.flare_up)
    for zone in protocol.zones:
        yield "zone", zone.words
        yield from _each("zone", zone.lines)
    yield from _of_stage(protocol)
    for phase in protocol.phases:
        yield "title", phase.title
        for back in phase.back_to:
            yield from _each("back to", back.lines)
        yield from _of_stage(phase)


def _of_stage(stage: Protocol | Phase) -> Iterator[_Line]:
    """What a protocol and a phase both have."""
    yield from _of_flags(stage.calls)
    for caution in stage.cautions:
        yield from _each("caution if", caution.lines)
    for advice in stage.advice:
        yield "advice", advice.title
        yield from _each("advice", advice.lines)
    yield from _each("stop", stage.stop)
    yield from _each("may", stage.may)
    yield from _each("not yet", stage.not_yet)
    yield from _of_contents(stage.contents)


def _of_flags(flags: Iterable[Flag]) -> Iterator[_Line]:
    for flag in flags:
        yield from _each("flag", flag.lines)


def _of_contents(contents: Iterable[Content]) -> Iterator[_Line]:
    for one in contents:
        if isinstance(one, Give):
            yield "why", one.why
            yield "when", one.when
        elif isinstance(one, Choose):
            yield from _of_contents(one.gives)
        else:
            yield "part", one.title
            yield from _of_contents(one.contents)
