"""What every part of a sheet needs to know: which exercises there are, their numbers, and how each is used."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field

from protodsl.dose.plan import Item as Given
from protodsl.dose.plan import items
from protodsl.handout.options import Options
from protodsl.handout.phrase import Phrase, Written
from protodsl.handout.words import number, say
from protodsl.model.clinic import Clinic
from protodsl.model.dose import Dosage
from protodsl.model.exercise import Exercise
from protodsl.model.protocol import Phase, Protocol
from protodsl.model.reach import exercises_reached
from protodsl.source import Span


@dataclass(frozen=True, slots=True)
class Use:
    """One way an exercise is used: in a phase (None: at any time), as a level of a progression, or by itself."""

    phase: Phase | None
    layers: tuple[Dosage, ...]
    given: Given | None = None


@dataclass(frozen=True, slots=True)
class Draft:
    """A protocol about to become a handout; exercises are numbered from 1 in the order in which they are given.

    Exercises that only take the place of another come after all that are given. `reach` holds by phase ("" where there
    is none) what can be met in it; it is empty on the sheet of one person, where all that is printed is for today.
    """

    protocol: Protocol
    clinic: Clinic
    options: Options
    numbers: Mapping[str, int]
    uses: Mapping[str, tuple[Use, ...]]
    reach: Mapping[str, frozenset[str]] = field(default_factory=dict)

    def origin(self, span: Span) -> str:
        """Where a line stands: `ankle.protocol:41`; the path alone where its text is not at hand."""
        source = self.options.sources.get(span.path)
        return f"{span.path}:{source.position(span.start)[0]}" if source else span.path

    def exercises(self) -> tuple[Exercise, ...]:
        """Every exercise of the sheet, in the order of their numbers."""
        return tuple(self.protocol.scope.exercises[name] for name in self.numbers)

    def exercise(self, name: str) -> Phrase:
        """An exercise by number and title: `exercise 4 (Seated heel raise)`; by name where it is not on the sheet."""
        found = self.protocol.scope.exercises.get(name)
        if found is None or name not in self.numbers:
            return say("exercise.other", title=Written(found.title)) if found else NO_EXERCISE
        return say("exercise.named", number=number(self.numbers[name]), title=Written(found.title))

    def by_number(self, name: str) -> Phrase:
        """An exercise by its number alone, where its name stands beside it; by name where it is not on the sheet."""
        at = self.numbers.get(name)
        return self.exercise(name) if at is None else say("exercise.number", number=number(at))


NO_EXERCISE = say("exercise.none")


def draft(protocol: Protocol, clinic: Clinic, options: Options) -> Draft:
    """Find the exercises of a protocol, number them, and gather their uses."""
    uses: dict[str, list[Use]] = {}
    for phase in protocol.phases or (None,):
        for item in items(protocol, phase):
            uses.setdefault(item.exercise, []).append(Use(phase, item.layers, item))
    given = frozenset(uses)
    reach: dict[str, frozenset[str]] = {}
    for phase in protocol.phases or (None,):
        outer = (phase.dosage, protocol.dosage) if phase else (protocol.dosage,)
        met = exercises_reached(protocol, phase)
        reach[phase.name if phase else ""] = frozenset(reached.exercise for reached in met)
        for reached in met:
            if reached.exercise not in given:
                own = protocol.scope.exercises[reached.exercise].dosage
                uses.setdefault(reached.exercise, []).append(Use(phase, (own, *outer)))
    numbers = {name: at for at, name in enumerate(uses, 1)}
    return Draft(protocol, clinic, options, numbers, {name: tuple(found) for name, found in uses.items()}, reach)
