"""The items of a plan as lines: each alone, those of one choice together."""

from __future__ import annotations

from collections.abc import Iterable

from protodsl.decide.plan import PlannedItem
from protodsl.source import Span


def lines_of(items: Iterable[PlannedItem]) -> tuple[tuple[PlannedItem, ...], ...]:
    """In the order of the plan; a choice that is still open stands where its first item does."""
    found: dict[object, list[PlannedItem]] = {}
    for at, item in enumerate(items):
        key: int | Span = item.choice if item.choice is not None and item.options else at
        found.setdefault(key, []).append(item)
    return tuple(tuple(line) for line in found.values())
