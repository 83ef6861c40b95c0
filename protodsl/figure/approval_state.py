"""Every drawing of some exercises, once, with whether somebody has approved it as it is drawn now."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import dataclass

from protodsl.diagnostics import approvals as say
from protodsl.diagnostics.diagnostic import Diagnostic
from protodsl.figure.approval import APPROVED, CHANGED, NEVER, Approval, Approvals
from protodsl.figure.figures import Figures
from protodsl.model.exercise import Exercise
from protodsl.model.figure import Figure
from protodsl.model.figure_sides import moves_left_alone
from protodsl.source import Span

IMPOSSIBLE = "impossible"


@dataclass(frozen=True, slots=True)
class Sight:
    """A figure as it is drawn: under the name of the exercise it was written for, and of those that took it over.

    `state` is one of `approval`'s, or IMPOSSIBLE where no body can do it: it is not drawn then. `approval` is the line
    that counts (None: there is none), of another drawing where `state` is CHANGED.
    """

    exercise: Exercise
    figure: Figure
    also: tuple[str, ...]
    digest: str
    state: str
    approval: Approval | None

    @property
    def names(self) -> tuple[str, ...]:
        """All exercises that have this drawing, the one it was written for first."""
        return (self.exercise.name, *self.also)


def sights(
    exercises: Iterable[Exercise], approvals: Approvals, figures: Figures, draw_all: bool = False
) -> tuple[Sight, ...]:
    """The drawings in the order of their places; one that a variant takes over unchanged is looked at once.

    What was never approved is not drawn to say so, unless `draw_all`; its digest is then "", too.
    """
    groups: dict[tuple[Span, tuple[str, ...], str], list[tuple[Exercise, Figure]]] = {}
    for one in exercises:
        if one.figure is not None:
            key = one.figure.span, one.works, figures.text(one.figure)
            groups.setdefault(key, []).append((one, one.figure))
    return tuple(_sight(groups[key], approvals, figures, draw_all) for key in sorted(groups))


def said_of(found: Iterable[Sight]) -> Iterator[Diagnostic]:
    """A diagnostic for each drawing that nobody has approved, or that has changed since."""
    for sight in found:
        if sight.state == CHANGED and sight.approval is not None:
            yield say.changed(sight.exercise.name, sight.approval.on, sight.approval.by, sight.figure.span)
        elif sight.state == NEVER:
            left = moves_left_alone(sight.figure)
            yield say.never_approved(sight.exercise.name, sight.figure.span, left)


def _sight(
    group: list[tuple[Exercise, Figure]], approvals: Approvals, figures: Figures, draw_all: bool
) -> Sight:
    first, figure = min(group, key=_distance)
    names = list(dict.fromkeys((first.name, *sorted(one.name for one, _ in group))))
    known = [name for name in names if approvals.knows(name)]
    digest = figures.digest(figure, first.works) if known or draw_all else None
    if figures.solved(figure).value is None:
        return Sight(first, figure, tuple(names[1:]), "", IMPOSSIBLE, None)
    if digest is None or not known:
        return Sight(first, figure, tuple(names[1:]), digest or "", NEVER, None)
    name = next((one for one in known if approvals.state(one, digest) == APPROVED), known[0])
    state, line = approvals.state(name, digest), approvals.line(name, digest)
    return Sight(first, figure, tuple(names[1:]), digest, state, line)


def _distance(one: tuple[Exercise, Figure]) -> tuple[bool, int, str]:
    """How far a figure stands under the head of an exercise: the nearest head is that of its own."""
    exercise, figure = one
    far = figure.span.start - exercise.span.start
    return exercise.span.path != figure.span.path or far < 0, abs(far), exercise.name
