"""Conditions read as formulas, with everything a finding's range and rows say about it.

A condition is looked at as it stands for a person of whom everything is known. A yes that needs that much can be
found with all known, so what can never hold here never holds for anybody.
"""

from __future__ import annotations

from dataclasses import dataclass, field
from decimal import ROUND_CEILING, ROUND_FLOOR, Decimal

from protodsl.check.logic.formula import Among, And, AtMost, Count, Domain, Formula, Key, Or, TooLong
from protodsl.model.condition import (
    All,
    AnyOf,
    AtLeast,
    Change,
    Compare,
    Condition,
    Constant,
    Difference,
    Elapsed,
    Fact,
    IsOneOf,
    Measured,
    Not,
    Side,
    Symmetry,
    Term,
)
from protodsl.model.finding import Answer, Finding, Kind
from protodsl.model.protocol import Scope
from protodsl.units import UNITS, Quantity, Unit

YES, NO = frozenset(("yes",)), frozenset(("no",))
# Units that count whole things.
_WHOLE = frozenset(("count", "steps", "breaths"))
# More rows of derived findings than any condition a person writes leads to.
_MOST_ROWS = 2000
_PHASE: Key = ("days", "phase start", "")
_START: Key = ("days", "start", "")


@dataclass(slots=True)
class Reading:
    """Reads conditions for a person whose affected side is `affected` (left or right); gathers their domain."""

    scope: Scope
    affected: str
    domain: Domain = field(default_factory=lambda: Domain({}, set(), []))
    _known: set[Key] = field(default_factory=set)
    _open: set[str] = field(default_factory=set)
    _rows: int = 0

    def formula(self, condition: Condition, wanted: bool = True) -> Formula:
        """The formula of a condition that is to be yes, or (`wanted` False) no."""
        if isinstance(condition, Not):
            return self.formula(condition.of, not wanted)
        if isinstance(condition, AtLeast):
            parts = tuple(self.formula(one, wanted) for one in condition.of)
            return Count(condition.count if wanted else len(parts) - condition.count + 1, parts)
        if isinstance(condition, (All, AnyOf)):
            parts = tuple(self.formula(one, wanted) for one in condition.of)
            return And(parts) if isinstance(condition, All) is wanted else Or(parts)
        if condition.side in (Side.EACH, Side.EITHER):
            sides = tuple(self._atom(condition, side, wanted) for side in ("left", "right"))
            return And(sides) if (condition.side is Side.EACH) is wanted else Or(sides)
        return self._atom(condition, self._side(condition.side), wanted)

    def _side(self, side: Side | None) -> str:
        if side is Side.AFFECTED:
            return self.affected
        if side is Side.OTHER:
            return "left" if self.affected == "right" else "right"
        return side.value if side else ""

    def _atom(self, atom: Fact | IsOneOf | Compare, side: str, wanted: bool) -> Formula:
        if isinstance(atom, Compare):
            return self._compare(atom, side, wanted)
        if isinstance(atom, Fact):
            return self._among(atom.finding, YES if wanted else NO, side)
        values = frozenset(atom.values)
        if atom.negated is wanted:
            values = self._values(atom.finding) - values
        return self._among(atom.finding, values, side)

    def _among(self, name: str, values: frozenset[str], side: str) -> Formula:
        finding = self.scope.findings.get(name)
        if finding is not None and finding.rows and not finding.damaged and name not in self._open:
            self._open.add(name)
            found = self._derived(finding, values)
            self._open.discard(name)
            return found
        key: Key = ("answer", name, side if finding is None or finding.answer.sided else "")
        self.domain.choices.setdefault(key, self._values(name) | values)
        return Among(key, values)

    def _derived(self, finding: Finding, values: frozenset[str]) -> Formula:
        """The first row that holds decides; without a row that holds and without `otherwise` nothing does."""
        ways: list[Formula] = []
        above: list[Formula] = []
        # Findings made of findings made of findings can grow without bound.
        self._rows += len(finding.rows)
        if self._rows > _MOST_ROWS:
            raise TooLong
        for row in finding.rows:
            if row.value in values:
                ways.append(And((self.formula(row.condition), *above)))
            above.append(self.formula(row.condition, False))
        if finding.otherwise is not None and finding.otherwise in values:
            ways.append(And(tuple(above)))
        return Or(tuple(ways))

    def _values(self, name: str) -> frozenset[str]:
        finding = self.scope.findings.get(name)
        if finding is None or finding.answer.kind is not Kind.CHOICE:
            return YES | NO
        return frozenset(finding.answer.choices)

    def _compare(self, compare: Compare, side: str, wanted: bool) -> Formula:
        left, right, op = compare.left, compare.right, compare.op
        if isinstance(left, Elapsed):
            if not isinstance(right, Constant):
                return self._unread(compare, wanted)
            return _oriented(self._days(left, side), None, _in_days(left, op, right.quantity.value), wanted)
        plus = right.quantity if isinstance(right, Constant) else right.plus if isinstance(right, Measured) else None
        most = self._base(left, plus)
        other = None if isinstance(right, Constant) else self._number(right, side)
        return _oriented(self._number(left, side), other, _thresholds(op, most), wanted)

    def _unread(self, compare: Compare, wanted: bool) -> Formula:
        """A comparison that is no threshold: it may be yes or no, whatever else holds."""
        key: Key = ("unread", repr(compare))
        self.domain.choices[key] = YES | NO
        return Among(key, YES if wanted else NO)

    def _base(self, left: Term, amount: Quantity | None) -> Decimal:
        """A quantity in base units; a bare number is in the unit of what it is compared with."""
        if amount is None:
            return Decimal(0)
        unit = amount.unit or self._unit(left)
        return amount.value * (unit.factor if unit else Decimal(1))

    def _unit(self, term: Term) -> Unit | None:
        if isinstance(term, Symmetry):
            return UNITS["%"]
        if isinstance(term, (Measured, Difference, Change)):
            finding = self.scope.findings.get(term.finding)
            return finding.answer.unit if finding else None
        return None

    def _number(self, term: Term, side: str) -> Key:
        """The key of a number, its range noted on the first meeting."""
        if isinstance(term, Elapsed):
            return self._days(term, side)
        assert not isinstance(term, Constant)
        finding = self.scope.findings.get(term.finding)
        answer = finding.answer if finding else Answer()
        kind = {Measured: "value", Symmetry: "symmetry", Difference: "difference", Change: "change"}[type(term)]
        if isinstance(term, Change):
            kind = f"change since {term.since}"
        key: Key = (kind, term.finding, side if answer.sided else "")
        if key not in self._known:
            self._known.add(key)
            self._bound(key, *_range(term, answer))
            if kind != "symmetry" and is_whole(answer):
                self.domain.whole.add(key)
        return key

    def _days(self, term: Elapsed, side: str) -> Key:
        key: Key = ("days", term.since, side if term.since not in ("start", "phase start") else "")
        if key not in self._known:
            self._known.add(key)
            self.domain.whole.add(key)
            self._bound(key, Decimal(0), None)
            if {_PHASE, _START} <= self._known:
                self.domain.always.append(AtMost(_PHASE, _START, Decimal(0)))
        return key

    def _bound(self, key: Key, low: Decimal | None, high: Decimal | None) -> None:
        if low is not None:
            self.domain.always.append(AtMost(None, key, -low))
        if high is not None:
            self.domain.always.append(AtMost(key, None, high))


