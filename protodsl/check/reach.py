"""What every phase of every protocol can come to give, looked up once."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from typing import NamedTuple

from protodsl.dose.plan import Alternatives, Item, groups
from protodsl.model.protocol import Phase, Protocol
from protodsl.model.reach import Reached, exercises_reached


class Reach(NamedTuple):
    """A phase of a protocol (None: a protocol without phases), all exercises it can come to give, and what it gives.

    `groups` are what is given as items and alternatives, `items` the same in one row; what only stands in for another
    exercise is no item.
    """

    phase: Phase | None
    reached: tuple[Reached, ...]
    groups: tuple[Item | Alternatives, ...]
    items: tuple[Item, ...]


def reaches_of(protocol: Protocol) -> tuple[Reach, ...]:
    """One for each phase, or one for the whole of a protocol without phases."""
    phases: Iterable[Phase | None] = protocol.phases or (None,)
    return tuple(_reach(protocol, phase) for phase in phases)


def _reach(protocol: Protocol, phase: Phase | None) -> Reach:
    reached = exercises_reached(protocol, phase)
    found = groups(protocol, phase)
    names = {one.exercise for one in reached}
    return Reach(phase, reached, found, tuple(item for item in _flat(found) if item.exercise in names))


def _flat(found: Iterable[Item | Alternatives]) -> Iterator[Item]:
    for one in found:
        if isinstance(one, Item):
            yield one
        else:
            for option in one.options:
                yield from _flat(option)
