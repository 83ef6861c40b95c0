"""Whether anybody can be found for whom conditions hold, or fail, at once."""

from __future__ import annotations

from collections.abc import Iterable

from protodsl.check.logic.formula import And, TooLong, negation
from protodsl.check.logic.reading import Reading
from protodsl.check.logic.search import Example, example
from protodsl.model.condition import All, AnyOf, AtLeast, Condition, Not, Side
from protodsl.model.protocol import Scope

Wanted = tuple[Condition, bool]
"""A condition, and whether it is to be yes (True) or no (False)."""


def possible(scope: Scope, *wanted: Wanted) -> bool:
    """Whether all can be as wanted for one person; True as well where that cannot be said."""
    try:
        return example_of(scope, *wanted) is not None
    except TooLong:
        return True


def example_of(scope: Scope, *wanted: Wanted) -> Example | None:
    """Answers and numbers with which all are as wanted; None where there are none; TooLong if it cannot be said."""
    for affected in _sides(condition for condition, _ in wanted):
        reading = Reading(scope, affected)
        formula = And(tuple(reading.formula(condition, yes) for condition, yes in wanted))
        found = example(formula, reading.domain)
        if found is not None:
            return found
    return None


def certain(scope: Scope, condition: Condition) -> bool:
    """Whether it is yes for everybody of whom everything is known; False as well where that cannot be said.

    Not the same as never being no: a derived finding without a row that holds is unknown.
    """
    try:
        for affected in _sides((condition,)):
            reading = Reading(scope, affected)
            formula = reading.formula(condition)
            if example(negation(formula, reading.domain), reading.domain) is not None:
                return False
    except TooLong:
        return False
    return True


def _sides(conditions: Iterable[Condition]) -> tuple[str, ...]:
    """The sides that may be the affected one: both where that makes a difference."""
    return ("right", "left") if any(map(_asks_side, conditions)) else ("right",)


def _asks_side(condition: Condition) -> bool:
    """Whether it depends on which side is the affected one."""
    if isinstance(condition, Not):
        return _asks_side(condition.of)
    if isinstance(condition, (All, AnyOf, AtLeast)):
        return any(_asks_side(one) for one in condition.of)
    return condition.side in (Side.AFFECTED, Side.OTHER)
