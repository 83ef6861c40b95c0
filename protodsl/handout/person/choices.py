"""The items of a plan as lines: each alone, those of one choice that is still open together, option by option."""

from __future__ import annotations

from collections.abc import Iterable

from protodsl.decide.plan import PlannedItem
from protodsl.source import Span

Line = tuple[tuple[PlannedItem, ...], ...]


def lines_of(items: Iterable[PlannedItem]) -> tuple[Line, ...]:
    """In the order of the plan, each line as its options; a choice stands where its first item does.

    An option is what the protocol gives by one line: an exercise, or all exercises of one step of a progression.
    """
    found: dict[object, dict[str, list[PlannedItem]]] = {}
    for at, item in enumerate(items):
        key: int | Span = item.choice if item.choice is not None and item.options else at
        found.setdefault(key, {}).setdefault(item.item, []).append(item)
    return tuple(tuple(tuple(option) for option in line.values()) for line in found.values())


def is_open(line: Line) -> bool:
    """Whether there is something to choose."""
    return len(line) > 1
