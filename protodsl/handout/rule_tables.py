"""Every rule of the protocol in words, with the line that says it: what stops, what is left out, what is given.

What leads from part to part and from step to step stands with the parts and with the lines of progress.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator
from dataclasses import dataclass

from protodsl.handout.blocks import Cell, Section, Table
from protodsl.handout.card_rows import restricts
from protodsl.handout.draft import Draft
from protodsl.handout.instead import End, parted
from protodsl.handout.limits import bearing
from protodsl.handout.phrase import InWords, Listed, Literal, Measure, Phrase, Written
from protodsl.handout.places import places
from protodsl.handout.rules import Rule, rules
from protodsl.handout.titles import phase_number
from protodsl.handout.words import NOTHING, counted, line, number, say
from protodsl.model.text import Prose
from protodsl.source import Span

# The tables, in order, and the kinds of rule in each.
_TABLES: tuple[tuple[str, tuple[str, ...]], ...] = (
    ("flags", ("emergency", "red-flag", "call")),
    ("avoids", ("avoid", "caution")),
    ("moves", ("start", "add", "less")),
    ("gives", ("give",)),
)
_WIDTHS = (33, 45, 22)
_FEW_NAMES = 2


@dataclass(frozen=True, slots=True)
class _Line:
    """A line of a table before lines that say the same of several things are taken together.

    `said` is the text of authored words, which stand in several places.
    """

    kind: str
    of: str
    words: Phrase
    span: Span
    rest: object = None
    said: str = ""


def rule_tables(draft: Draft) -> tuple[Section[Phrase], ...]:
    """A section for each group of rules, and one for what holds without a condition."""
    found = rules(draft)
    sections = []
    for name, kinds in _TABLES:
        lines = [line for rule in found if rule.kind in kinds for line in _lines(draft, rule)]
        if lines:
            sections.append(_section(draft, name, lines, _rule_head))
    always = list(_always(draft))
    if always:
        sections.append(_section(draft, "always", always, _plain_head))
    return tuple(sections)


def _section(
    draft: Draft, name: str, lines: list[_Line], head: Callable[[Draft, _Line, Phrase], Phrase]
) -> Section[Phrase]:
    rows = tuple(_row(draft, group, head) for group in _together(lines))
    heads = (say("rules.rule"), say("rules.words"), say("clinician.line"))
    return Section(f"rules-{name}", say(f"rules.{name}"), (Table(None, heads, rows, kind="rules", widths=_WIDTHS),))


def _together(lines: list[_Line]) -> list[list[_Line]]:
    """Lines that say the same in the same words, of whatever they say it."""
    groups: dict[str, list[_Line]] = {}
    for one in lines:
        groups.setdefault(repr((one.kind, one.said or one.words, one.rest, not one.of)), []).append(one)
    return list(groups.values())


def _row(draft: Draft, group: list[_Line], head: Callable[[Draft, _Line, Phrase], Phrase]) -> tuple[Cell[Phrase], ...]:
    first = group[0]
    of = _of(draft, [name for name in dict.fromkeys(one.of for one in group) if name])
    where = places(draft, (one.span for one in group))
    return (Cell(head(draft, first, of)), Cell(say("line", text=first.words)), Cell(where))


def _of(draft: Draft, names: list[str]) -> Phrase:
    """What a rule is of, by title; several exercises by the numbers that they have on the sheet."""
    if len(names) > _FEW_NAMES and all(name in draft.numbers for name in names):
        return say("rules.exercises", numbers=Listed(tuple(number(draft.numbers[name]) for name in names)))
    return Listed(tuple(_called(draft, name) for name in names), by="comma") if names else NOTHING


def _lines(draft: Draft, rule: Rule) -> Iterator[_Line]:
    """One line; an `avoid if A or B` is two where A leads to something else than B."""
    if rule.kind != "avoid":
        words = InWords(rule.condition, rule.streak, rule.negated)
        yield _Line(rule.kind, rule.of, words, rule.span, (rule.to, rule.by, rule.bound))
        return
    exercise = draft.protocol.scope.exercises[rule.of]
    for condition, ends in parted(draft, exercise, rule.condition):
        yield _Line(rule.kind, rule.of, InWords(condition), rule.span, ends)


def _rule_head(draft: Draft, one: _Line, of: Phrase) -> Phrase:
    """What the rule does: `Avoid A, B; instead C`, `Calf strength: start at D`, `E: add 2 kg, up to 10 kg`."""
    assert isinstance(one.rest, tuple)
    if one.kind == "avoid":
        return _avoid_head(draft, of, one.rest)
    to, by, bound = one.rest
    if by is not None:
        values: dict[str, Phrase] = {"of": of, "by": Measure(by)}
        return say(f"rule.{one.kind}", **values) if bound is None else _bounded(one.kind, values, Measure(bound))
    if one.kind == "start" or one.kind == "give":
        key = f"rule.{one.kind}.of" if one.kind == "give" and one.of else f"rule.{one.kind}"
        return say(key, of=of, to=_called(draft, to))
    return _plain_head(draft, one, of)


def _avoid_head(draft: Draft, of: Phrase, ends: tuple[End, ...]) -> Phrase:
    """What is done in the end, part by part where that differs."""
    if len(ends) == 1:
        to = ends[0].exercise
        return say("rule.avoid.none", of=of) if to is None else say("rule.avoid", of=of, to=_called(draft, to))
    ways: list[Phrase] = []
    for end in ends:
        parts = Listed(tuple(phase_number(draft, phase) for phase in end.phases))
        if end.exercise is None:
            ways.append(counted("rule.avoid.part.none", len(end.phases), parts=parts))
        else:
            ways.append(counted("rule.avoid.part", len(end.phases), parts=parts, to=_called(draft, end.exercise)))
    return say("rule.avoid.parts", of=of, ways=Listed(tuple(ways), by="comma"))


def _bounded(kind: str, values: dict[str, Phrase], bound: Phrase) -> Phrase:
    return say(f"rule.{kind}.bound", bound=bound, **values)


def _plain_head(draft: Draft, one: _Line, of: Phrase) -> Phrase:
    return say(f"rule.{one.kind}.of", of=of) if one.of else say(f"rule.{one.kind}")


def _called(draft: Draft, name: str) -> Phrase:
    """A phase, progression, exercise or step by its title; anything else by its name."""
    scope = draft.protocol.scope
    for phase in draft.protocol.phases:
        if phase.name == name:
            return say("name", name=Written(phase.title))
    declared = scope.progressions.get(name) or scope.exercises.get(name)
    return say("name", name=Written(declared.title)) if declared else Literal(name)


def _always(draft: Draft) -> Iterator[_Line]:
    """Stop lines, daily life, weight and supervision: what holds whatever anybody answers."""
    protocol = draft.protocol
    yield from _proses("stop", "", protocol.stop)
    yield from _proses("not-yet", "", protocol.not_yet)
    for phase in protocol.phases:
        yield from _proses("stop", phase.name, phase.stop)
        yield from _proses("not-yet", phase.name, phase.not_yet)
    for exercise in draft.exercises():
        yield from _proses("stop", exercise.name, exercise.stop)
        if restricts(exercise):
            yield _Line("bearing", exercise.name, bearing(exercise.bearing), exercise.span)
        supervised = [exercise.span] if exercise.supervised else []
        for span in (*supervised, *_supervised_gives(draft, exercise.name)):
            yield _Line("supervised", exercise.name, say("card.supervised.always"), span)


def _supervised_gives(draft: Draft, name: str) -> Iterable[Span]:
    return dict.fromkeys(
        use.given.give.span for use in draft.uses[name] if use.given is not None and use.given.give.supervised
    )


def _proses(kind: str, of: str, proses: tuple[Prose, ...]) -> Iterator[_Line]:
    for prose in proses:
        yield _Line(kind, of, line(prose), prose.span, said=prose.text)
