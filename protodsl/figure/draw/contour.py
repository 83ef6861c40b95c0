"""Closed outlines of whatever a function is negative in: cells of a grid walked along its border, then smoothed."""

from __future__ import annotations

from collections.abc import Callable, Iterable
from math import floor

Point = tuple[float, float]
Loop = tuple[Point, ...]
Field = Callable[[float, float], float]

# A walk longer than any outline has lost its way; it is given up rather than going on for ever.
_LONGEST = 6000


def outlines(field: Field, seeds: Iterable[Point], cell: float = 1.0, smoothing: int = 2) -> tuple[Loop, ...]:
    """The borders of the regions that hold the seeds, each once, inside on the left hand (down is positive)."""
    grid: dict[tuple[int, int], float] = {}

    def value(i: int, j: int) -> float:
        found = grid.get((i, j))
        if found is None:
            # Never quite nought, so that no border runs through a corner.
            found = grid[(i, j)] = field(i * cell, j * cell) or 1e-9
        return found

    loops: list[Loop] = []
    for x, y in seeds:
        i, j = floor(x / cell + 0.5), floor(y / cell + 0.5)
        if value(i, j) >= 0 or any(inside(loop, (i * cell, j * cell)) for loop in loops):
            continue
        while value(i - 1, j) < 0:
            i -= 1
        walked = _walk(value, i - 1, j, cell)
        if len(walked) > 5:
            loops.append(smoothed(walked, smoothing))
    return tuple(loops)


def smoothed(loop: Loop, passes: int) -> Loop:
    """The loop with each point drawn towards its neighbours, so that joints round off."""
    for _ in range(passes):
        before, after = loop[-1:] + loop[:-1], loop[1:] + loop[:1]
        loop = tuple(
            (0.25 * a[0] + 0.5 * b[0] + 0.25 * c[0], 0.25 * a[1] + 0.5 * b[1] + 0.25 * c[1])
            for a, b, c in zip(before, loop, after, strict=True)
        )
    return loop


def inside(loop: Loop, at: Point) -> bool:
    """Whether a place lies within a closed loop."""
    x, y = at
    odd = False
    ax, ay = loop[-1]
    for bx, by in loop:
        if (ay > y) != (by > y) and x < ax + (y - ay) / (by - ay) * (bx - ax):
            odd = not odd
        ax, ay = bx, by
    return odd


def _walk(value: Callable[[int, int], float], i: int, j: int, cell: float) -> Loop:
    """From the crossing between (i, j), outside, and (i + 1, j), inside, around the region and back."""
    # A crossing is an edge of the grid: its corner and whether it runs right (0) or down (1).
    edge = first = (i, j, 0)
    # Cells are named by their corner of least x and y; the walk enters the one below the edge.
    ci, cj = i, j
    points: list[Point] = []
    for _ in range(_LONGEST):
        points.append(_crossing(value, edge, cell))
        around = ((ci, cj, 0), (ci + 1, cj, 1), (ci, cj + 1, 0), (ci, cj, 1))
        start = around.index(edge)
        for turn in (1, 2, 3):
            side = (start + turn) % 4
            edge = around[side]
            if _crossed(value, edge):
                break
        ci, cj = ((ci, cj - 1), (ci + 1, cj), (ci, cj + 1), (ci - 1, cj))[side]
        if edge == first:
            return tuple(points)
    return ()


def _crossed(value: Callable[[int, int], float], edge: tuple[int, int, int]) -> bool:
    i, j, down = edge
    return (value(i, j) < 0) != (value(i, j + 1) < 0 if down else value(i + 1, j) < 0)


def _crossing(value: Callable[[int, int], float], edge: tuple[int, int, int], cell: float) -> Point:
    i, j, down = edge
    one = value(i, j)
    other = value(i, j + 1) if down else value(i + 1, j)
    share = one / (one - other)
    return (i * cell, (j + share) * cell) if down else ((i + share) * cell, j * cell)
