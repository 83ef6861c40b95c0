"""Conditions as they are looked at on one date of a case: outside sessions, in a session, in the answers of the day."""

from __future__ import annotations

import datetime
from collections.abc import Iterator, Sequence
from dataclasses import dataclass, field
from typing import NamedTuple

from protodsl.decide.evaluate import Verdict, evaluate
from protodsl.decide.plan import Evidence, Reason
from protodsl.decide.terms import Moment
from protodsl.decide.truth import UNKNOWN, YES, Truth
from protodsl.decide.values import SESSION, Key, Known, Values, known, last_day
from protodsl.model.case import Case, Observation, Session
from protodsl.model.condition import All, AnyOf, AtLeast, Compare, Condition, Elapsed, Not, findings_in
from protodsl.model.protocol import Protocol


class Needs(NamedTuple):
    """What a condition depends on: its findings (those that derived ones follow from too), and whether time passing.

    `one_session` are those of the findings that are fresh for one session, `counters` count the values of each.
    `condition` keeps its identity alive.
    """

    condition: Condition
    findings: tuple[str, ...]
    timed: bool
    one_session: frozenset[str]
    counters: tuple[list[int], ...]


class _Kept(NamedTuple):
    """A verdict, and what it holds for: so many values of its findings, from the first to the last date."""

    verdict: Verdict
    values: int
    phase_start: datetime.date
    first: datetime.date
    last: datetime.date


@dataclass(slots=True)
class Context:
    """One case on one date, with the protocol in force; values are added as the dates go by."""

    case: Case
    protocol: Protocol
    date: datetime.date
    phase_start: datetime.date
    values: Values
    today: dict[Key, list[Known]] = field(default_factory=dict)
    # What bars an exercise in a phase, by the identity of both, which the text keeps alive.
    stopped: dict[tuple[int, int], Reason | None] = field(default_factory=dict)
    _needs: dict[int, Needs] = field(default_factory=dict)
    _kept: dict[tuple[int, bool, bool], _Kept] = field(default_factory=dict)
    # By the identity of a session, which the case keeps alive.
    _own: dict[int, dict[Key, list[Known]]] = field(default_factory=dict)

    def follow(self, protocol: Protocol) -> None:
        """Go on with another text."""
        if protocol is not self.protocol:
            self.protocol = protocol
            self.stopped.clear()
            self._needs.clear()
            self._kept.clear()

    def outside(self, condition: Condition, lean: Truth, rising: bool = False) -> Verdict:
        """The condition on this date with the last values there are; kept for as long as nothing can have changed."""
        key = (id(condition), lean is YES, rising)
        needs = self.needs(condition)
        count = 0
        for counter in needs.counters:
            count += counter[0]
        kept = self._kept.get(key)
        if (
            kept is not None
            and kept.values == count
            and kept.first <= self.date <= kept.last
            and kept.phase_start == self.phase_start
        ):
            return kept.verdict
        verdict = evaluate(condition, self._moment({}, False, rising), lean)
        last = self.date if needs.timed else self._last_day(needs)
        self._kept[key] = _Kept(verdict, count, self.phase_start, self.date, last)
        return verdict

    def in_session(self, condition: Condition, session: Session, lean: Truth, rising: bool = False) -> Verdict:
        """The condition in one session line: its own values first, and only those of what is fresh for one session."""
        own = self._own.get(id(session))
        if own is None:
            own = self._own[id(session)] = own_values(session)
        return evaluate(condition, self._moment(own, True, rising), lean)

    def in_answers(self, condition: Condition, lean: Truth, rising: bool = False) -> Verdict:
        """The condition in the answers of this date, as if they were a session."""
        return evaluate(condition, self._moment(self.today, True, rising), lean)

    def needs(self, condition: Condition) -> Needs:
        """What the condition depends on."""
        found = self._needs.get(id(condition))
        if found is None:
            names, timed = self._depends(condition)
            findings = self.protocol.scope.findings
            bound = frozenset(name for name in names if name in findings and findings[name].one_session)
            counters = tuple([self.values.counter(name) for name in names])
            found = self._needs[id(condition)] = Needs(condition, tuple(names), timed, bound, counters)
        return found

    def unknown_in(self, condition: Condition) -> tuple[Evidence, ...]:
        """What nobody knows of a condition on this date; where all is known, what only a session can say."""
        verdict = self.outside(condition, YES)
        if verdict.truth is UNKNOWN:
            return verdict.unknown
        return tuple(Evidence(name, None, None, None) for name in sorted(self.needs(condition).one_session))

    def answered_today(self, names: frozenset[str]) -> bool:
        """Whether an answer of this date is about one of the findings."""
        return any(name in names for name, _ in self.today)

    def moment(self) -> Moment:
        """This date outside sessions."""
        return self._moment({}, False, False)

    def _moment(self, own: dict[Key, list[Known]], bound: bool, rising: bool) -> Moment:
        return Moment(
            self.date,
            self.case.started,
            self.phase_start,
            self.case.side,
            self.protocol.scope.findings,
            self.values,
            own,
            bound,
            rising,
        )

    def _depends(self, condition: Condition) -> tuple[dict[str, None], bool]:
        names: dict[str, None] = {}
        waiting, timed = [condition], False
        while waiting:
            at = waiting.pop()
            timed = timed or _has_elapsed(at)
            for name in findings_in(at):
                if name not in names:
                    names[name] = None
                    finding = self.protocol.scope.findings.get(name)
                    waiting += [row.condition for row in finding.rows] if finding else []
        return names, timed

    def _last_day(self, needs: Needs) -> datetime.date:
        """The last date on which all values that count now still count."""
        last = datetime.date.max
        findings = self.protocol.scope.findings
        for name in needs.findings:
            finding = findings.get(name)
            if finding is None:
                continue
            for side in ("left", "right") if finding.answer.sided else (None,):
                entry = self.values.latest(name, side)
                until = last_day(finding, entry.date) if entry else None
                if until is not None and self.date <= until < last:
                    last = until
        return last


def own_values(session: Session) -> dict[Key, list[Known]]:
    """The values on a session's line, by finding and side."""
    own: dict[Key, list[Known]] = {}
    for one in session.values:
        own.setdefault((one.finding, one.side), []).append(known(one))
    return own


def record_session(values: Values, seen: Sequence[Observation], doubtful: bool) -> None:
    """Add the values of a session line; doubtful where it was not done as asked."""
    for one in seen:
        values.record(one, SESSION, doubtful)


def _has_elapsed(condition: Condition) -> bool:
    return any(isinstance(node, Compare) and isinstance(node.left, Elapsed) for node in _leaves(condition))


def _leaves(condition: Condition) -> Iterator[Condition]:
    if isinstance(condition, Not):
        yield from _leaves(condition.of)
    elif isinstance(condition, (All, AnyOf, AtLeast)):
        for one in condition.of:
            yield from _leaves(one)
    else:
        yield condition
