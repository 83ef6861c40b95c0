"""Conditions decided once more and plainly: every value looked up by going through all that was ever said.

Truths are True, False and None (unknown). Every condition is decided twice at once, as the most and as the least
favourable of the values that stand there.
"""

from __future__ import annotations

import datetime
from dataclasses import dataclass, field
from decimal import Decimal
from fractions import Fraction
from typing import Any

from protodsl.model import condition as c
from protodsl.model.case import Case

Truth = bool | None
Day = datetime.date
ONE_DAY = datetime.timedelta(days=1)


@dataclass(frozen=True)
class Found:
    """A truth with the date of the newest value that decided it."""

    truth: Truth
    newest: Day | None = None


@dataclass(frozen=True)
class Both:
    """The least and the most favourable truth: every value has to do, or any one will."""

    every: Found
    any: Found


@dataclass
class Said:
    """One value as it stands in the case; `late` for those of sessions."""

    finding: str
    side: str | None
    day: Day
    late: bool
    value: Any
    doubtful: bool = False


def newest(days: Any) -> Day | None:
    return max((day for day in days if day is not None), default=None)


def kleene_and(found: list[Found]) -> Found:
    truths = [one.truth for one in found]
    truth: Truth = False if False in truths else None if None in truths else True
    return Found(truth, newest(one.newest for one in found if one.truth is truth))


def kleene_or(found: list[Found]) -> Found:
    truths = [one.truth for one in found]
    truth: Truth = True if True in truths else None if None in truths else False
    return Found(truth, newest(one.newest for one in found if one.truth is truth))


def kleene_not(found: Found) -> Found:
    return Found(None if found.truth is None else not found.truth, found.newest)


def all_of(found: list[Both]) -> Both:
    return Both(kleene_and([one.every for one in found]), kleene_and([one.any for one in found]))


def any_of(found: list[Both]) -> Both:
    return Both(kleene_or([one.every for one in found]), kleene_or([one.any for one in found]))


def count_of(number: int, found: list[Found]) -> Found:
    sure = sum(one.truth is True for one in found)
    maybe = sum(one.truth is None for one in found)
    truth: Truth = True if sure >= number else False if sure + maybe < number else None
    return Found(truth, newest(one.newest for one in found if one.truth is truth))


def number(quantity: Any) -> Fraction:
    factor = quantity.unit.factor if quantity.unit else Decimal(1)
    return Fraction(quantity.value) * Fraction(factor)


