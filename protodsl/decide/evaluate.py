"""Conditions decided for one person on one date: yes, no or unknown, with the values that decided.

Where several values stand for one finding on one date (two sessions), the more cautious one decides: `lean` says which
way caution lies, YES for what keeps somebody back, NO for what lets somebody go on; `not` turns it round.
"""

from __future__ import annotations

import datetime
import operator
from collections.abc import Callable, Iterable, Mapping
from dataclasses import dataclass
from decimal import Decimal
from typing import Any, NamedTuple

from protodsl.decide import terms
from protodsl.decide.plan import Evidence
from protodsl.decide.terms import Amount, Moment, Read, base, read_value, sides_of
from protodsl.decide.truth import NO, UNKNOWN, YES, Truth, at_least, conjunction, disjunction, negation
from protodsl.model.condition import (
    All,
    AnyOf,
    AtLeast,
    Compare,
    Condition,
    Constant,
    Fact,
    IsOneOf,
    Measured,
    Not,
)
from protodsl.model.finding import Finding

# A truth, the values behind it, and whether one of them is doubtful.
_Candidate = tuple[Truth, tuple[Evidence, ...], bool]


class Verdict(NamedTuple):
    """The truth of a condition, the values that decided it, and (where it is unknown) what nobody knows."""

    truth: Truth
    deciding: tuple[Evidence, ...] = ()
    unknown: tuple[Evidence, ...] = ()


def evaluate(condition: Condition, moment: Moment, lean: Truth) -> Verdict:
    """The condition at that moment; `lean` is the truth that caution takes where values of one date differ."""
    return _FORMS[type(condition)](condition, moment, lean)


def newest(evidence: Iterable[Evidence]) -> datetime.date | None:
    """The date of the newest value; None where there is none."""
    return max((one.date for one in evidence if one.date is not None), default=None)


def _fact(node: Fact, moment: Moment, lean: Truth) -> Verdict:
    return _on_sides(node.finding, node, moment, lean, lambda value: _truth_of(value == "yes" or value is True))


def _is_one_of(node: IsOneOf, moment: Moment, lean: Truth) -> Verdict:
    def test(value: Any) -> Truth:
        return _truth_of((value in node.values) is not node.negated)

    return _on_sides(node.finding, node, moment, lean, test)


def _truth_of(holds: bool) -> Truth:
    return YES if holds else NO


def _on_sides(name: str, node: Fact | IsOneOf, moment: Moment, lean: Truth, test: Callable[[Any], Truth]) -> Verdict:
    """A fact on the side or sides it speaks of."""
    finding = moment.findings.get(name)
    if finding is not None and finding.rows:
        return _derived_fact(finding, moment, test)
    sides = sides_of(node.side, moment)
    if sides is None:
        return Verdict(UNKNOWN, (), (Evidence(name, None, None, None),))
    found = [_one_side(name, side, moment, lean, test) for side in sides.names]
    return found[0] if len(found) == 1 else joined(found, sides.every)


def _one_side(name: str, side: str | None, moment: Moment, lean: Truth, test: Callable[[Any], Truth]) -> Verdict:
    read = read_value(name, side, moment)
    if len(read.known) == 1 and not read.unknown and not moment.rising:
        return Verdict(test(read.known[0].value), (read.known[0].evidence,))
    found: list[_Candidate] = [(test(one.value), (one.evidence,), one.doubtful) for one in read.known]
    return _candidates(found, read, moment, lean)


def _compare(node: Compare, moment: Moment, lean: Truth) -> Verdict:
    sides = sides_of(node.side, moment)
    if sides is None:
        names = dict.fromkeys(terms.names_in(node.left) + terms.names_in(node.right))
        return Verdict(UNKNOWN, (), tuple(Evidence(name, None, None, None) for name in names))
    found = [_compare_on(node, side, moment, lean) for side in sides.names]
    return found[0] if len(found) == 1 else joined(found, sides.every)


def _compare_on(node: Compare, side: str | None, moment: Moment, lean: Truth) -> Verdict:
    measure, bound = node.left, node.right
    if type(measure) is Measured and measure.plus is None and type(bound) is Constant:
        read = read_value(measure.finding, side, moment)
        if len(read.known) == 1 and not read.unknown and not (moment.rising and read.known[0].doubtful):
            # Nearly every comparison is of one value with a number, and most of a replay is comparisons.
            holds_alone = _HOLDS_ALONE[node.op](base(read.known[0].value), base(bound.quantity))
            return Verdict(_truth_of(holds_alone), (read.known[0].evidence,))
    left, right = terms.amounts(node.left, side, moment), terms.amounts(node.right, side, moment)
    holds = _HOLDS[node.op]
    candidates = [
        (_truth_of(holds(a, b)), a.evidence + b.evidence, a.doubtful or b.doubtful)
        for a in left.known
        for b in right.known
    ]
    return _candidates(candidates, Read([], left.unknown + right.unknown), moment, lean)


