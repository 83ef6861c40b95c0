"""What the rules share: the clinic's wishes, what an entry has to answer for, and what its protocols reach."""

from __future__ import annotations

import datetime
from collections.abc import Callable, Iterable, Iterator, Mapping
from dataclasses import dataclass
from typing import NamedTuple

from protodsl.check.conditionals import Conditional, conditionals
from protodsl.check.dosages import dosages
from protodsl.check.texts import Text, texts
from protodsl.diagnostics.diagnostic import Diagnostic
from protodsl.dose.plan import Item, items
from protodsl.model.clinic import Clinic
from protodsl.model.dose import Dosage
from protodsl.model.exercise import Exercise, Progression
from protodsl.model.finding import Finding
from protodsl.model.protocol import Entry, Phase, Protocol, Scope
from protodsl.model.reach import Reached, exercises_reached, gives_of


class Reach(NamedTuple):
    """A phase of a protocol (None: a protocol without phases), all exercises it can come to give, and its own items.

    An item is an exercise as it is given, alone or in a level; what only stands in for another is no item.
    """

    phase: Phase | None
    reached: tuple[Reached, ...]
    items: tuple[Item, ...]




class InPhase(NamedTuple):
    """An exercise as one phase of a protocol reaches it."""

    protocol: Protocol
    phase: Phase
    reached: Reached
    exercise: Exercise


@dataclass(frozen=True, slots=True)
class Context:
    """What rules may look at besides the entry.

    An entry answers for what it declares itself and for what its protocols reach; the rest of a library is checked
    with the library. `exercises`, `progressions` and `findings` hold that, each once, as the protocols changed it.
    """

    clinic: Clinic
    as_of: datetime.date | None
    lacks: Callable[[str], tuple[str, ...]] | None
    reaches: Mapping[int, tuple[Reach, ...]]
    exercises: tuple[tuple[Exercise, Scope], ...]
    progressions: tuple[tuple[Progression, Scope], ...]
    findings: tuple[Finding, ...]
    conditionals: tuple[Conditional, ...]
    dosages: tuple[Dosage, ...]
    texts: tuple[Text, ...]

    def reach(self, protocol: Protocol) -> tuple[Reach, ...]:
        """The phases of a protocol of the entry with what each can come to give."""
        return self.reaches[id(protocol)]

    def in_phases(self, entry: Entry) -> Iterator[InPhase]:
        """Every exercise that every phase of every protocol reaches."""
        for protocol in entry.protocols:
            exercises = protocol.scope.exercises
            for phase, reached, _ in self.reaches[id(protocol)]:
                if phase is not None:
                    for one in reached:
                        yield InPhase(protocol, phase, one, exercises[one.exercise])


Rule = Callable[[Entry, Context], Iterator[Diagnostic]]


def context_of(
    entry: Entry,
    clinic: Clinic,
    as_of: datetime.date | None,
    lacks: Callable[[str], tuple[str, ...]] | None,
) -> Context:
    """Everything the rules share, looked up once."""
    reaches = {id(protocol): _reaches(protocol) for protocol in entry.protocols}
    exercises = _exercises(entry, reaches)
    progressions = _progressions(entry)
    findings = tuple(one for one in entry.scope.findings.values() if one.span.path == entry.path or one.rows)
    return Context(
        clinic,
        as_of,
        lacks,
        reaches,
        exercises,
        progressions,
        findings,
        tuple(conditionals(entry.protocols, exercises, progressions, ((one, entry.scope) for one in findings))),
        tuple({id(one): one for one in dosages(entry.protocols, exercises, progressions)}.values()),
        tuple(texts(entry.protocols, exercises, progressions, findings)),
    )


def _reaches(protocol: Protocol) -> tuple[Reach, ...]:
    phases: Iterable[Phase | None] = protocol.phases or (None,)
    return tuple(_reach(protocol, phase) for phase in phases)


def _reach(protocol: Protocol, phase: Phase | None) -> Reach:
    reached = exercises_reached(protocol, phase)
    names = {one.exercise for one in reached}
    return Reach(phase, reached, tuple(item for item in items(protocol, phase) if item.exercise in names))


def _exercises(entry: Entry, reaches: Mapping[int, tuple[Reach, ...]]) -> tuple[tuple[Exercise, Scope], ...]:
    """Each exercise once; one that a protocol changed stands beside the one that was declared."""
    found = {id(one): (one, entry.scope) for one in entry.scope.exercises.values() if one.span.path == entry.path}
    for protocol in entry.protocols:
        for reach in reaches[id(protocol)]:
            for reached in reach.reached:
                exercise = protocol.scope.exercises[reached.exercise]
                found.setdefault(id(exercise), (exercise, protocol.scope))
    return tuple(found.values())


def _progressions(entry: Entry) -> tuple[tuple[Progression, Scope], ...]:
    found = {id(one): (one, entry.scope) for one in entry.scope.progressions.values() if one.span.path == entry.path}
    for protocol in entry.protocols:
        for give in gives_of(protocol, None):
            progression = protocol.scope.progressions.get(give.item)
            if progression is not None:
                found.setdefault(id(progression), (progression, protocol.scope))
    return tuple(found.values())
