"""Every rule of the protocol in words, with the line that says it: what stops, what is left out, what moves."""

from __future__ import annotations

from collections.abc import Iterable, Iterator

from protodsl.handout.blocks import Cell, Section, Table
from protodsl.handout.card_rows import restricts
from protodsl.handout.draft import Draft
from protodsl.handout.limits import bearing
from protodsl.handout.phrase import InWords, Literal, Measure, Phrase, Written
from protodsl.handout.rules import Rule, rules
from protodsl.handout.words import NOTHING, line, say
from protodsl.model.text import Prose
from protodsl.source import Span
from protodsl.units import Quantity

# The tables, in order, and the kinds of rule in each.
_TABLES: tuple[tuple[str, tuple[str, ...]], ...] = (
    ("flags", ("emergency", "red-flag", "call")),
    ("avoids", ("avoid", "caution")),
    ("moves", ("start", "up", "down", "until", "until.all", "back", "add", "less")),
    ("gives", ("give",)),
)
_WIDTHS = (26, 52, 22)


def rule_tables(draft: Draft) -> tuple[Section[Phrase], ...]:
    """A section for each group of rules, and one for what holds without a condition."""
    found = rules(draft)
    sections = []
    for name, kinds in _TABLES:
        rows = tuple(_row(draft, rule) for rule in found if rule.kind in kinds)
        if rows:
            sections.append(_section(name, rows))
    always = tuple(_always(draft))
    if always:
        sections.append(_section("always", always))
    return tuple(sections)


def _section(name: str, rows: tuple[tuple[Cell[Phrase], ...], ...]) -> Section[Phrase]:
    heads = (say("rules.rule"), say("rules.words"), say("clinician.line"))
    return Section(f"rules-{name}", say(f"rules.{name}"), (Table(None, heads, rows, kind="rules", widths=_WIDTHS),))


def _row(draft: Draft, rule: Rule) -> tuple[Cell[Phrase], ...]:
    of = _called(draft, rule.of)
    to = _called(draft, rule.to)
    head = say(f"rule.{rule.kind}", of=of, to=to)
    if rule.kind == "avoid" and not rule.to:
        head = say("rule.avoid.none", of=of)
    elif rule.of and rule.kind in ("call", "caution"):
        head = say(f"rule.{rule.kind}.of", of=of)
    elif rule.kind == "give" and rule.of:
        head = say("rule.give.of", of=of, to=to)
    elif rule.by is not None:
        head = _step(rule, of, rule.by)
    words = say("line", text=InWords(rule.condition, rule.streak, rule.negated))
    return _cells(head, words, draft.origin(rule.span))


def _step(rule: Rule, of: Phrase, by: Quantity) -> Phrase:
    if rule.bound is None:
        return say(f"rule.{rule.kind}", of=of, by=Measure(by))
    return say(f"rule.{rule.kind}.bound", of=of, by=Measure(by), bound=Measure(rule.bound))


def _called(draft: Draft, name: str) -> Phrase:
    """A phase, progression or exercise by its title; anything else by its name."""
    scope = draft.protocol.scope
    for phase in draft.protocol.phases:
        if phase.name == name:
            return Written(phase.title)
    declared = scope.progressions.get(name) or scope.exercises.get(name)
    return Written(declared.title) if declared else Literal(name) if name else NOTHING


def _always(draft: Draft) -> Iterator[tuple[Cell[Phrase], ...]]:
    """Stop lines, daily life, weight and supervision: what holds whatever anybody answers."""
    protocol = draft.protocol
    yield from _proses(draft, "stop", NOTHING, protocol.stop)
    yield from _proses(draft, "not-yet", NOTHING, protocol.not_yet)
    for phase in protocol.phases:
        title = Written(phase.title)
        yield from _proses(draft, "stop", title, phase.stop)
        yield from _proses(draft, "not-yet", title, phase.not_yet)
    for exercise in draft.exercises():
        title = Written(exercise.title)
        yield from _proses(draft, "stop", title, exercise.stop)
        if restricts(exercise):
            yield _cells(_head("bearing", title), bearing(exercise.bearing), draft.origin(exercise.span))
        if exercise.supervised:
            yield _cells(_head("supervised", title), say("card.supervised.always"), draft.origin(exercise.span))
        for span in _supervised_gives(draft, exercise.name):
            yield _cells(_head("supervised", title), say("card.supervised.always"), draft.origin(span))


def _supervised_gives(draft: Draft, name: str) -> Iterable[Span]:
    return dict.fromkeys(
        use.given.give.span for use in draft.uses[name] if use.given is not None and use.given.give.supervised
    )


def _proses(draft: Draft, kind: str, of: Phrase, proses: tuple[Prose, ...]) -> Iterator[tuple[Cell[Phrase], ...]]:
    for prose in proses:
        yield _cells(_head(kind, of), line(prose), draft.origin(prose.span))


def _head(kind: str, of: Phrase) -> Phrase:
    return say(f"rule.{kind}") if of == NOTHING else say(f"rule.{kind}.of", of=of)


def _cells(head: Phrase, words: Phrase, origin: str) -> tuple[Cell[Phrase], ...]:
    return (Cell(head), Cell(words), Cell(Literal(origin)))
