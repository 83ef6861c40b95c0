"""The least value of a linear form over what is feasible: Dantzig's simplex method on a dense tableau, in two phases.

Problems here have three or six rows and at most some hundred columns. Where Dantzig's rule has gone on for long,
Bland's (1977) takes over, which cannot go round in circles.
"""

from __future__ import annotations

from collections.abc import Sequence
from math import inf

_SMALL = 1e-9
_PIVOT = 1e-8
_DANTZIG, _MOST = 300, 3000


class Tableau:
    """All x >= 0 with `rows` x = `right`; `feasible` is False where there is none."""

    __slots__ = ("_basis", "_lines", "_start", "count", "feasible")

    def __init__(self, rows: Sequence[Sequence[float]], right: Sequence[float]) -> None:
        """Find a first basis, from artificial columns; rows that say nothing new are dropped."""
        self.count = len(rows[0]) if rows else 0
        largest = max((abs(value) for row in rows for value in row), default=1.0) or 1.0
        lines: list[list[float]] = []
        for at, (row, value) in enumerate(zip(rows, right, strict=True)):
            sign = -1.0 if value < 0 else 1.0
            artificial = [1.0 if at == other else 0.0 for other in range(len(rows))]
            lines.append([sign * one / largest for one in row] + artificial + [sign * value / largest])
        self._lines = lines
        self._basis = [self.count + at for at in range(len(rows))]
        scale = max((line[-1] for line in lines), default=0.0)
        cost = [0.0] * self.count + [1.0] * len(rows)
        left, _ = self._descend(cost, self.count)
        self.feasible = left <= 1e-7 * max(1.0, scale)
        if self.feasible:
            self._drive_out()
        self._start = ([list(line) for line in self._lines], list(self._basis))

    def least(self, cost: Sequence[float]) -> float:
        """The least of `cost` times x; minus infinity where there is none. The tableau must be feasible."""
        self._lines, self._basis = [list(line) for line in self._start[0]], list(self._start[1])
        value, bounded = self._descend(cost, self.count)
        return value if bounded else -inf

    def point(self) -> list[float]:
        """The feasible corner that was looked at last."""
        found = [0.0] * self.count
        for line, number in zip(self._lines, self._basis, strict=True):
            if number < self.count:
                found[number] = max(0.0, line[-1])
        return found

    def _descend(self, cost: Sequence[float], columns: int) -> tuple[float, bool]:
        """Down from basis to basis, by columns below `columns`; the value reached, and whether there is a bottom."""
        reduced = [*cost, *([0.0] * (len(self._lines[0]) - len(cost)))] if self._lines else [*cost, 0.0]
        for line, number in zip(self._lines, self._basis, strict=True):
            _subtract(reduced, line, reduced[number])
        edge = _SMALL * max(1.0, *(abs(one) for one in cost)) if cost else _SMALL
        for step in range(_MOST):
            if step < _DANTZIG:
                entering = min(range(columns), key=reduced.__getitem__, default=-1)
                entering = -1 if entering < 0 or reduced[entering] >= -edge else entering
            else:
                entering = next((at for at in range(columns) if reduced[at] < -edge), -1)
            if entering < 0:
                break
            leaving = self._leaving(entering)
            if leaving < 0:
                return -inf, False
            self._turn(leaving, entering)
            _subtract(reduced, self._lines[leaving], reduced[entering])
        return -reduced[-1], True

    def _leaving(self, entering: int) -> int:
        """The row that bounds the step; of equal ones that with the lowest number in the basis."""
        found, least = -1, inf
        for at, line in enumerate(self._lines):
            if line[entering] > _PIVOT:
                ratio = line[-1] / line[entering]
                if ratio < least - 1e-12 or (ratio <= least + 1e-12 and self._basis[at] < self._basis[found]):
                    found, least = at, min(ratio, least)
        return found

    def _turn(self, leaving: int, entering: int) -> None:
        line = self._lines[leaving]
        pivot = line[entering]
        line[:] = [value / pivot for value in line]
        for other in self._lines:
            if other is not line and other[entering]:
                _subtract(other, line, other[entering])
        self._basis[leaving] = entering

    def _drive_out(self) -> None:
        """Artificial columns out of the basis; a row in which nothing else is left says nothing new."""
        for at in reversed(range(len(self._lines))):
            if self._basis[at] < self.count:
                continue
            line = self._lines[at]
            entering = max(range(self.count), key=lambda number: abs(line[number]), default=-1)
            if entering < 0 or abs(line[entering]) < 1e-7:
                del self._lines[at], self._basis[at]
            else:
                self._turn(at, entering)


def _subtract(line: list[float], other: Sequence[float], factor: float) -> None:
    if factor:
        line[:] = [one - factor * two for one, two in zip(line, other, strict=True)]
