"""Yes, no or unknown: Kleene's strong three-valued logic.

Kleene SC. Introduction to Metamathematics. North-Holland, 1952, section 64.
"""

from __future__ import annotations

from collections.abc import Iterable
from enum import Enum


class Truth(Enum):
    """What is known of a condition; unknown is not no."""

    YES = "yes"
    NO = "no"
    UNKNOWN = "unknown"


YES, NO, UNKNOWN = Truth.YES, Truth.NO, Truth.UNKNOWN


def negation(one: Truth) -> Truth:
    """`not`: unknown stays unknown."""
    return YES if one is NO else NO if one is YES else UNKNOWN


def conjunction(several: Iterable[Truth]) -> Truth:
    """`and`: a no decides; yes only where all are yes."""
    found = tuple(several)
    return NO if NO in found else UNKNOWN if UNKNOWN in found else YES


def disjunction(several: Iterable[Truth]) -> Truth:
    """`or`: a yes decides; no only where all are no."""
    found = tuple(several)
    return YES if YES in found else UNKNOWN if UNKNOWN in found else NO


def at_least(count: int, several: Iterable[Truth]) -> Truth:
    """At least `count` of them are yes, whatever the unknown ones turn out to be; no where that cannot be any more."""
    found = tuple(several)
    sure = found.count(YES)
    if sure >= count:
        return YES
    return UNKNOWN if sure + found.count(UNKNOWN) >= count else NO
