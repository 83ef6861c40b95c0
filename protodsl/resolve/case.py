"""From the tree of a case file to one person's case, every name looked up in the protocol that it follows."""

from __future__ import annotations

from collections.abc import Callable, Iterable
from dataclasses import dataclass, field
from datetime import date
from typing import Any

from protodsl.diagnostics import cases as say
from protodsl.diagnostics.diagnostic import Diagnostic, in_order
from protodsl.diagnostics.suggest import nearest
from protodsl.model.case import (
    Added,
    Affected,
    Case,
    Changed,
    Chosen,
    LeftOut,
    Note,
    Observation,
    Placing,
    Session,
    VersionFrom,
    Versions,
)
from protodsl.model.protocol import Choose, Content, Part, Protocol
from protodsl.model.text import Prose
from protodsl.outcome import Outcome
from protodsl.resolve.case_privacy import who_it_is
from protodsl.resolve.case_protocol import Followed
from protodsl.resolve.case_sessions import given_names, level_names, sessions
from protodsl.resolve.case_values import Desk, observations
from protodsl.resolve.case_versions import versions
from protodsl.resolve.gives import give
from protodsl.resolve.names import Names
from protodsl.source import Span
from protodsl.syntax import tree

FindProtocol = Callable[[str], tuple[Followed, ...]]


@dataclass(frozen=True, slots=True)
class Person:
    """A case with the protocol as it stands for it from each date on."""

    case: Case
    versions: Versions


@dataclass(slots=True)
class _Parts:
    """What the lines come to, in text order."""

    observations: list[Observation] = field(default_factory=list)
    chosen: list[Chosen] = field(default_factory=list)
    sessions: list[Session] = field(default_factory=list)
    placings: list[Placing] = field(default_factory=list)
    left_out: list[LeftOut] = field(default_factory=list)
    added: list[Added] = field(default_factory=list)
    changed: list[tuple[Changed, tree.Declaration]] = field(default_factory=list)
    versions: list[VersionFrom] = field(default_factory=list)
    notes: list[Note] = field(default_factory=list)


@dataclass(slots=True)
class _Reading:
    """One case being read."""

    followed: Followed
    desk: Desk
    names: Names
    started: tree.DateLine | None
    own_levels: dict[str, list[str]]
    parts: _Parts = field(default_factory=_Parts)


def resolve_case(file: tree.File, find: FindProtocol, known: Iterable[str] = ()) -> Outcome[Person]:
    """What a case file says; None where it has no case, or follows no protocol that can be found.

    `find` gives every protocol of that name in the project, `known` the names there are.
    """
    case = next((one for one in file.statements if isinstance(one, tree.CaseDeclaration)), None)
    if case is None:
        return Outcome(None)
    started = _only(case, tree.DateLine, "started")
    said = list(who_it_is(case, file.comments, started.date if started else None))
    line = _only(case, tree.CaseProtocol, "protocol")
    followed = _followed(line, find, known, said) if line is not None else None
    if followed is None or line is None:
        return Outcome(None, in_order(tuple(said)))
    desk, names = Desk(followed.protocol, followed.damaged), followed.names(f"case/{case.name.text}/")
    reading = _Reading(followed, desk, names, started, _own_levels(case))
    for one in case.lines:
        read = _LINES.get(type(one))
        if read is not None:
            read(one, reading)
    whole = _case(case, line, reading)
    said += reading.desk.said
    said += followed.said(reading.names, file.path)
    said += _contradictions(reading.parts)
    said += _too_late(reading)
    said += _chosen_twice(reading.parts.chosen, followed.protocol)
    said += _version_pinned(line, reading.parts.versions, followed.protocol)
    if whole is None:
        return Outcome(None, in_order(tuple(said)))
    held, more = versions(whole, followed, tuple(reading.parts.changed), file.path)
    return Outcome(Person(whole, held), in_order((*said, *more)))


def _own_levels(case: tree.CaseDeclaration) -> dict[str, list[str]]:
    """Levels that the case's own changes put into a progression, by the progression's name."""
    found: dict[str, list[str]] = {}
    for line in case.lines:
        if isinstance(line, tree.From) and isinstance(line.change, tree.Declaration):
            names = [one.name.text for one in line.change.lines if isinstance(one, tree.Level)]
            found.setdefault(line.change.name.text, []).extend(names)
    return found


def _only(case: tree.CaseDeclaration, kind: type[Any], keyword: str) -> Any:
    """The first line of a keyword; None where it is missing, which the parser has said."""
    return next((line for line in case.lines if isinstance(line, kind) and line.keyword == keyword), None)


