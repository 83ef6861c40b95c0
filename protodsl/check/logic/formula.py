"""Formulas over what a person can answer or a clinician can measure, with every `not` pushed down to the atoms."""

from __future__ import annotations

from decimal import Decimal
from typing import NamedTuple

Key = tuple[str, ...]
"""What is known of a person: its kind, the finding, and the side where it has one."""


class Among(NamedTuple):
    """The answer `key` is one of `values`."""

    key: Key
    values: frozenset[str]


class AtMost(NamedTuple):
    """`left` - `right` <= `most`, or < where `strict`; None stands for nought."""

    left: Key | None
    right: Key | None
    most: Decimal
    strict: bool = False


class And(NamedTuple):
    """All of them; of none: always."""

    of: tuple[Formula, ...] = ()


class Or(NamedTuple):
    """At least one of them; of none: never."""

    of: tuple[Formula, ...] = ()


class Count(NamedTuple):
    """At least `least` of them."""

    least: int
    of: tuple[Formula, ...]


Formula = Among | AtMost | And | Or | Count


class Domain(NamedTuple):
    """What the keys can be: the answers of each choice, which numbers are whole, and what always holds."""

    choices: dict[Key, frozenset[str]]
    whole: set[Key]
    always: list[AtMost]


def negation(formula: Formula, domain: Domain) -> Formula:
    """A formula that holds wherever the other one does not."""
    if isinstance(formula, Among):
        return Among(formula.key, domain.choices[formula.key] - formula.values)
    if isinstance(formula, AtMost):
        return AtMost(formula.right, formula.left, -formula.most, not formula.strict)
    parts = tuple(negation(one, domain) for one in formula.of)
    if isinstance(formula, Count):
        return Count(len(parts) - formula.least + 1, parts)
    return Or(parts) if isinstance(formula, And) else And(parts)


class TooLong(Exception):
    """Reading or deciding a formula was given up; it never leaves the package's own functions but `example_of`."""
