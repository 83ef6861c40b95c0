"""Whether a formula can hold: a search that splits on what is left open and gives up a branch once it contradicts.

The search is that of Davis, Logemann and Loveland (Commun ACM 1962;5:394-397), over thresholds instead of letters.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from decimal import Decimal
from typing import NamedTuple

from protodsl.check.logic.distances import distances, numbers
from protodsl.check.logic.formula import Among, And, AtMost, Count, Domain, Formula, Key, Or, TooLong

# Formulas looked at: more than any condition a person writes needs; past it nothing is said rather than waited for.
_MOST_STEPS = 20_000


class Example(NamedTuple):
    """Answers and numbers, the latter in base units, with which a formula holds; what is not named may be anything."""

    answers: Mapping[Key, frozenset[str]]
    numbers: Mapping[Key, Decimal]


_Branch = Or | Count


@dataclass(slots=True)
class _Search:
    domain: Domain
    steps: int = 0
    answers: dict[Key, frozenset[str]] = field(default_factory=dict)
    bounds: list[AtMost] = field(default_factory=list)

    def holds(self, waiting: tuple[Formula, ...]) -> bool:
        """Whether everything that waits can hold with what was taken so far; what was taken then stays."""
        self.steps += len(waiting)
        if self.steps > _MOST_STEPS:
            raise TooLong
        answers, taken = dict(self.answers), len(self.bounds)
        branches = self._take(list(waiting))
        if branches is not None:
            if not branches:
                return True
            branches.sort(key=lambda one: len(one.of))
            first, *rest = branches
            if any(self.holds((*choice, *rest)) for choice in _choices(first)):
                return True
        self.answers = answers
        del self.bounds[taken:]
        return False

    def _take(self, waiting: list[Formula]) -> list[_Branch] | None:
        """Take every atom that has to hold; the branches left open, or None where the atoms contradict each other."""
        branches: list[_Branch] = []
        fresh = False
        while waiting:
            one = waiting.pop()
            if isinstance(one, And):
                waiting.extend(one.of)
            elif isinstance(one, Among):
                left = self._left(one.key) & one.values
                if not left:
                    return None
                self.answers[one.key] = left
            elif isinstance(one, AtMost):
                self.bounds.append(one)
                fresh = True
            else:
                branches.append(one)
            if not waiting:
                branches = self._narrowed(branches, waiting)
        if fresh and distances((*self.domain.always, *self.bounds), self.domain.whole) is None:
            return None
        return branches

    def _narrowed(self, branches: list[_Branch], waiting: list[Formula]) -> list[_Branch]:
        """The branches without what the answers rule out and without those they settle; a last way left has to hold."""
        found: list[_Branch] = []
        for one in branches:
            if isinstance(one, Count):
                if one.least > 0:
                    found.append(one)
                continue
            ways = tuple(way for way in one.of if not self._ruled_out(way))
            if len(ways) == 1:
                waiting.append(ways[0])
            elif not any(self._settled(way) for way in ways):
                found.append(Or(ways))
        return found

    def _left(self, key: Key) -> frozenset[str]:
        """The answers that are still open."""
        return self.answers.get(key, self.domain.choices[key])

    def _ruled_out(self, way: Formula) -> bool:
        return isinstance(way, Among) and self._left(way.key).isdisjoint(way.values)

    def _settled(self, way: Formula) -> bool:
        return isinstance(way, Among) and self._left(way.key) <= way.values


def example(formula: Formula, domain: Domain) -> Example | None:
    """Answers and numbers with which the formula holds, or None where it never does; TooLong if that cannot be said."""
    search = _Search(domain)
    if not search.holds((formula,)):
        return None
    asked = {key for bound in search.bounds for key in (bound.left, bound.right) if key is not None}
    found = numbers((*domain.always, *search.bounds), domain.whole) or {}
    return Example(search.answers, {key: number for key, number in found.items() if key in asked})


def _choices(branch: _Branch) -> list[tuple[Formula, ...]]:
    """The ways in which a branch can hold."""
    if isinstance(branch, Or):
        return [(one,) for one in branch.of]
    if branch.least > len(branch.of):
        return []
    first, *rest = branch.of
    return [(first, Count(branch.least - 1, tuple(rest))), (Count(branch.least, tuple(rest)),)]
