"""Values in words: what was known of a finding, when it was said, and where it stands."""

from __future__ import annotations

from collections.abc import Iterable
from datetime import date

from protodsl.decide.plan import Evidence
from protodsl.handout.draft import Draft
from protodsl.handout.person.voice import side_of
from protodsl.handout.phrase import Day, Listed, Literal, Measure, Phrase, Written
from protodsl.handout.places import places
from protodsl.handout.words import NOTHING, say
from protodsl.model.case import Value
from protodsl.source import NOWHERE
from protodsl.units import Quantity

_TIME = ("start", "phase start")


def finding(name: str, side: str | None) -> Phrase:
    """A finding by its name, with its side."""
    return Literal(name) if side is None else say("case.sided", name=Literal(name), side=side_of(side))


def value(one: Value) -> Phrase:
    """A value as it was answered."""
    if one is None:
        return say("case.value.unknown")
    if isinstance(one, bool):
        return say("case.value.yes" if one else "case.value.no")
    if isinstance(one, Quantity):
        return Measure(one)
    return Day(one) if isinstance(one, date) else Literal(one)


def known(on: Draft, one: Evidence) -> Phrase:
    """`pain 4, 20 November 2026 (P-0417:12)`; who never answered is said too."""
    name = finding(one.finding, one.side)
    if one.date is None and one.value is None:
        return say("case.never", name=name)
    if one.finding in _TIME or (isinstance(one.value, Quantity) and _is_date(on, one.finding)):
        return say(f"case.time.{one.finding.replace(' ', '-')}" if one.finding in _TIME else "case.time", **_time(one))
    key = "case.stale" if one.stale else "case.known"
    when = Day(one.date) if one.date is not None else NOTHING
    if one.span == NOWHERE:
        return say(f"{key}.derived", name=name, value=value(one.value), date=when)
    return say(key, name=name, value=value(one.value), date=when, line=places(on, (one.span,)))


def all_known(on: Draft, several: Iterable[Evidence]) -> Phrase:
    """Several values, one after the other; nothing where there are none."""
    found = tuple(dict.fromkeys(several))
    return Listed(tuple(known(on, one) for one in found), by="comma") if found else NOTHING


def _time(one: Evidence) -> dict[str, Phrase]:
    gone = {"value": value(one.value)}
    return gone if one.finding in _TIME else {**gone, "name": Literal(one.finding)}


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
    return say("name", name=Written(target.words)) if target is not None else Literal(name)
