"""Sessions of a case: dates written out, what was done, and the values that belong to them."""

from __future__ import annotations

from collections.abc import Iterator
from datetime import date, timedelta

from protodsl.diagnostics import cases as say
from protodsl.model.case import Done, Observation, Session
from protodsl.model.exercise import Progression
from protodsl.resolve.case_values import Desk, observations
from protodsl.resolve.doses import volume
from protodsl.resolve.loads import BODY_WEIGHT
from protodsl.resolve.names import Names
from protodsl.syntax import tree
from protodsl.units import UNITS, Quantity

OUTCOMES = ("as given", "missed", "part done")


def sessions(line: tree.Session, started: date | None, start: tree.Node, names: Names, desk: Desk) -> Iterator[Session]:
    """One session for each date; a session before the start is an error."""
    item = line.item
    if item is not None and item.text not in given_names(desk):
        desk.unknown("exercise or progression", item, given_names(desk))
        return
    days = _days(line, desk)
    early = next((day for day in days if started is not None and day < started), None)
    if early is not None and started is not None:
        desk.said.append(say.before_start(early, started, line.head, start.span))
        return
    outcome, done, load = _done(line, names, desk)
    before = len(desk.said)
    for number, day in enumerate(days):
        values = tuple(_values(line, day, desk))
        if number:  # what is wrong in a line is wrong once, however many dates it has
            del desk.said[before:]
        else:
            before = len(desk.said)
        yield Session(day, item.text if item else None, outcome, done, load, values, span=line.head)


def given_names(desk: Desk) -> dict[str, object]:
    """Everything a session can be of."""
    scope = desk.protocol.scope
    return {**scope.exercises, **scope.progressions}


def _days(line: tree.Session, desk: Desk) -> list[date]:
    if line.to is None:
        return list(dict.fromkeys(line.dates))
    first = line.dates[0]
    count = (line.to - first).days + 1
    if count > say.LONGEST_RUN:
        desk.said.append(say.too_long(count, line.head))
        return []
    return [first + timedelta(days=number) for number in range(count)]


def _done(line: tree.Session, names: Names, desk: Desk) -> tuple[str, tuple[Done, ...], Quantity | None]:
    """The outcome, what was done, and the load that was lifted."""
    outcomes = [part for part in line.parts if part.form in OUTCOMES]
    for one in outcomes[1:]:
        desk.said.append(say.session_unclear(outcomes[0].form, one.form, one.span))
    outcome = outcomes[0].form if outcomes else "done"
    done: list[Done] = []
    load: Quantity | None = None
    for part in line.parts:
        if part.volume is not None:
            if outcome in ("as given", "missed"):
                desk.said.append(say.session_unclear(outcome, "done in numbers", part.span))
            found = volume(part.volume, names)
            if found is not None:
                done.append(Done(found, part.side))
        elif part.load is not None:
            load = _load(part.load, names, desk)
    return outcome, tuple(done), load


def _load(part: tree.Load, names: Names, desk: Desk) -> Quantity | None:
    """The weight that was lifted; None for a band, and for what is no weight."""
    if part.percent is not None or part.maximum is not None:
        desk.said.append(say.load_unclear(part.span))
        return None
    if part.name is not None and part.name.text != BODY_WEIGHT:
        names.known("equipment", part.name)
        return None
    if part.amount is None:
        return None
    unit = UNITS[part.amount.unit] if part.amount.unit else None
    if unit is None or unit.dimension != "mass" or part.amount.value < 0:
        desk.said.append(say.load_unclear(part.span))
        return None
    return Quantity(part.amount.value, unit)


def _values(line: tree.Session, day: date, desk: Desk) -> Iterator[Observation]:
    seen: dict[tuple[str, str | None], Observation] = {}
    for part in line.parts:
        if part.name is None or part.form not in ("score", "yes", "no"):
            continue
        values = part.values or ((None, tree.Value(part.form, span=part.span)),)
        for one in observations(part.name, values, day, part.span, desk):
            before = seen.setdefault((one.finding, one.side), one)
            if before.value != one.value:
                desk.said.append(say.contradiction(one.finding, one.side, day, one.span, before.span))
            elif before is one:
                yield one


def level_names(progression: Progression) -> list[str]:
    """The names of the levels, from the lowest."""
    return [level.name for level in progression.levels]
