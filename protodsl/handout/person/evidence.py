"""Values in words: what was known of a finding, when it was said, and where it stands."""

from __future__ import annotations

from collections.abc import Iterable
from datetime import date

from protodsl.decide.plan import Evidence
from protodsl.handout.draft import Draft
from protodsl.handout.person.voice import side_of
from protodsl.handout.phrase import AUTHOR, Day, Listed, Literal, Measure, Phrase, Written
from protodsl.handout.places import places
from protodsl.handout.words import NOTHING, say
from protodsl.model.case import Value
from protodsl.source import NOWHERE
from protodsl.units import Quantity

_TIME = ("start", "phase start")


def finding(name: str, side: str | None) -> Phrase:
    """A finding by its name, with its side."""
    return Literal(name, AUTHOR) if side is None else say("case.sided", name=Literal(name, AUTHOR), side=side_of(side))


def value(one: Value) -> Phrase:
    """A value as it was answered."""
    if one is None:
        return say("case.value.unknown")
    if isinstance(one, bool):
        return say("case.value.yes" if one else "case.value.no")
    if isinstance(one, Quantity):
        return Measure(one)
    return Day(one) if isinstance(one, date) else Literal(one, AUTHOR)


def last(on: Draft, one: Evidence) -> Phrase:
    """`no on 2 November 2026, too old (P-0417:8)`, where the name of the finding stands before it."""
    return _dated(one) if one.span == NOWHERE else say("case.line", text=_dated(one), lines=places(on, (one.span,)))


def all_known(on: Draft, several: Iterable[Evidence]) -> Phrase:
    """Several values, those of one finding together; nothing where there are none."""
    groups: dict[object, list[Evidence]] = {}
    for one in dict.fromkeys(several):
        plain = one.date is not None and not _is_time(on, one)
        groups.setdefault((one.finding, one.side) if plain else one, []).append(one)
    said = tuple(_together(on, group) for group in groups.values())
    return Listed(said, by="comma") if said else NOTHING


def _together(on: Draft, group: list[Evidence]) -> Phrase:
    """The values of one finding with their dates, and the lines they stand on."""
    first = group[0]
    name = finding(first.finding, first.side)
    if first.date is None and first.value is None:
        return say("case.never", name=name)
    if _is_time(on, first):
        return _gone_by(first)
    values = tuple(_dated(one) for one in group)
    said = Listed(values, by="comma") if len(values) > 1 else values[0]
    spans = [one.span for one in group if one.span != NOWHERE]
    if not spans:
        return say("case.known.derived", name=name, values=said)
    return say("case.known", name=name, values=said, line=places(on, spans))


def _dated(one: Evidence) -> Phrase:
    if one.date is None:
        return value(one.value)
    return say("case.stale" if one.stale else "case.dated", value=value(one.value), date=Day(one.date))


def _is_time(on: Draft, one: Evidence) -> bool:
    return one.finding in _TIME or (isinstance(one.value, Quantity) and _is_date(on, one.finding))


def _gone_by(one: Evidence) -> Phrase:
    if one.finding in _TIME:
        return say(f"case.time.{one.finding.replace(' ', '-')}", value=value(one.value))
    return say("case.time", name=Literal(one.finding, AUTHOR), value=value(one.value))


def _is_date(on: Draft, name: str) -> bool:
    declared = on.protocol.scope.findings.get(name)
    return declared is not None and declared.answer.kind.value == "date"


def prose_or_name(on: Draft, name: str) -> Phrase:
    """An exercise, progression, phase or target by its title or words; anything else by its name."""
    scope = on.protocol.scope
    declared = scope.exercises.get(name) or scope.progressions.get(name)
    if declared is not None:
        return say("name", name=Written(declared.title))
    target = scope.targets.get(name)
    return say("name", name=Written(target.words)) if target is not None else Literal(name, AUTHOR)