def _candidates(found: list[_Candidate], read: Read[Any], moment: Moment, lean: Truth) -> Verdict:
    """One truth from all the values that stand there."""
    if len(found) == 1 and not read.unknown and not (moment.rising and found[0][2]):
        return Verdict(found[0][0], found[0][1])
    truths = [truth for truth, _, _ in found]
    if read.unknown or not found or (moment.rising and any(doubtful for _, _, doubtful in found)):
        truths.append(UNKNOWN)
    truth = disjunction(truths) if lean is YES else conjunction(truths)
    if truth is UNKNOWN:
        return Verdict(UNKNOWN, (), tuple(dict.fromkeys(read.unknown)))
    return Verdict(truth, tuple(dict.fromkeys(one for was, evidence, _ in found if was is truth for one in evidence)))


_HOLDS_ALONE: Mapping[str, Callable[[Decimal, Decimal], bool]] = {
    ">=": operator.ge,
    "<=": operator.le,
    ">": operator.gt,
    "<": operator.lt,
    "=": operator.eq,
}
_HOLDS: Mapping[str, Callable[[Amount, Amount], bool]] = {
    ">=": lambda a, b: a.over * b.under >= b.over * a.under,
    "<=": lambda a, b: a.over * b.under <= b.over * a.under,
    ">": lambda a, b: a.over * b.under > b.over * a.under,
    "<": lambda a, b: a.over * b.under < b.over * a.under,
    "=": lambda a, b: a.over * b.under == b.over * a.under,
}


def joined(found: list[Verdict], every: bool) -> Verdict:
    """`and` (every) or `or` over verdicts, with the values of those that decided."""
    truths = [one.truth for one in found]
    return _decided(conjunction(truths) if every else disjunction(truths), found)


def _decided(truth: Truth, found: list[Verdict]) -> Verdict:
    same = [one for one in found if one.truth is truth]
    if len(same) == 1:
        return Verdict(truth, () if truth is UNKNOWN else same[0].deciding, same[0].unknown if truth is UNKNOWN else ())
    if truth is UNKNOWN:
        return Verdict(truth, (), tuple(dict.fromkeys(each for one in same for each in one.unknown)))
    return Verdict(truth, tuple(dict.fromkeys(each for one in same for each in one.deciding)))


def _not(node: Not, moment: Moment, lean: Truth) -> Verdict:
    found = evaluate(node.of, moment, negation(lean))
    return Verdict(negation(found.truth), found.deciding, found.unknown)


def _all(node: All, moment: Moment, lean: Truth) -> Verdict:
    return joined([evaluate(one, moment, lean) for one in node.of], True)


def _any(node: AnyOf, moment: Moment, lean: Truth) -> Verdict:
    return joined([evaluate(one, moment, lean) for one in node.of], False)


def _at_least(node: AtLeast, moment: Moment, lean: Truth) -> Verdict:
    found = [evaluate(one, moment, lean) for one in node.of]
    return _decided(at_least(node.count, [one.truth for one in found]), found)


@dataclass(frozen=True, slots=True)
class Derived:
    """The value of a derived finding (None: unknown) and what decided it."""

    value: str | None
    verdict: Verdict


def derived(finding: Finding, moment: Moment) -> Derived:
    """Rows in order: the first yes wins only if every row above it is no; an unknown above makes it unknown."""
    deciding: tuple[Evidence, ...] = ()
    for row in finding.rows:
        verdict = _either_way(row.condition, moment)
        if verdict.truth is UNKNOWN:
            return Derived(None, verdict)
        deciding += verdict.deciding
        if verdict.truth is YES:
            return Derived(row.value, Verdict(YES, tuple(dict.fromkeys(deciding))))
    if finding.otherwise is None:
        return Derived(None, Verdict(UNKNOWN))
    return Derived(finding.otherwise, Verdict(YES, tuple(dict.fromkeys(deciding))))


def _either_way(condition: Condition, moment: Moment) -> Verdict:
    """A row has no cautious way to lean: where values of one date differ so much that it matters, it is unknown."""
    strict = evaluate(condition, moment, NO)
    if strict.truth is UNKNOWN:
        return strict
    loose = evaluate(condition, moment, YES)
    return strict if loose.truth is strict.truth else Verdict(UNKNOWN, (), loose.unknown)


def _derived_fact(finding: Finding, moment: Moment, test: Callable[[Any], Truth]) -> Verdict:
    found = derived(finding, moment)
    if found.value is None:
        return found.verdict
    return Verdict(test(found.value), found.verdict.deciding)


_FORMS: dict[type, Callable[[Any, Moment, Truth], Verdict]] = {
    Fact: _fact,
    IsOneOf: _is_one_of,
    Compare: _compare,
    Not: _not,
    All: _all,
    AnyOf: _any,
    AtLeast: _at_least,
}
