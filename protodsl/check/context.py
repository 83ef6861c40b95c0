"""What the rules share: the clinic's wishes, what an entry has to answer for, and what its protocols reach."""

from __future__ import annotations

import datetime
from collections.abc import Callable, Iterator, Mapping
from dataclasses import dataclass
from typing import NamedTuple

from protodsl.check.conditionals import Conditional, conditionals
from protodsl.check.dosages import dosages
from protodsl.check.doses import Doses
from protodsl.check.given import Given, given
from protodsl.check.reach import Reach, reaches_of
from protodsl.check.texts import Text, texts
from protodsl.diagnostics.diagnostic import Diagnostic
from protodsl.dose.plan import Item
from protodsl.model.clinic import Clinic
from protodsl.model.dose import Dosage
from protodsl.model.exercise import Exercise, Progression
from protodsl.model.figure import Figure
from protodsl.model.finding import Finding
from protodsl.model.protocol import Entry, Phase, Protocol, Scope
from protodsl.model.reach import Reached, gives_of
from protodsl.model.shown import Shown


class InPhase(NamedTuple):
    """An exercise as one phase of a protocol reaches it, with all items of that phase."""

    protocol: Protocol
    phase: Phase
    reached: Reached
    exercise: Exercise
    items: tuple[Item, ...]


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
    doses: Doses
    given: tuple[Given, ...]
    exercises: tuple[tuple[Exercise, Scope], ...]
    progressions: tuple[tuple[Progression, Scope], ...]
    findings: tuple[Finding, ...]
    conditionals: tuple[Conditional, ...]
    dosages: tuple[Dosage, ...]
    texts: tuple[Text, ...]
    shown: Callable[[Figure], tuple[Shown, ...]] | None = None

    def reach(self, protocol: Protocol) -> tuple[Reach, ...]:
        """The phases of a protocol of the entry with what each can come to give."""
        return self.reaches[id(protocol)]

    def in_phases(self, entry: Entry) -> Iterator[InPhase]:
        """Every exercise that every phase of every protocol reaches."""
        for protocol in entry.protocols:
            exercises = protocol.scope.exercises
            for phase, reached, _, items in self.reaches[id(protocol)]:
                if phase is not None:
                    for one in reached:
                        yield InPhase(protocol, phase, one, exercises[one.exercise], items)


Rule = Callable[[Entry, Context], Iterator[Diagnostic]]


def context_of(
    entry: Entry,
    clinic: Clinic,
    as_of: datetime.date | None,
    lacks: Callable[[str], tuple[str, ...]] | None,
    shown: Callable[[Figure], tuple[Shown, ...]] | None = None,
) -> Context:
    """Everything the rules share, looked up once."""
    reaches = {id(protocol): reaches_of(protocol) for protocol in entry.protocols}
    doses = Doses()
    exercises = _exercises(entry, reaches)
    progressions = _progressions(entry)
    findings = tuple(one for one in entry.scope.findings.values() if one.span.path == entry.path or one.rows)
    return Context(
        clinic,
        as_of,
        lacks,
        reaches,
        doses,
        tuple(given(entry.protocols, reaches, doses)),
        exercises,
        progressions,
        findings,
        tuple(conditionals(entry.protocols, exercises, progressions, ((one, entry.scope) for one in findings))),
        tuple({id(one): one for one in dosages(entry.protocols, exercises, progressions)}.values()),
        tuple(texts(entry.protocols, exercises, progressions, findings)),
        shown,
    )


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
