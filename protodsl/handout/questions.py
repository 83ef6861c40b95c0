"""What has to be known of a person before a sheet can be made: the questions of a protocol, red flags first."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from protodsl.handout.blocks import Cell, Handout, Item, Masthead, Paragraphs, Section, Table
from protodsl.handout.draft import Draft, draft
from protodsl.handout.options import Options
from protodsl.handout.phrase import Listed, Literal, Measure, Number, Phrase, Written
from protodsl.handout.rules import rules
from protodsl.handout.sheet import footer
from protodsl.handout.words import number, say
from protodsl.model import named
from protodsl.model.clinic import Clinic
from protodsl.model.condition import findings_in
from protodsl.model.dose import Dosage
from protodsl.model.finding import Answer, Finding, Kind
from protodsl.model.protocol import Protocol
from protodsl.units import Quantity

# In the order of consequence: what forbids everything, what forbids one exercise, what decides on the plan.
_ORDER = (
    "emergency", "red-flag", "avoid", "caution", "give", "start", "call", "until", "back", "down", "less", "up", "add",
)  # fmt: skip
_FLAGS = ("emergency", "red-flag")
FLAG, PATIENT, MEASURED, SESSION = "flag", "patient", "measured", "session"
# Of the columns, in percent.
_WIDTHS = (10, 48, 42)
GROUPS = (FLAG, PATIENT, MEASURED, SESSION)


@dataclass(frozen=True, slots=True)
class Question:
    """One finding that is asked or measured; `group` is FLAG, PATIENT, MEASURED or (with each session) SESSION."""

    finding: Finding
    group: str


def questions(protocol: Protocol, clinic: Clinic) -> tuple[Question, ...]:
    """Every question that some rule of the protocol waits for, each once: in groups, in the order of consequence."""
    on = draft(protocol, clinic, Options())
    found: dict[str, Question] = {}
    for kind in _ORDER:
        for rule in rules(on):
            if rule.kind == kind:
                for finding in _asked(protocol, findings_in(rule.condition), frozenset()):
                    found.setdefault(finding.name, Question(finding, _group(kind, finding)))
    for finding in _asked(protocol, tuple(_behind_doses(on)), frozenset()):
        found.setdefault(finding.name, Question(finding, _group("", finding)))
    return tuple(sorted(found.values(), key=lambda one: GROUPS.index(one.group)))


def _asked(protocol: Protocol, names: tuple[str, ...], above: frozenset[str]) -> Iterator[Finding]:
    """The findings that are asked or measured behind names; what is derived is asked by what it follows from."""
    for name in names:
        finding = protocol.scope.findings.get(name)
        if finding is None or name in above:
            continue
        if finding.role != "finding":
            yield finding
        for row in finding.rows:
            yield from _asked(protocol, findings_in(row.condition), above | {name})


def _group(kind: str, finding: Finding) -> str:
    if kind in _FLAGS:
        return FLAG
    return SESSION if finding.one_session else MEASURED if finding.role == "test" else PATIENT


def _behind_doses(on: Draft) -> Iterator[str]:
    """Findings that a load or the weaker side is taken from."""
    for exercise in on.exercises():
        layers = (exercise.dosage, *(layer for use in on.uses[exercise.name] for layer in use.layers))
        yield from (name for layer in layers for name in _of_loads(layer))
        yield from [exercise.focus.finding] if exercise.focus else []


def _of_loads(layer: Dosage) -> Iterator[str]:
    for dose in (layer.common, *(row.dose for row in layer.weeks)):
        if dose.load is not None and dose.load.of is not None:
            yield dose.load.of


def compose_questions(protocol: Protocol, clinic: Clinic, options: Options) -> Handout[Phrase]:
    """A sheet to fill in by hand: the questions of a protocol with boxes and lines for the answers."""
    on = draft(protocol, clinic, options)
    asked = questions(protocol, clinic)
    numbers = {one.finding.name: at for at, one in enumerate(asked, 1)}
    sections: list[Section[Phrase]] = []
    for group in GROUPS:
        rows = tuple(_row(one.finding, numbers[one.finding.name]) for one in asked if one.group == group)
        if rows:
            intro = Paragraphs((Item(say(f"questions.{group}.intro")),))
            heads = (say("questions.number"), say("questions.question"), say("questions.answer"))
            table = Table(None, heads, rows, widths=_WIDTHS)
            sections.append(Section(f"questions-{group}", say(f"questions.{group}"), (intro, table)))
    title = say("questions.title", title=Written(protocol.title))
    lines = (say("questions.case"), say("questions.date"))
    masthead: Masthead[Phrase] = Masthead(Literal(clinic.name), Literal(clinic.address), title, lines)
    return Handout("sheet", title, masthead, tuple(sections), footer(on), options.digest)


def _row(finding: Finding, at: int) -> tuple[Cell[Phrase], ...]:
    words: Phrase = Written(finding.words or named.finding_name(finding))
    return Cell(number(at)), Cell(words), Cell(_boxes(finding))


def _boxes(finding: Finding) -> Phrase:
    """Boxes or a line for the answer, for each side where it has sides."""
    answer = finding.answer
    measured = _range(answer)
    if measured is not None:
        return say("questions.blank-sides" if answer.sided else "questions.blank-of", range=measured)
    one = _box(finding)
    return say("questions.sides", answer=one) if answer.sided else one


def _box(finding: Finding) -> Phrase:
    answer = finding.answer
    if answer.kind is Kind.YES_NO:
        return say("questions.yes-or-no")
    if answer.kind is Kind.CHOICE:
        return Listed(tuple(_choice(finding, one) for one in answer.choices), by="sentences")
    return say("questions.blank-date" if answer.kind is Kind.DATE else "questions.blank")


def _choice(finding: Finding, value: str) -> Phrase:
    return say("questions.box", value=Written(named.choice(finding, value)))


def _range(answer: Answer) -> Phrase | None:
    """What may be written on a line: `0 to 10`, `0 cm to 25 cm`; None where nothing bounds it."""
    if answer.low is None or answer.high is None:
        return None
    if answer.unit is None or answer.unit.name == "count":
        return Number(answer.low, answer.high)
    low, high = (Measure(Quantity(end, answer.unit)) for end in (answer.low, answer.high))
    return say("number.range", low=low, high=high)
