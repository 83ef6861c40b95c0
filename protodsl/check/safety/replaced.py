"""What is done in the end by whoever has to leave an exercise out for one reason, as the last gate decides it."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import dataclass, field

from protodsl.check.logic.possible import possible
from protodsl.model.condition import AnyOf, Condition, findings_in
from protodsl.model.exercise import Avoid, Exercise
from protodsl.model.protocol import Scope


@dataclass(slots=True)
class Replaced:
    """Follows `instead` lines for one reason; `out` is what is left out, and `barred` what of it was met on the way.

    `circle` is True where a way came back to where it had been: that is named as a circle, and nothing else is said.
    """

    scope: Scope
    reason: Condition
    out: frozenset[str] = frozenset()
    barred: list[str] = field(default_factory=list)
    circle: bool = False

    def end(self, name: str, way: tuple[str, ...]) -> str | None:
        """The first exercise that the reason leaves standing; None where nothing is left."""
        exercise = self.scope.exercises.get(name)
        if exercise is None:
            return None
        if name in way:
            self.circle = True
            return None
        if name in self.out:
            self.barred.append(name)
            return None
        ruling = list(self.ruling(exercise))
        if not ruling:
            return name
        ends = (self.end(line.instead, (*way, name)) for line in ruling if line.instead)
        return next((end for end in ends if end is not None), None)

    def ruling(self, exercise: Exercise) -> Iterator[Avoid]:
        """The lines of an exercise that hold whenever the reason does."""
        for line in exercise.avoid:
            shared = not set(findings_in(self.reason)).isdisjoint(findings_in(line.condition))
            if shared and not possible(self.scope, (self.reason, True), (line.condition, False)):
                yield line


def reasons(condition: Condition) -> Iterable[Condition]:
    """A condition, and for `A or B` each of its parts."""
    return (condition, *condition.of) if isinstance(condition, AnyOf) else (condition,)