def is_whole(answer: Answer) -> bool:
    """Whether the answers are whole numbers: points of a scale, counts."""
    return answer.kind is Kind.SCALE or (answer.unit is not None and answer.unit.dimension in _WHOLE)


def _range(term: Term, answer: Answer) -> tuple[Decimal | None, Decimal | None]:
    """The range of a term in base units; None where it has no end."""
    factor = answer.unit.factor if answer.unit else Decimal(1)
    low = None if answer.low is None else answer.low * factor
    high = None if answer.high is None else answer.high * factor
    if isinstance(term, Symmetry):
        return (Decimal(0) if low is not None and low >= 0 else None), None
    if isinstance(term, Measured):
        return low, high
    return (None, None) if low is None or high is None else (low - high, high - low)


_Threshold = tuple[str, Decimal]


def _thresholds(op: str, most: Decimal) -> tuple[_Threshold, ...]:
    """A comparison as one threshold, or two for `=`."""
    return ((">=", most), ("<=", most)) if op == "=" else ((op, most),)


def _in_days(left: Elapsed, op: str, number: Decimal) -> tuple[_Threshold, ...]:
    """Completed weeks as days: week 2 is done on day 14 and lasts until day 20."""
    if not left.unit.startswith("week"):
        return _thresholds(op, number)
    up, down = number.to_integral_value(ROUND_CEILING), number.to_integral_value(ROUND_FLOOR)
    first_done, last_day = (">=", 7 * up), ("<=", 7 * down + 6)
    return {
        ">=": (first_done,),
        "<=": (last_day,),
        ">": ((">=", 7 * (down + 1)),),
        "<": (("<=", 7 * up - 1),),
        "=": (first_done, last_day),
    }[op]


_OPPOSITE = {"<=": ">", "<": ">=", ">=": "<", ">": "<="}


def _oriented(left: Key, right: Key | None, thresholds: tuple[_Threshold, ...], wanted: bool) -> Formula:
    """`left` - `right` held to every threshold, or (`wanted` False) failing at least one."""
    atoms: list[Formula] = []
    for op, most in thresholds:
        way = op if wanted else _OPPOSITE[op]
        strict = way in ("<", ">")
        atoms.append(AtMost(left, right, most, strict) if way[0] == "<" else AtMost(right, left, -most, strict))
    if len(atoms) == 1:
        return atoms[0]
    return And(tuple(atoms)) if wanted else Or(tuple(atoms))