@dataclass
class Mind:
    """All that is known on one evening, and how conditions are decided from it."""

    case: Case
    protocol: Any
    day: Day
    phase_start: Day
    said: list[Said] = field(default_factory=list)

    def decide(self, node: Any, own: Any = None, rising: bool = False) -> Both:
        """`own`: the values of the line that is looked at, by finding and side; None outside sessions."""
        if isinstance(node, c.Not):
            of = self.decide(node.of, own, rising)
            return Both(kleene_not(of.any), kleene_not(of.every))
        if isinstance(node, c.All):
            return all_of([self.decide(one, own, rising) for one in node.of])
        if isinstance(node, c.AnyOf):
            return any_of([self.decide(one, own, rising) for one in node.of])
        if isinstance(node, c.AtLeast):
            found = [self.decide(one, own, rising) for one in node.of]
            return Both(
                count_of(node.count, [one.every for one in found]), count_of(node.count, [one.any for one in found])
            )
        if isinstance(node, (c.Fact, c.IsOneOf)) and self.protocol.scope.findings[node.finding].rows:
            return self.derived(node, own, rising)
        worse = self.case.side.worse
        opposite = {"left": "right", "right": "left", None: None}
        by_word: dict[Any, list[Any]] = {
            None: [None], c.Side.EACH: ["left", "right"], c.Side.EITHER: ["left", "right"], c.Side.LEFT: ["left"],
            c.Side.RIGHT: ["right"], c.Side.AFFECTED: [worse], c.Side.OTHER: [opposite[worse]],
        }  # fmt: skip
        sides = by_word[node.side]
        if node.side in (c.Side.AFFECTED, c.Side.OTHER) and worse is None:
            return Both(Found(None), Found(None))
        found = [self.leaf(node, side, own, rising) for side in sides]
        return any_of(found) if node.side is c.Side.EITHER else all_of(found)

    def leaf(self, node: Any, side: str | None, own: Any, rising: bool) -> Both:
        if isinstance(node, c.Compare):
            lefts, rights = self.term(node.left, side, own), self.term(node.right, side, own)
            candidates = [
                (
                    None if a[0] is None or b[0] is None else self.compare(a[0], node.op, b[0]),
                    newest((a[1], b[1])),
                    a[2] or b[2],
                )
                for a in lefts
                for b in rights
            ]
        else:
            candidates = []
            for value, day, doubtful in self.values(node.finding, side, own):
                holds = None if value is None else value is True if isinstance(node, c.Fact) else (
                    (value in node.values) != node.negated
                )  # fmt: skip
                candidates.append((holds, day, doubtful))
        found = [Found(truth, day) for truth, day, _ in candidates]
        if rising and any(doubtful for _, _, doubtful in candidates):
            found.append(Found(None))
        return Both(kleene_and(found), kleene_or(found))

    def derived(self, node: Any, own: Any, rising: bool) -> Both:
        finding = self.protocol.scope.findings[node.finding]
        value, days = finding.otherwise, []
        for row in finding.rows:
            both = self.decide(row.condition, own, rising)
            truth = both.every.truth if both.every.truth is both.any.truth else None
            if truth is None:
                return Both(Found(None), Found(None))
            days.append(both.every.newest)
            if truth:
                value = row.value
                break
        if value is None:
            return Both(Found(None), Found(None))
        holds = value == "yes" if isinstance(node, c.Fact) else (value in node.values) != node.negated
        return Both(Found(holds, newest(days)), Found(holds, newest(days)))

    def values(self, name: str, side: str | None, own: Any) -> list[tuple[Any, Day | None, bool]]:
        """Everything that stands for a finding: the value (None: unknown), its date, whether it is doubtful."""
        finding = self.protocol.scope.findings[name]
        side = side if finding.answer.sided else None
        if own is not None and (name, side) in own:
            return [(value, self.day, False) for value in own[name, side]]
        if own is not None and finding.one_session:
            return [(None, None, False)]
        mine = [one for one in self.said if one.finding == name and one.side == side and one.day <= self.day]
        if not mine:
            return [(None, None, False)]
        last = max((one.day, one.late) for one in mine)
        if finding.one_session and (self.day - last[0]).days > 7:
            return [(None, None, False)]
        if finding.fresh is not None and not finding.one_session:
            assert finding.fresh.unit is not None and finding.fresh.unit.dimension == "time"
            if (self.day - last[0]).days * 86400 > finding.fresh.value * finding.fresh.unit.factor:
                return [(None, None, False)]
        return [(one.value, one.day, one.doubtful) for one in mine if (one.day, one.late) == last]

    def term(self, term: Any, side: str | None, own: Any) -> list[tuple[Fraction | None, Day | None, bool]]:
        if isinstance(term, c.Constant):
            return [(number(term.quantity), None, False)]
        if isinstance(term, c.Measured):
            plus = number(term.plus) if term.plus else Fraction(0)
            return [
                (None if value is None else number(value) + plus, day, doubtful)
                for value, day, doubtful in self.values(term.finding, side, own)
            ]
        if isinstance(term, c.Elapsed):
            length = 7 if term.unit == "weeks" else 1
            starts: list[tuple[Any, Day | None, bool]] = [(self.case.started, None, False)]
            if term.since == "phase start":
                starts = [(self.phase_start, None, False)]
            elif term.since != "start":
                starts = self.values(term.since, side, own)
            found: list[tuple[Fraction | None, Day | None, bool]] = []
            for start, day, doubtful in starts:
                if start is None:
                    found.append((None, None, False))
                else:
                    passed = (self.day - start).days // length
                    reached = start + passed * length * ONE_DAY
                    found.append((Fraction(passed * length * 86400), newest((day, reached)), doubtful))
            return found
        if isinstance(term, c.Change):
            return self.change(term, side, own)
        return self.two_sided(term, side, own)

    def two_sided(self, term: Any, side: str | None, own: Any) -> list[tuple[Fraction | None, Day | None, bool]]:
        here = side or self.case.side.worse
        if here is None:
            return [(None, None, False)]
        there = "left" if here == "right" else "right"
        lower = self.protocol.scope.findings[term.finding].better == "lower"
        found: list[tuple[Fraction | None, Day | None, bool]] = []
        for a, a_day, a_doubt in self.values(term.finding, here, own):
            for b, b_day, b_doubt in self.values(term.finding, there, own):
                if a is None or b is None:
                    found.append((None, None, False))
                    continue
                x, y = (number(b), number(a)) if lower else (number(a), number(b))
                day, doubt = newest((a_day, b_day)), a_doubt or b_doubt
                if isinstance(term, c.Difference):
                    found.append((y - x, day, doubt))
                else:
                    found.append((None if y == 0 else 100 * x / y, None if y == 0 else day, doubt and y != 0))
        return found

    def change(self, term: Any, side: str | None, own: Any) -> list[tuple[Fraction | None, Day | None, bool]]:
        finding = self.protocol.scope.findings[term.finding]
        now = self.values(term.finding, side, own)
        current = newest(day for value, day, _ in now if value is not None)
        if current is None:
            return [(None, None, False)]
        mine = [
            one for one in self.said
            if one.finding == term.finding and one.side == (side if finding.answer.sided else None)
            and one.day < current and one.value is not None
        ]  # fmt: skip
        if mine:
            pick = min if term.since == "start" else max
            wanted = pick((one.day, one.late) for one in mine)
            before = [(one.value, one.day) for one in mine if (one.day, one.late) == wanted]
        elif term.since == "start":
            before = [(value, current) for value, _, _ in now if value is not None]
        else:
            return [(None, None, False)]
        found: list[tuple[Fraction | None, Day | None, bool]] = []
        for value, day, doubtful in now:
            if value is None:
                found.append((None, None, False))
            else:
                found += [(number(value) - number(was), newest((day, then)), doubtful) for was, then in before]
        return found

    @staticmethod
    def compare(a: Fraction, op: str, b: Fraction) -> bool:
        return {">=": a >= b, "<=": a <= b, ">": a > b, "<": a < b, "=": a == b}[op]

    def names(self, node: Any) -> set[str]:
        """Every finding a condition looks at, through derived ones too."""
        found: set[str] = set()
        waiting = list(c.findings_in(node))
        while waiting:
            name = waiting.pop()
            if name not in found:
                found.add(name)
                waiting += [
                    one for row in self.protocol.scope.findings[name].rows for one in c.findings_in(row.condition)
                ]
        return found
