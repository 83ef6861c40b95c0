"""The gentlest forces that balance a body: a small quadratic programme with coefficients that are never negative."""

from __future__ import annotations

from collections.abc import Sequence

# A column of the conditions, and one over its cost.
_Column = tuple[tuple[float, ...], float]


def least_forces(rows: Sequence[Sequence[float]], right: Sequence[float], cost: Sequence[float]) -> list[float] | None:
    """The x >= 0 with rows x = right and the least sum of cost times x squared; None where it is not found.

    By Newton's method on the dual, which has as few unknowns as there are rows, and is convex and smooth.
    """
    count = len(rows)
    columns = [(tuple(row[at] for row in rows), 1.0 / one) for at, one in enumerate(cost)]
    whole = max(abs(value) for value in right) or 1.0
    dual = [0.0] * count

    def slope(at: Sequence[float]) -> tuple[float, list[float], list[tuple[tuple[float, ...], float]]]:
        value, down = 0.0, [-one for one in right]
        active = []
        for column, cheap in columns:
            along = sum(a * b for a, b in zip(column, at, strict=True))
            if along > 0:
                value += 0.5 * cheap * along * along
                active.append((column, cheap))
                for row in range(count):
                    down[row] += column[row] * cheap * along
        return value - sum(a * b for a, b in zip(right, at, strict=True)), down, active

    # Every push a little at first, so that the first step has something to turn on.
    value, down, active = slope(dual)
    for step in range(80):
        if max(abs(one) for one in down) <= 1e-11 * whole:
            return [
                max(0.0, cheap * sum(a * b for a, b in zip(column, dual, strict=True))) for column, cheap in columns
            ]
        change = _solved(active if step else columns, down, count)
        part = 1.0
        for _ in range(40):
            tried = [a - part * b for a, b in zip(dual, change, strict=True)]
            there, down_there, active_there = slope(tried)
            if there < value or max(abs(one) for one in down_there) <= 1e-11 * whole:
                break
            part /= 2
        else:
            return None
        dual, value, down, active = tried, there, down_there, active_there
    return None


def _solved(active: Sequence[tuple[tuple[float, ...], float]], right: Sequence[float], count: int) -> list[float]:
    """The step of Newton's method: Gauss's elimination of a small symmetric matrix."""
    matrix = [
        [sum(cheap * column[a] * column[b] for column, cheap in active) for b in range(count)] + [right[a]]
        for a in range(count)
    ]
    ridge = 1e-10 * max(1e-6, *(matrix[at][at] for at in range(count)))
    for at in range(count):
        matrix[at][at] += ridge
    for at in range(count):
        best = max(range(at, count), key=lambda row: abs(matrix[row][at]))
        matrix[at], matrix[best] = matrix[best], matrix[at]
        for row in range(at + 1, count):
            factor = matrix[row][at] / matrix[at][at]
            matrix[row] = [a - factor * b for a, b in zip(matrix[row], matrix[at], strict=True)]
    found = [0.0] * count
    for at in reversed(range(count)):
        known = sum(matrix[at][other] * found[other] for other in range(at + 1, count))
        found[at] = (matrix[at][count] - known) / matrix[at][at]
    return found
