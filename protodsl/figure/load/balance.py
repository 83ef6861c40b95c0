"""The forces that keep a body in balance: one estimate, and between what they can be."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from protodsl.figure.body.vectors import add, cross, dot, minus, times
from protodsl.figure.load.held import METRE, Held, other_side
from protodsl.figure.load.least_forces import least_forces
from protodsl.figure.load.simplex import Tableau
from protodsl.figure.load.supports import Support
from protodsl.figure.posture import Vector
from protodsl.figure.solve.demands import spread

# How much of a press a surface can hold sideways: skin, cloth or a sole on a mat or floor. The project's own.
FRICTION = 0.5
# How much dearer a force at the edge of the friction cone is than one straight up: people press rather than rub.
_DEAR = 9.0


@dataclass(frozen=True, slots=True)
class Push:
    """One way to push back: forces (N) at the supports by their numbers, for a coefficient of one."""

    at: tuple[tuple[int, Vector], ...]
    cost: float


class Balance:
    """The forces that can carry a body: rows that must hold, and the ways to push, as columns."""

    __slots__ = ("held", "pushes", "right", "rows", "tableau")

    def __init__(self, held: Held, friction: float = FRICTION) -> None:
        """Write down the conditions of balance, and find out whether they can be met."""
        self.held = held
        self.pushes = tuple(_pushes(held, friction))
        self.rows, self.right = _conditions(held, self.pushes)
        self.tableau = Tableau(self.rows, self.right)

    @property
    def possible(self) -> bool:
        """Whether the body can be carried so at all."""
        return self.tableau.feasible

    def forces(self) -> tuple[Vector, ...]:
        """The estimate: of all forces within the friction cone those with the least sum of squares, by support (N)."""
        found = least_forces(self.rows, self.right, [push.cost for push in self.pushes])
        if found is None:
            self.tableau.least([push.cost for push in self.pushes])
            found = self.tableau.point()
        forces = [(0.0, 0.0, 0.0)] * len(self.held.supports)
        for amount, push in zip(found, self.pushes, strict=True):
            for number, force in push.at:
                forces[number] = add(forces[number], times(force, amount))
        return tuple(forces)

    def least_and_most(self, of: Sequence[Vector]) -> tuple[float, float]:
        """How little and how much the sum of `of` times each support's force can be."""
        cost = [sum(dot(of[number], force) for number, force in push.at) for push in self.pushes]
        return self.tableau.least(cost), -self.tableau.least([-one for one in cost])


def _pushes(held: Held, friction: float) -> Iterator[Push]:
    """Straight and at the four edges of an inner pyramid of the friction cone; of an even body both sides at once."""
    middle = held.frames["pelvis"].origin[1]
    for number, one in enumerate(held.supports):
        twin = number
        if held.even:
            twin = _twin(held.supports, one, middle)
            if twin < number:
                continue
        first, second = spread(one.normal)
        for cost, along in ((1.0, (0.0, 0.0, 0.0)), *((_DEAR, way) for way in (first, second))):
            for sign in (1.0, -1.0) if cost != 1.0 else (1.0,):
                force = add(one.normal, times(along, sign * friction))
                if not held.even:
                    yield Push(((number, force),), cost)
                else:
                    yield Push(((number, force), (twin, (force[0], -force[1], force[2]))), 2 * cost)


def _twin(supports: Sequence[Support], one: Support, middle: float) -> int:
    """The support on the other side of an even body."""
    x, y, z = one.at
    mirror = (x, 2 * middle - y, z)
    return min(
        (number for number, other in enumerate(supports) if other.segment == other_side(one.segment)),
        key=lambda number: sum((a - b) ** 2 for a, b in zip(supports[number].at, mirror, strict=True)),
    )


def _conditions(held: Held, pushes: Sequence[Push]) -> tuple[list[list[float]], list[float]]:
    """No force and no moment is left over; of an even body three of the six conditions hold by themselves.

    Moments are taken about the pelvis, so that the rows are of one size.
    """
    about = times(held.frames["pelvis"].origin, METRE)
    columns = []
    for push in pushes:
        whole = [0.0] * 6
        for number, force in push.at:
            moment = cross(minus(times(held.supports[number].at, METRE), about), force)
            whole = [a + b for a, b in zip(whole, (*force, *moment), strict=True)]
        columns.append(whole)
    right = [0.0] * 6
    for _, at, newtons in held.pulls():
        force = (0.0, 0.0, newtons)
        right = [a + b for a, b in zip(right, (*force, *cross(minus(at, about), force)), strict=True)]
    kept = (0, 2, 4) if held.even else range(6)
    return [[column[row] for column in columns] for row in kept], [right[row] for row in kept]
