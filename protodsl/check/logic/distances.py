"""Differences of numbers, `x - y <= c`: whether a set of them can hold at once, and numbers that satisfy them.

They can hold at once where the graph with an edge for each has no circle of negative length (Bellman R. Q Appl Math
1958;16:87-90). A strict `<` is a length with a trace less than nothing; between whole numbers every length is whole.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Set
from decimal import ROUND_CEILING, ROUND_FLOOR, Decimal

from protodsl.check.logic.formula import AtMost, Key

_Length = tuple[Decimal, int]
_NOTHING: _Length = (Decimal(0), 0)
# Traces by which a strict bound is kept away from; the first that fits is used.
_TRACES = (Decimal(1), Decimal("0.5"), Decimal("0.1"), Decimal("0.01"), Decimal("0.001"), Decimal("0.000001"))


def distances(bounds: Iterable[AtMost], whole: Set[Key]) -> dict[Key | None, _Length] | None:
    """A length for each key with which every bound holds, or None where they cannot hold at once."""
    edges = [(one.right, one.left, _length(one, whole)) for one in bounds]
    found: dict[Key | None, _Length] = {end: _NOTHING for edge in edges for end in edge[:2]}
    for _ in range(len(found) + 1):
        changed = False
        for start, end, length in edges:
            there = (found[start][0] + length[0], found[start][1] + length[1])
            if there < found[end]:
                found[end] = there
                changed = True
        if not changed:
            return found
    return None


def numbers(bounds: Iterable[AtMost], whole: Set[Key]) -> Mapping[Key, Decimal] | None:
    """Numbers with which every bound holds, simple ones where there are; None where there are none."""
    listed = list(bounds)
    found = distances(listed, whole)
    if found is None:
        return None
    nought = found.get(None, _NOTHING)
    for trace in _TRACES:
        tried = {
            key: length[0] - nought[0] + (length[1] - nought[1]) * trace
            for key, length in found.items()
            if key is not None
        }
        if all(_holds(one, tried, whole) for one in listed):
            return tried
    return None


def _length(bound: AtMost, whole: Set[Key]) -> _Length:
    ends = [key for key in (bound.left, bound.right) if key is not None]
    if not all(key in whole for key in ends):
        return bound.most, -1 if bound.strict else 0
    if bound.strict:
        return bound.most.to_integral_value(ROUND_CEILING) - 1, 0
    return bound.most.to_integral_value(ROUND_FLOOR), 0


def _holds(bound: AtMost, tried: Mapping[Key, Decimal], whole: Set[Key]) -> bool:
    left = tried[bound.left] if bound.left else Decimal(0)
    right = tried[bound.right] if bound.right else Decimal(0)
    if any(key in whole and tried[key] != tried[key].to_integral_value() for key in (bound.left, bound.right) if key):
        return False
    return left - right < bound.most or (left - right == bound.most and not bound.strict)
