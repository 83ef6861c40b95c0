"""The protocol as it stands for one person from each date on: the text with the changes in force made in it."""

from __future__ import annotations

from datetime import date, timedelta

from protodsl.diagnostics.diagnostic import Diagnostic
from protodsl.model.case import Case, Changed, Versions
from protodsl.model.protocol import Protocol
from protodsl.resolve.case_protocol import Followed
from protodsl.syntax import tree


def versions(
    case: Case, followed: Followed, changes: tuple[tuple[Changed, tree.Declaration], ...], path: str
) -> tuple[Versions, list[Diagnostic]]:
    """A protocol for each stretch of dates in which the same changes are in force, made in order of their dates."""
    ordered = sorted(changes, key=lambda one: one[0].date)
    spans: list[tuple[date, Protocol]] = [(min([case.started, *(made.date for made, _ in ordered)]), followed.protocol)]
    said: list[Diagnostic] = []
    known: dict[tuple[int, ...], Protocol] = {(): followed.protocol}
    for start in _borders(ordered):
        in_force = tuple(at for at, (made, _) in enumerate(ordered) if _holds(made, start))
        if in_force not in known:
            known[in_force], more = followed.changed(tuple(ordered[at][1] for at in in_force), path)
            said += more
        spans = [one for one in spans if one[0] < start] + [(start, known[in_force])]
    return Versions(tuple(spans)), said


def _borders(changes: list[tuple[Changed, tree.Declaration]]) -> list[date]:
    """Every date on which a change begins, or is over."""
    found = {made.date for made, _ in changes}
    found |= {made.until + timedelta(days=1) for made, _ in changes if made.until and made.until < date.max}
    return sorted(found)


def _holds(made: Changed, day: date) -> bool:
    return made.date <= day and (made.until is None or day <= made.until)
