"""Which joints of a drawn figure count: a figure is written for the right side, and that may be the affected one."""

from __future__ import annotations

from collections.abc import Iterable

from protodsl.model.exercise import Exercise
from protodsl.model.figure_sides import SIDES, names_a_side
from protodsl.model.shown import Shown

AFFECTED = "affected"
# Degrees that an angle which nobody wrote may be off what is meant: it follows from the rest of the pose.
SLACK = 5


def sides_shown(exercise: Exercise, dose_sides: Iterable[str | None]) -> tuple[str, ...]:
    """The sides of the drawing that a rule for the affected joint looks at.

    The right one alone where the figure shows one side and every dose of the exercise is for the affected side; both
    otherwise, because the affected joint may then be on either.
    """
    one_sided = exercise.figure is not None and names_a_side(exercise.figure)
    return SIDES[:1] if one_sided and set(dose_sides) == {AFFECTED} else SIDES


def largest(shown: Iterable[Shown], joint: str, movement: str, sides: Iterable[str]) -> Shown | None:
    """The pose that goes furthest, among those in which the joint is turned this way; None where none is."""
    of_it = [one for one in shown if (one.joint, one.movement) == (joint, movement) and one.side in (*sides, "")]
    return max(of_it, key=lambda one: one.degrees, default=None)