def _followed(
    line: tree.CaseProtocol, find: FindProtocol, known: Iterable[str], said: list[Diagnostic]
) -> Followed | None:
    found = find(line.name.text)
    if not found:
        said.append(say.no_such_protocol(line.name.text, line.name.span, nearest(line.name.text, known)))
        return None
    if len(found) > 1:
        said.append(say.protocol_twice(line.name.text, line.name.span, [one.protocol.span for one in found]))
        return None
    return found[0]


def _on(line: tree.OnDate, reading: _Reading) -> None:
    for one in line.lines:
        if isinstance(one, tree.Answered):
            reading.parts.observations += observations(one.name, one.values, line.date, one.head, reading.desk)
        elif isinstance(one, tree.ListedAnswers) and one.keyword == "chose":
            reading.parts.chosen += _chose(one, line.date, reading)
        elif isinstance(one, tree.ListedAnswers):
            for name in one.names:
                value = ((None, tree.Value(one.keyword, span=name.span)),)
                reading.parts.observations += observations(name, value, line.date, name.span, reading.desk)


def _chose(line: tree.ListedAnswers, day: date, reading: _Reading) -> list[Chosen]:
    protocol = reading.followed.protocol
    offered = {give.item: None for choice in choices_of(protocol) for give in choice.gives}
    found = []
    for name in line.names:
        if name.text in offered:
            found.append(Chosen(day, name.text, span=name.span))
        else:
            near = nearest(name.text, offered)
            reading.desk.said.append(say.no_such_choice(name.text, protocol.name, name.span, near))
    return found


def choices_of(protocol: Protocol) -> list[Choose]:
    """Every `choose` of a protocol, its phases' too."""
    found: list[Choose] = []
    for contents in (protocol.contents, *(phase.contents for phase in protocol.phases)):
        found += _choices(contents)
    return found


def _choices(contents: tuple[Content, ...]) -> list[Choose]:
    found: list[Choose] = []
    for one in contents:
        if isinstance(one, Choose):
            found.append(one)
        elif isinstance(one, Part):
            found += _choices(one.contents)
    return found


def _corrected(line: tree.Answered, reading: _Reading) -> None:
    if line.date is not None:
        because = _because(line, reading)
        reading.parts.observations += observations(
            line.name, line.values, line.date, line.head, reading.desk, because, corrects=True
        )


def _because(line: Any, reading: _Reading) -> Prose | None:
    """The reason under a line; the parser has said where there is none."""
    words = line.because
    return None if words is None else Prose(words.text, f"{reading.names.prefix}because", words.span)


def _session(line: tree.Session, reading: _Reading) -> None:
    start = reading.started
    day = start.date if start else None
    reading.parts.sessions += sessions(line, day, start or line, reading.names, reading.desk)


def _place(line: tree.Place, reading: _Reading) -> None:
    progressions = reading.followed.protocol.scope.progressions
    progression = progressions.get(line.item.text)
    if progression is None:
        reading.desk.unknown("progression", line.item, progressions)
        return
    known = [*level_names(progression), *reading.own_levels.get(progression.name, ())]
    if line.level.text not in known:
        near = nearest(line.level.text, known)
        reading.desk.said.append(
            say.no_such_level(line.level.text, progression.name, line.level.span, progression.span, near)
        )
        return
    because = _because(line, reading) or Prose("")
    reading.parts.placings.append(Placing(line.date, progression.name, line.level.text, because, span=line.head))


def _from(line: tree.From, reading: _Reading) -> None:
    because = _because(line, reading) or Prose("")
    change = line.change
    if isinstance(change, tree.VersionLine):
        reading.parts.versions.append(VersionFrom(line.date, change.version, span=line.head))
    elif isinstance(change, tree.NamesLine):
        known = given_names(reading.desk)
        for name in change.names:
            if name.text in known:
                reading.parts.left_out.append(LeftOut(line.date, line.to, name.text, because, span=line.head))
            else:
                reading.desk.unknown("exercise or progression", name, known)
    elif isinstance(change, tree.Give):
        found = give(change, reading.names)
        if found is not None:
            reading.parts.added.append(Added(line.date, line.to, found, because, span=line.head))
    elif isinstance(change, tree.Declaration):
        made = Changed(line.date, line.to, change.name.text, because, span=line.head)
        reading.parts.changed.append((made, change))


def _note(line: tree.Note, reading: _Reading) -> None:
    reading.parts.notes.append(Note(line.date, line.words.text, span=line.head))


_LINES: dict[type, Callable[[Any, _Reading], None]] = {
    tree.OnDate: _on,
    tree.Answered: _corrected,
    tree.Session: _session,
    tree.Place: _place,
    tree.From: _from,
    tree.Note: _note,
}


