"""Whether a formula can hold: a search that splits on what is left open and gives up a branch once it contradicts.

The search is that of Davis, Logemann and Loveland (Commun ACM 1962;5:394-397), over thresholds instead of letters.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from decimal import Decimal

from protodsl.check.logic.distances import distances, numbers
from protodsl.check.logic.formula import Among, And, AtMost, Count, Domain, Formula, Key, Or

# More branches than any condition a person writes; past it nothing is said rather than waited for.
_MOST_STEPS = 5000


class TooLong(Exception):
    """The search was given up."""


@dataclass(frozen=True, slots=True)
class Example:
    """Answers and numbers, the latter in base units, with which a formula holds; what is not named may be anything."""

    answers: Mapping[Key, frozenset[str]]
    numbers: Mapping[Key, Decimal]


@dataclass(slots=True)
class _Search:
    domain: Domain
    steps: int = 0
    answers: dict[Key, frozenset[str]] = field(default_factory=dict)
    bounds: list[AtMost] = field(default_factory=list)

    def holds(self, waiting: tuple[Formula, ...]) -> bool:
        """Whether everything that waits can hold with what was taken so far; what was taken then stays."""
        self.steps += 1
        if self.steps > _MOST_STEPS:
            raise TooLong
        answers, taken = dict(self.answers), len(self.bounds)
        branches: list[Or | Count] = []
        if self._take(list(waiting), branches):
            if not branches:
                return True
            branches.sort(key=lambda one: len(one.of))
            first, *rest = branches
            if any(self.holds((*choice, *rest)) for choice in _choices(first)):
                return True
        self.answers = answers
        del self.bounds[taken:]
        return False

    def _take(self, waiting: list[Formula], branches: list[Or | Count]) -> bool:
        """Take every atom that has to hold; False where they contradict each other."""
        fresh = False
        while waiting:
            one = waiting.pop()
            if isinstance(one, And):
                waiting.extend(one.of)
            elif isinstance(one, Among):
                left = self.answers.get(one.key, self.domain.choices[one.key]) & one.values
                if not left:
                    return False
                self.answers[one.key] = left
            elif isinstance(one, AtMost):
                self.bounds.append(one)
                fresh = True
            elif isinstance(one, Or) and len(one.of) == 1:
                waiting.append(one.of[0])
            elif not isinstance(one, Count) or one.count > 0:
                branches.append(one)
        return not fresh or distances((*self.domain.always, *self.bounds), self.domain.whole) is not None


def example(formula: Formula, domain: Domain) -> Example | None:
    """Answers and numbers with which the formula holds, or None where it never does; TooLong if that cannot be said."""
    search = _Search(domain)
    if not search.holds((formula,)):
        return None
    asked = {key for bound in search.bounds for key in (bound.left, bound.right) if key is not None}
    found = numbers((*domain.always, *search.bounds), domain.whole) or {}
    return Example(search.answers, {key: number for key, number in found.items() if key in asked})


def _choices(branch: Or | Count) -> list[tuple[Formula, ...]]:
    """The ways in which a branch can hold."""
    if isinstance(branch, Or):
        return [(one,) for one in branch.of]
    if branch.count > len(branch.of):
        return []
    first, *rest = branch.of
    return [(first, Count(branch.count - 1, tuple(rest))), (Count(branch.count, tuple(rest)),)]
