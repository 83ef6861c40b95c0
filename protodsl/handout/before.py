"""Before you start: the red flags, cautions and avoid lines turned into questions, each with what a yes means.

A question that nobody can answer counts as yes: unknown is not no.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from protodsl.handout.blocks import Item, Row, Section
from protodsl.handout.draft import Draft
from protodsl.handout.phrase import InWords, Literal, Phrase, Written
from protodsl.handout.stop import branches
from protodsl.handout.words import lines, number, one_after_the_other, say
from protodsl.model.condition import Condition, Fact, Not
from protodsl.model.exercise import Avoid, Caution
from protodsl.model.protocol import Flag
from protodsl.source import Span


@dataclass(frozen=True, slots=True)
class _Answer:
    """A condition that somebody has to answer, and what follows where it is so."""

    condition: Condition
    then: Phrase
    span: Span


def before(draft: Draft) -> Section[Phrase] | None:
    """One row a question, in the order of danger; the same question asked twice is asked once."""
    answers: dict[Condition, list[_Answer]] = {}
    for answer in _answers(draft):
        answers.setdefault(answer.condition, []).append(answer)
    if not answers:
        return None
    rows = tuple(_row(draft, at, condition, then) for at, (condition, then) in enumerate(answers.items(), 1))
    intro = Row(say("before.sure.head"), (Item(say("before.sure")),))
    return Section("before", say("before.head"), (intro, *rows))


def _row(draft: Draft, at: int, condition: Condition, answers: list[_Answer]) -> Row[Phrase]:
    question, asked_no = _question(draft, condition)
    head = say("before.question", number=number(at))
    then = tuple(
        Item(
            say("before.no" if asked_no else "before.yes", then=answer.then),
            f"before/{at}/{place}",
            draft.origin(answer.span),
        )
        for place, answer in enumerate(_distinct(answers), 1)
    )
    return Row(head, (Item(question), *then))


def _distinct(answers: list[_Answer]) -> list[_Answer]:
    """Answers that say different things; the first of those that say the same."""
    found: list[_Answer] = []
    for answer in answers:
        if all(answer.then != one.then for one in found):
            found.append(answer)
    return found


def _question(draft: Draft, condition: Condition) -> tuple[Phrase, bool]:
    """The question as it was written, and whether it is the no that counts; else the condition put as a question."""
    fact = condition.of if isinstance(condition, Not) else condition
    if isinstance(fact, Fact) and fact.side is None:
        finding = draft.protocol.scope.findings.get(fact.finding)
        if finding is not None and finding.role == "question" and finding.words is not None:
            return Written(finding.words), isinstance(condition, Not)
    return say("before.so", clause=InWords(condition)), False


def _answers(draft: Draft) -> Iterator[_Answer]:
    protocol, clinic = draft.protocol, draft.clinic
    for flag in protocol.emergencies:
        call = say("before.call", text=Literal(clinic.emergency.text), phone=Literal(clinic.emergency.phone))
        yield from _flag(flag, call)
    for flag in protocol.red_flags:
        call = say("before.call", text=Literal(clinic.contact.text), phone=Literal(clinic.contact.phone))
        yield from _flag(flag, call)
    for exercise in draft.exercises():
        for avoid in exercise.avoid:
            yield from _split(avoid.condition, _leave_out(draft, exercise.name, avoid), avoid.span)
    for caution in protocol.cautions:
        yield from _split(caution.condition, say("before.care"), caution.span)
    for phase in protocol.phases:
        for caution in phase.cautions:
            yield from _split(caution.condition, say("before.care.part"), caution.span)
    for exercise in draft.exercises():
        for caution in exercise.caution:
            yield from _split(caution.condition, _take_care(draft, exercise.name, caution), caution.span)


def _flag(flag: Flag, call: Phrase) -> Iterator[_Answer]:
    then = one_after_the_other(lines(flag.lines), call) if flag.lines else call
    yield from _split(flag.condition, then, flag.span)


def _split(condition: Condition, then: Phrase, span: Span) -> Iterator[_Answer]:
    for one in branches(condition):
        yield _Answer(one, then, span)


def _leave_out(draft: Draft, name: str, avoid: Avoid) -> Phrase:
    exercise = number(draft.numbers[name])
    if avoid.instead is None:
        return say("before.out", number=exercise)
    return say("before.instead", number=exercise, other=draft.exercise(avoid.instead))


def _take_care(draft: Draft, name: str, caution: Caution) -> Phrase:
    return say("before.care.exercise", number=number(draft.numbers[name]))
