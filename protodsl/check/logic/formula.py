"""Formulas over what a person can answer or a clinician can measure, with every `not` pushed down to the atoms."""

from __future__ import annotations

from dataclasses import dataclass
from decimal import Decimal

Key = tuple[str, ...]
"""What is known of a person: its kind, the finding, and the side where it has one."""


@dataclass(frozen=True, slots=True)
class Among:
    """The answer `key` is one of `values`."""

    key: Key
    values: frozenset[str]


@dataclass(frozen=True, slots=True)
class AtMost:
    """`left` - `right` <= `most`, or < where `strict`; None stands for nought."""

    left: Key | None
    right: Key | None
    most: Decimal
    strict: bool = False


@dataclass(frozen=True, slots=True)
class And:
    """All of them; of none: always."""

    of: tuple[Formula, ...] = ()


@dataclass(frozen=True, slots=True)
class Or:
    """At least one of them; of none: never."""

    of: tuple[Formula, ...] = ()


@dataclass(frozen=True, slots=True)
class Count:
    """At least `count` of them."""

    count: int
    of: tuple[Formula, ...]


Formula = Among | AtMost | And | Or | Count


@dataclass(frozen=True, slots=True)
class Domain:
    """What the keys can be: the answers of each choice, which numbers are whole, and what always holds."""

    choices: dict[Key, frozenset[str]]
    whole: set[Key]
    always: list[AtMost]


class TooLong(Exception):
    """Reading or deciding a formula was given up; it never leaves the package's own functions but `example_of`."""
