"""Answers with their corrections made: a `corrected` line stands in place of what was said of that date."""

from __future__ import annotations

import datetime
from dataclasses import replace

from protodsl.model.case import Case, Observation, Session

_Key = tuple[str, str | None, datetime.date]


def corrected(case: Case) -> Case:
    """The case as if the right values had been written at once; where two corrections stand, both do."""
    right: dict[_Key, list[Observation]] = {}
    for one in case.observations:
        if one.corrects:
            right.setdefault(_key(one), []).append(one)
    if not right:
        return case
    answers = [one for one in case.observations if not one.corrects]
    there = {_key(one) for one in answers if _key(one) in right}
    kept = [one for one in answers if _key(one) not in right]
    kept += [one for key in sorted(there, key=str) for one in right[key]]
    sessions = tuple(_session(one, right) for one in case.sessions)
    return replace(case, observations=tuple(sorted(kept, key=lambda one: one.date)), sessions=sessions)


def _session(session: Session, right: dict[_Key, list[Observation]]) -> Session:
    if not any(_key(one) in right for one in session.values):
        return session
    values = [fixed for one in session.values for fixed in right.get(_key(one), [one])]
    return replace(session, values=tuple(values))


def _key(one: Observation) -> _Key:
    return one.finding, one.side, one.date
