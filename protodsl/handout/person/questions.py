"""What nobody knows, in the order of what hangs on it, each with the lines that wait for it."""

from __future__ import annotations

from protodsl.decide.plan import UNANSWERED, OpenQuestion, Plan, QuestionUse
from protodsl.handout.blocks import Framed, Item, Section
from protodsl.handout.draft import Draft
from protodsl.handout.person.evidence import finding, last, prose_or_name
from protodsl.handout.phrase import PROGRAM, Listed, Literal, Phrase, Written
from protodsl.handout.places import places
from protodsl.handout.words import counted, one_after_the_other, say
from protodsl.source import Span

# A question that one of these lines waits for stands in the way of every sheet.
_FIRST = ("emergency if", "red flag if")


def questions(plan: Plan, on: Draft) -> Section[Phrase]:
    """The framed list; it is said too where nothing is open."""
    found = plan.questions
    items = tuple(Item(_question(plan, on, one)) for one in found)
    if not items:
        head = say("case.open.none")
    else:
        head = counted("case.open.first" if plan.refused == UNANSWERED else "case.open", len(items))
    return Section("open", None, (Framed(head, items),))


def _question(plan: Plan, on: Draft, one: OpenQuestion) -> Phrase:
    """The finding, its question, its last value, and what waits for it."""
    said: list[Phrase] = []
    name = finding(one.finding, one.side)
    first = plan.refused == UNANSWERED and any(use.kind in _FIRST for use in one.uses)
    said.append(say("case.question.first" if first else "case.question", name=name))
    declared = on.protocol.scope.findings.get(one.finding)
    if declared is not None and declared.words is not None:
        said.append(say("line", text=Written(declared.words)))
    said.append(say("case.question.last", known=last(on, one.last)) if one.last else say("case.question.never"))
    uses = tuple(_use(on, kind, item, spans) for (kind, item), spans in _together(one.uses).items())
    if uses:
        said.append(say("case.question.uses", uses=Listed(uses, by="comma")))
    return one_after_the_other(*said)


def _together(uses: tuple[QuestionUse, ...]) -> dict[tuple[str, str], list[Span]]:
    """The places of each kind of line of each item."""
    found: dict[tuple[str, str], list[Span]] = {}
    for use in uses:
        found.setdefault((use.kind, use.item), []).append(use.span)
    return found


def _use(on: Draft, kind: str, item: str, spans: list[Span]) -> Phrase:
    lines = places(on, spans)
    if not item:
        return say("case.use", kind=Literal(kind, PROGRAM), lines=lines)
    return say("case.use.of", kind=Literal(kind, PROGRAM), item=prose_or_name(on, item), lines=lines)
