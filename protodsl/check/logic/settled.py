"""Conditions that never or always hold, and the parts of them that contradict each other."""

from __future__ import annotations

from itertools import combinations

from protodsl.check.logic.possible import certain, possible
from protodsl.model.condition import All, AnyOf, AtLeast, Compare, Condition, Constant, Fact, IsOneOf, Measured, Not
from protodsl.model.finding import Finding
from protodsl.model.protocol import Scope
from protodsl.source import Span


def never(condition: Condition, scope: Scope) -> bool:
    """Whether no person can be found for whom it holds."""
    return not _plain(condition, scope) and not possible(scope, (condition, True))


def always(condition: Condition, scope: Scope) -> bool:
    """Whether no person can be found for whom it is not yes."""
    return not _plain(condition, scope) and certain(scope, condition)


def contradiction(condition: Condition, scope: Scope) -> tuple[Span, ...]:
    """Two parts joined by `and` that can never hold together; empty where it takes more than two."""
    if isinstance(condition, All):
        for one, other in combinations(condition.of, 2):
            if not possible(scope, (one, True), (other, True)):
                return one.span, other.span
    return ()


def _plain(condition: Condition, scope: Scope) -> bool:
    """Whether it is sure to hold for some and to fail for others: each finding is asked once and has a choice."""
    found: set[str] = set()
    waiting = [condition]
    while waiting:
        one = waiting.pop()
        if isinstance(one, Not):
            waiting.append(one.of)
        elif isinstance(one, (All, AnyOf)):
            waiting.extend(one.of)
        elif isinstance(one, AtLeast):
            if not 1 <= one.count <= len(one.of):
                return False
            waiting.extend(one.of)
        else:
            name = _asked(one, scope)
            if name is None or name in found:
                return False
            found.add(name)
    return True


def _asked(atom: Fact | IsOneOf | Compare, scope: Scope) -> str | None:
    """The one finding that an atom asks, where by itself it can be yes and can be no; else None."""
    if isinstance(atom, Compare):
        if not isinstance(atom.left, Measured) or not isinstance(atom.right, Constant):
            return None
        finding = scope.findings.get(atom.left.finding)
        inside = finding is not None and _inside(atom.right, finding)
        return atom.left.finding if inside else None
    finding = scope.findings.get(atom.finding)
    if finding is None or finding.rows:
        return None
    if isinstance(atom, IsOneOf) and set(finding.answer.choices) <= set(atom.values):
        return None
    return atom.finding


def _inside(constant: Constant, finding: Finding) -> bool:
    """Whether a threshold lies inside the range, not on its edge, and in the unit of the range."""
    answer, amount = finding.answer, constant.quantity
    if answer.low is None or answer.high is None or (amount.unit not in (None, answer.unit)):
        return False
    return answer.low < amount.value < answer.high
