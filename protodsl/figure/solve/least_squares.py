"""Levenberg and Marquardt's least squares, with what is written held exactly and the rest as near to a wish as it
can be.

The method is that of Marquardt (1963): damped normal equations, solved by Cholesky's factors. Equalities are penalties
of two stiffnesses: loose, so that the body gets about freely, then so stiff that less than a millimetre is left of
them.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from math import sqrt
from operator import mul

from protodsl.figure.posture import Matrix
from protodsl.figure.solve.demands import Demand, Row
from protodsl.figure.solve.motion import PELVIS, Placement

# The longest step of a number: of the pelvis in cm, of an angle in radians.
STEP_PLACE, STEP_ANGLE = 40.0, 0.5
# How stiff equalities are, and at which share of the cost a step gains too little to go on.
PHASES = ((1 / 60, 1e-4), (1.0, 3e-4))
MOST_STEPS = 45


@dataclass(frozen=True, slots=True)
class Wish:
    """What a number tends to, how far off is little (one unit of cost), and the range it should stay in."""

    number: int
    target: float
    spread: float
    low: float = -1e9
    high: float = 1e9
    edge: float = 0.026


@dataclass(frozen=True, slots=True)
class Fitted:
    """The state found, what is left of the cost, and how many steps it took."""

    state: tuple[float, ...]
    cost: float
    steps: int


def fit(start: Sequence[float], axes: Matrix, wishes: Sequence[Wish], demands: Sequence[Demand]) -> Fitted:
    """The state nearest to all that is asked; a number without a wish stays as it is in `start`."""
    state, steps, cost = tuple(start), 0, 0.0
    for stiffness, enough in PHASES:
        state, cost, taken = _descend(state, axes, wishes, demands, stiffness, enough)
        steps += taken
    return Fitted(state, cost, steps)


def _descend(
    state: tuple[float, ...],
    axes: Matrix,
    wishes: Sequence[Wish],
    demands: Sequence[Demand],
    stiffness: float,
    enough: float,
) -> tuple[tuple[float, ...], float, int]:
    rows = _rows(state, axes, demands, stiffness)
    cost = _cost(state, wishes, rows)
    damping = 1e-3
    for step in range(MOST_STEPS):
        matrix, slope = _normal(state, wishes, rows)
        better = None
        for _ in range(9):
            change = _solved(matrix, slope, damping)
            tried = _moved(state, wishes, change)
            rows_there = _rows(tried, axes, demands, stiffness)
            cost_there = _cost(tried, wishes, rows_there)
            if cost_there < cost:
                better = tried
                break
            damping *= 6.0
        if better is None:
            return state, cost, step
        gained = cost - cost_there
        state, rows, cost = better, rows_there, cost_there
        damping = max(damping / 6.0, 1e-9)
        if gained < enough * cost + 1e-7:
            return state, cost, step + 1
    return state, cost, MOST_STEPS


def _rows(state: Sequence[float], axes: Matrix, demands: Sequence[Demand], stiffness: float) -> list[Row]:
    body = Placement(state, axes)
    return [row for demand in demands for row in demand.rows(body, stiffness)]


def _cost(state: Sequence[float], wishes: Sequence[Wish], rows: Sequence[Row]) -> float:
    cost = 0.0
    for error, _ in rows:
        cost += error * error
    for wish in wishes:
        value = state[wish.number]
        off = (value - wish.target) / wish.spread
        cost += off * off
        if value < wish.low:
            cost += ((value - wish.low) / wish.edge) ** 2
        elif value > wish.high:
            cost += ((value - wish.high) / wish.edge) ** 2
    return cost


def _normal(
    state: Sequence[float], wishes: Sequence[Wish], rows: Sequence[Row]
) -> tuple[list[list[float]], list[float]]:
    """The lower half of the normal matrix, and the right-hand side."""
    count = len(wishes)
    matrix = [[0.0] * (row + 1) for row in range(count)]
    slope = [0.0] * count
    for row, wish in enumerate(wishes):
        value = state[wish.number]
        stiff = 1.0 / (wish.spread * wish.spread)
        slope[row] = (value - wish.target) * stiff
        if not wish.low <= value <= wish.high:
            hard = 1.0 / (wish.edge * wish.edge)
            slope[row] += (value - (wish.low if value < wish.low else wish.high)) * hard
            stiff += hard
        matrix[row][row] = stiff
    numbers = [wish.number for wish in wishes]
    for error, slopes in rows:
        there = [(row, slopes[number]) for row, number in enumerate(numbers) if slopes[number]]
        for count, (row, value) in enumerate(there):
            slope[row] += value * error
            line = matrix[row]
            for other, with_it in there[: count + 1]:
                line[other] += value * with_it
    return matrix, slope


def _solved(matrix: Sequence[Sequence[float]], slope: Sequence[float], damping: float) -> list[float]:
    """The step down: the damped normal equations by Cholesky's factors."""
    factors: list[list[float]] = []
    inverses: list[float] = []
    middle: list[float] = []
    for line, right in zip(matrix, slope, strict=True):
        row: list[float] = []
        for value, above, inverse in zip(line, factors, inverses):  # noqa: B905
            row.append((value - sum(map(mul, row, above))) * inverse)
        own = line[-1] * (1.0 + damping) + 1e-12 - sum(map(mul, row, row))
        root = sqrt(own) if own > 1e-14 else 1e-7
        middle.append((right - sum(map(mul, row, middle))) / root)
        row.append(root)
        factors.append(row)
        inverses.append(1.0 / root)
    for number in range(len(middle) - 1, -1, -1):
        value = middle[number] * inverses[number]
        middle[number] = value
        row = factors[number]
        for other in range(number):
            middle[other] -= row[other] * value
    return middle


def _moved(state: Sequence[float], wishes: Sequence[Wish], change: Sequence[float]) -> tuple[float, ...]:
    moved = list(state)
    for wish, by in zip(wishes, change, strict=True):
        most = STEP_PLACE if wish.number < PELVIS - 3 else STEP_ANGLE
        moved[wish.number] -= max(-most, min(most, by))
    return tuple(moved)
