"""Before you start: the red flags, cautions and avoid lines turned into questions, put together by what a yes means.

A question that nobody can answer counts as yes: unknown is not no.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import dataclass

from protodsl.handout.blocks import Block, Item, Paragraphs, Row, Section
from protodsl.handout.draft import Draft
from protodsl.handout.instead import End, avoided
from protodsl.handout.phrase import InWords, Listed, Literal, Phrase, Written
from protodsl.handout.stop import branches
from protodsl.handout.titles import phase_number
from protodsl.handout.words import counted, number, one_after_the_other, say
from protodsl.model.clinic import Contact
from protodsl.model.condition import Condition, Fact, Not
from protodsl.source import Span

# In the order of danger: where a flag forbids all exercise, what it means for one of them is left unsaid.
_FLAGS = ("emergency", "red-flag")


@dataclass(frozen=True, slots=True)
class _Answer:
    """What follows where a condition is so: `kind` with the number of an exercise, what is done instead, or words."""

    kind: str
    span: Span
    exercise: int = 0
    ends: tuple[End, ...] = ()
    then: Phrase | None = None


@dataclass(frozen=True, slots=True)
class _Asked:
    """A question of the list: its words, whether it is the no that counts, its id, and what it leads to."""

    words: Phrase
    no: bool
    name: str
    answers: tuple[_Answer, ...]

    def kind(self) -> str:
        """The gravest flag that the question stands for, else `other`."""
        return next((kind for kind in _FLAGS for answer in self.answers if answer.kind == kind), "other")


def before(draft: Draft) -> Section[Phrase] | None:
    """Each question once, in the order of danger: a row for each thing to do, and one for what is left out."""
    answers: dict[Condition, list[_Answer]] = {}
    for condition, answer in _answers(draft):
        answers.setdefault(condition, []).append(answer)
    if not answers:
        return None
    asked = []
    for at, (condition, then) in enumerate(answers.items(), 1):
        words, no = _question(draft, condition)
        asked.append(_Asked(words, no, f"before/{at}", tuple(then)))
    clinic = draft.clinic
    rows: list[Block[Phrase]] = [Paragraphs((Item(say("before.intro")),))]
    flagged = {kind: [one for one in asked if one.kind() == kind] for kind in ("emergency", "red-flag")}
    rows += _flagged(draft, "emergency", "emergency/text", clinic.emergency, flagged["emergency"])
    rows += _flagged(draft, "red-flag", "contact/text", clinic.contact, flagged["red-flag"])
    others = [one for one in asked if one.kind() == "other"]
    rows += _others(draft, "before.yes", [one for one in others if not one.no])
    rows += _others(draft, "before.no", [one for one in others if one.no])
    return Section("before", say("before.head"), tuple(rows))


def _flagged(
    draft: Draft, kind: str, words: str, contact: Contact, asked: list[_Asked]
) -> Iterator[Row[Phrase]]:
    """The questions of which one yes is enough to call: what to do once, the questions under it."""
    if asked:
        text = Written(draft.clinic.words(words))
        told = counted(f"before.{kind}", len(asked), text=text, phone=Literal(contact.phone))
        items = tuple(
            Item(
                say("before.flag.no", question=one.words) if one.no else one.words,
                one.name,
                draft.origin(one.answers[0].span),
            )
            for one in asked
        )
        lead = Item(told, f"before/{kind}", draft.origin(asked[0].answers[0].span), items)
        yield Row(say(f"before.{kind}.head"), (lead,), "stop")


def _others(draft: Draft, key: str, asked: list[_Asked]) -> Iterator[Row[Phrase]]:
    """What is left out or needs care; questions that mean the same stand under it."""
    groups: dict[str, list[_Asked]] = {}
    for one in asked:
        groups.setdefault(repr(_told(draft, one.answers)), []).append(one)
    if groups:
        yield Row(say(key), tuple(_group(draft, group) for group in groups.values()), "out")


def _group(draft: Draft, group: list[_Asked]) -> Item[Phrase]:
    told = _told(draft, group[0].answers)
    items = tuple(Item(one.words, one.name, draft.origin(one.answers[0].span)) for one in group)
    if len(items) > 1:
        name, origin = items[0].safety, items[0].origin
        lead = say("before.any.no" if group[0].no else "before.any")
        return Item(
            lead, f"{name}/any", origin, (*items, Item(say("before.any.then", then=told), f"{name}/told", origin))
        )
    return Item(say("before.then", question=group[0].words, then=told), items[0].safety, items[0].origin)


def _question(draft: Draft, condition: Condition) -> tuple[Phrase, bool]:
    """The question as it was written, and whether it is the no that counts; else the condition put as a question."""
    fact = condition.of if isinstance(condition, Not) else condition
    if isinstance(fact, Fact) and fact.side is None:
        finding = draft.protocol.scope.findings.get(fact.finding)
        if finding is not None and finding.role == "question" and finding.words is not None:
            return Written(finding.words), isinstance(condition, Not)
    return say("before.so", clause=InWords(condition)), False


def _told(draft: Draft, answers: Iterable[_Answer]) -> Phrase:
    """What somebody is told who answers yes; exercises that mean the same are taken together."""
    groups: dict[tuple[str, str, str], list[_Answer]] = {}
    for answer in answers:
        groups.setdefault((answer.kind, repr(answer.ends), repr(answer.then)), []).append(answer)
    left_out: list[Phrase] = []
    said: list[Phrase] = []
    for (kind, _, _), group in groups.items():
        then = group[0].then or _about_exercises(draft, kind, group[0].ends, [one.exercise for one in group])
        (left_out if kind == "out" else said).append(then)
    if left_out:
        said.insert(0, say("before.leave-out", exercises=Listed(tuple(left_out))))
    return one_after_the_other(*said)


def _about_exercises(draft: Draft, kind: str, ends: tuple[End, ...], exercises: Iterable[int]) -> Phrase:
    """Exercises by number, and for those that are left out what is done instead, part by part where that differs."""
    numbers = tuple(number(at) for at in dict.fromkeys(exercises))
    if not ends:
        return counted(f"before.{kind}", len(numbers), numbers=Listed(numbers))
    if len(ends) > 1:
        ways = Listed(tuple(_in_part(draft, end) for end in ends), by="comma")
        return counted("before.parts", len(numbers), numbers=Listed(numbers), ways=ways)
    other = ends[0].exercise
    if other is None:
        return counted("before.out", len(numbers), numbers=Listed(numbers))
    return counted("before.instead", len(numbers), numbers=Listed(numbers), other=number(draft.numbers[other]))


def _in_part(draft: Draft, end: End) -> Phrase:
    parts = Listed(tuple(phase_number(draft, phase) for phase in end.phases))
    if end.exercise is None:
        return counted("before.part.nothing", len(end.phases), parts=parts)
    return counted("before.part.instead", len(end.phases), parts=parts, other=number(draft.numbers[end.exercise]))


def _answers(draft: Draft) -> Iterator[tuple[Condition, _Answer]]:
    protocol = draft.protocol
    for flag in protocol.emergencies:
        yield from _split(flag.condition, _Answer("emergency", flag.span))
    for flag in protocol.red_flags:
        yield from _split(flag.condition, _Answer("red-flag", flag.span))
    for exercise in draft.exercises():
        for avoid in exercise.avoid:
            for condition in branches(avoid.condition):
                ends = avoided(draft, exercise, condition)
                yield condition, _Answer("out", avoid.span, draft.numbers[exercise.name], ends)
    for caution in protocol.cautions:
        yield from _split(caution.condition, _Answer("care", caution.span, then=say("before.care")))
    for phase in protocol.phases:
        for caution in phase.cautions:
            yield from _split(caution.condition, _Answer("care", caution.span, then=say("before.care.part")))
    for exercise in draft.exercises():
        for caution in exercise.caution:
            answer = _Answer("care.exercise", caution.span, draft.numbers[exercise.name])
            yield from _split(caution.condition, answer)


def _split(condition: Condition, answer: _Answer) -> Iterator[tuple[Condition, _Answer]]:
    for one in branches(condition):
        yield one, answer
