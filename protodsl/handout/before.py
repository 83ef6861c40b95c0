"""Before you start: the red flags, cautions and avoid lines turned into questions, each with what a yes means.

A question that nobody can answer counts as yes: unknown is not no.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import dataclass

from protodsl.handout.blocks import Item, Row, Section
from protodsl.handout.draft import Draft
from protodsl.handout.phrase import InWords, Listed, Literal, Phrase, Written
from protodsl.handout.stop import branches
from protodsl.handout.words import counted, lines, number, one_after_the_other, say
from protodsl.model.condition import Condition, Fact, Not
from protodsl.model.protocol import Flag
from protodsl.source import Span

# In the order of danger: where a flag forbids all exercise, what it means for one of them is left unsaid.
_FLAGS = ("emergency", "red-flag")


@dataclass(frozen=True, slots=True)
class _Answer:
    """What follows where a condition is so: `kind` with the number of an exercise, its `instead`, or words (`then`)."""

    kind: str
    span: Span
    exercise: int = 0
    instead: str = ""
    then: Phrase | None = None


def before(draft: Draft) -> Section[Phrase] | None:
    """One row a question, in the order of danger; the same question asked twice is asked once."""
    answers: dict[Condition, list[_Answer]] = {}
    for condition, answer in _answers(draft):
        answers.setdefault(condition, []).append(answer)
    if not answers:
        return None
    rows = tuple(_row(draft, at, condition, then) for at, (condition, then) in enumerate(answers.items(), 1))
    intro: Row[Phrase] = Row(say("before.sure.head"), (Item(say("before.sure")),))
    return Section("before", say("before.head"), (intro, *rows))


def _row(draft: Draft, at: int, condition: Condition, answers: list[_Answer]) -> Row[Phrase]:
    question, asked_no = _question(draft, condition)
    flag = "flag." if any(answer.kind in _FLAGS for answer in answers) else ""
    key = f"before.{flag}{'no' if asked_no else 'yes'}"
    told = tuple(_told(draft, answers))
    then = one_after_the_other(*(text for text, _ in told))
    item = Item(say(key, question=question, then=then), f"before/{at}", draft.origin(told[0][1]))
    return Row(say("before.question", number=number(at)), (item,))


def _question(draft: Draft, condition: Condition) -> tuple[Phrase, bool]:
    """The question as it was written, and whether it is the no that counts; else the condition put as a question."""
    fact = condition.of if isinstance(condition, Not) else condition
    if isinstance(fact, Fact) and fact.side is None:
        finding = draft.protocol.scope.findings.get(fact.finding)
        if finding is not None and finding.role == "question" and finding.words is not None:
            return Written(finding.words), isinstance(condition, Not)
    return say("before.so", clause=InWords(condition)), False


def _told(draft: Draft, answers: list[_Answer]) -> Iterator[tuple[Phrase, Span]]:
    """What somebody is told who answers yes; exercises that mean the same are taken together."""
    flags = [answer for answer in answers if answer.kind in _FLAGS]
    groups: dict[tuple[str, str, str], list[_Answer]] = {}
    for answer in flags or answers:
        groups.setdefault((answer.kind, answer.instead, repr(answer.then)), []).append(answer)
    for (kind, instead, _), group in groups.items():
        first = group[0]
        yield first.then or _about_exercises(draft, kind, instead, [one.exercise for one in group]), first.span


def _about_exercises(draft: Draft, kind: str, instead: str, exercises: Iterable[int]) -> Phrase:
    numbers = tuple(number(at) for at in dict.fromkeys(exercises))
    other = {"other": draft.exercise(instead)} if instead else {}
    return counted(f"before.{kind}", len(numbers), numbers=Listed(numbers), **other)


def _answers(draft: Draft) -> Iterator[tuple[Condition, _Answer]]:
    protocol, clinic = draft.protocol, draft.clinic
    for flag in protocol.emergencies:
        call = say("before.emergency", text=Literal(clinic.emergency.text), phone=Literal(clinic.emergency.phone))
        yield from _flagged("emergency", flag, one_after_the_other(lines(flag.lines), call) if flag.lines else call)
    for flag in protocol.red_flags:
        yield from _flagged("red-flag", flag, _call_today(draft, flag))
    for exercise in draft.exercises():
        for avoid in exercise.avoid:
            kind = "instead" if avoid.instead else "out"
            answer = _Answer(kind, avoid.span, draft.numbers[exercise.name], avoid.instead or "")
            yield from _split(avoid.condition, answer)
    for caution in protocol.cautions:
        yield from _split(caution.condition, _Answer("care", caution.span, then=say("before.care")))
    for phase in protocol.phases:
        for caution in phase.cautions:
            yield from _split(caution.condition, _Answer("care", caution.span, then=say("before.care.part")))
    for exercise in draft.exercises():
        for caution in exercise.caution:
            answer = _Answer("care.exercise", caution.span, draft.numbers[exercise.name])
            yield from _split(caution.condition, answer)


def _call_today(draft: Draft, flag: Flag) -> Phrase:
    contact = draft.clinic.contact
    if flag.lines:
        return one_after_the_other(lines(flag.lines), say("before.number", phone=Literal(contact.phone)))
    return say("before.call", text=Literal(contact.text), phone=Literal(contact.phone))


def _flagged(kind: str, flag: Flag, then: Phrase) -> Iterator[tuple[Condition, _Answer]]:
    yield from _split(flag.condition, _Answer(kind, flag.span, then=then))


def _split(condition: Condition, answer: _Answer) -> Iterator[tuple[Condition, _Answer]]:
    for one in branches(condition):
        yield one, answer