def _case(case: tree.CaseDeclaration, line: tree.CaseProtocol, reading: _Reading) -> Case | None:
    """The case whole; None where a line is missing without which nothing can be decided."""
    side, started = _only(case, tree.SideLine, "side"), reading.started
    if side is None or started is None:
        return None
    parts = reading.parts
    language = _only(case, tree.LanguageLine, "language")
    visit = _only(case, tree.DateLine, "next visit")
    return Case(
        case.name.text,
        line.name.text,
        line.version,
        started.date,
        language.tag if language else "en",
        _affected(side),
        _has(case, reading),
        _dated(parts.observations),
        _dated(parts.chosen),
        _dated(parts.sessions),
        _dated(parts.placings),
        _dated(parts.left_out),
        _dated(parts.added),
        _dated([made for made, _ in parts.changed]),
        _dated(parts.versions),
        visit.date if visit else None,
        _dated(parts.notes),
        visit.head if visit else None,
        span=case.head,
    )


def _dated(found: list[Any]) -> tuple[Any, ...]:
    """In order of date, then of file."""
    return tuple(sorted(found, key=lambda one: one.date))


def _affected(line: tree.SideLine) -> Affected:
    if line.side == "both":
        return Affected(line.worse, True)
    return Affected(None if line.side == "none" else line.side)


def _has(case: tree.CaseDeclaration, reading: _Reading) -> tuple[str, ...] | None:
    line = next((one for one in case.lines if isinstance(one, tree.NamesLine) and one.keyword == "has"), None)
    if line is None:
        return None
    known = reading.followed.protocol.scope.equipment
    for name in line.names:
        if name.text not in known:
            reading.desk.unknown("equipment", name, known)
    return tuple(name.text for name in line.names if name.text in known)


def _contradictions(parts: _Parts) -> list[Diagnostic]:
    """Two values of one finding, side and date in `on` lines or in corrections, and corrections of nothing."""
    said: list[Diagnostic] = []
    first: dict[tuple[Any, ...], Observation] = {}
    for one in parts.observations:
        before = first.setdefault((one.finding, one.side, one.date, one.corrects), one)
        if before.value != one.value:
            said.append(say.contradiction(one.finding, one.side, one.date, one.span, before.span))
    there = {(one.finding, one.side, one.date) for one in parts.observations if not one.corrects}
    there |= {(one.finding, one.side, one.date) for session in parts.sessions for one in session.values}
    for one in parts.observations:
        if one.corrects and (one.finding, one.side, one.date) not in there:
            said.append(say.corrects_nothing(one.finding, one.date, one.span))
    places: dict[tuple[str, date], Placing] = {}
    for place in parts.placings:
        other = places.setdefault((place.item, place.date), place)
        if other.level != place.level:
            said.append(say.two_places(place.item, place.date, place.span, other.span))
    return said


def _too_late(reading: _Reading) -> list[Diagnostic]:
    """The first line that is dated too long after the start."""
    started, parts = reading.started, reading.parts
    if started is None:
        return []
    dated: list[Observation | Session | Placing | Chosen | VersionFrom] = [
        *parts.observations,
        *parts.sessions,
        *parts.placings,
        *parts.chosen,
        *parts.versions,
    ]
    late = [one for one in dated if (one.date - started.date).days > say.LONGEST_CASE]
    first = min(late, key=lambda one: one.span, default=None)
    return [say.over_ten_years(first.date, started.date, first.span)] if first is not None else []


def _chosen_twice(chosen: list[Chosen], protocol: Protocol) -> list[Diagnostic]:
    """More chosen on one date than a choice takes."""
    said: list[Diagnostic] = []
    for choice in choices_of(protocol):
        offered = {give.item for give in choice.gives}
        by_date: dict[date, dict[str, Span]] = {}
        for one in chosen:
            if one.item in offered:
                by_date.setdefault(one.date, {})[one.item] = one.span
        for day, items in by_date.items():
            if len(items) > choice.count:
                said.append(say.too_many_chosen(choice.count, day, max(items.values()), choice.span))
    return said


def _version_pinned(line: tree.CaseProtocol, later: list[VersionFrom], protocol: Protocol) -> list[Diagnostic]:
    """Another first or second number than the text's is an error until a dated line goes over to it."""
    last = max(later, key=lambda one: one.date, default=None)
    followed, place = (last.version, last.span) if last else (line.version, line.head)
    if major_and_minor(followed) == major_and_minor(protocol.version) or not protocol.version:
        return []
    return [say.other_version(protocol.name, followed, protocol.version, place, protocol.span)]


def major_and_minor(version: str) -> tuple[str, ...]:
    """The first two numbers of a version (Semantic Versioning 2.0.0)."""
    return tuple(version.partition("+")[0].partition("-")[0].split(".")[:2])
