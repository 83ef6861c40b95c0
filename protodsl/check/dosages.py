"""Every layer of dose that an entry answers for."""

from __future__ import annotations

from collections.abc import Iterable, Iterator

from protodsl.check.damage import DOSE_KEYWORDS, lost
from protodsl.model.dose import NO_DOSAGE, Dosage
from protodsl.model.exercise import Exercise, Give, Progression
from protodsl.model.protocol import Protocol, Scope
from protodsl.model.reach import items_of


def dosages(
    protocols: Iterable[Protocol],
    exercises: Iterable[tuple[Exercise, Scope]],
    progressions: Iterable[tuple[Progression, Scope]],
) -> Iterator[Dosage]:
    """The layers that say anything; one that is inherited stands here more than once.

    A declaration of which lines are missing is left out: a table with a hole may have been whole.
    """
    found = (
        *(one.dosage for one, _ in exercises if not lost(one.damaged, *DOSE_KEYWORDS)),
        *(layer for one, _ in progressions if not lost(one.damaged, "level") for layer in _of_progression(one)),
        *(layer for one in protocols if not lost(one.damaged, "phase", "give") for layer in _of_protocol(one)),
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
