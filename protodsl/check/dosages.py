"""Every layer of dose that an entry answers for."""

from __future__ import annotations

from collections.abc import Iterable, Iterator

from protodsl.model.dose import NO_DOSAGE, Dosage
from protodsl.model.exercise import Exercise, Give, Progression
from protodsl.model.protocol import Protocol, Scope
from protodsl.model.reach import items_of


def dosages(
    protocols: Iterable[Protocol],
    exercises: Iterable[tuple[Exercise, Scope]],
    progressions: Iterable[tuple[Progression, Scope]],
) -> Iterator[Dosage]:
    """The layers that say anything; one that is inherited stands here more than once."""
    found = (
        *(exercise.dosage for exercise, _ in exercises),
        *(one for progression, _ in progressions for one in _of_progression(progression)),
        *(one for protocol in protocols for one in _of_protocol(protocol)),
    )
    yield from (one for one in found if one is not NO_DOSAGE)


def _of_progression(progression: Progression) -> Iterator[Dosage]:
    yield progression.dosage
    for level in progression.levels:
        yield level.dosage
        yield from _of_gives(level.gives)


def _of_protocol(protocol: Protocol) -> Iterator[Dosage]:
    yield protocol.dosage
    yield from _of_gives(items_of(protocol.contents))
    for phase in protocol.phases:
        yield phase.dosage
        yield from _of_gives(items_of(phase.contents))


def _of_gives(gives: Iterable[Give]) -> Iterator[Dosage]:
    for give in gives:
        yield give.dosage
