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
    met: set[Point] = set()
    for x, y in seeds:
        i, j = floor(x / cell + 0.5), floor(y / cell + 0.5)
        if value(i, j) >= 0 or any(inside(loop, (i * cell, j * cell)) for loop in loops):
            continue
        walked = _border(value, i, j, cell)
        # A seed at the very edge may lie outside the smoothed loop and lead around the same region again.
        if len(walked) > 5 and walked[0] not in met:
            met.update(walked)
            loops.append(smoothed(walked, smoothing))
    return tuple(loops)


def area(loop: Loop) -> float:
    """Twice the area within a loop; below 0 where it runs the other way round, as around a hole."""
    return sum(ax * by - bx * ay for (ax, ay), (bx, by) in zip(loop, loop[1:] + loop[:1], strict=True))


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


def _border(value: Callable[[int, int], float], i: int, j: int, cell: float) -> Loop:
    """The outer border of the region that (i, j) is in; holes on the way to it are passed over."""
    for _ in range(_LONGEST):
        while value(i - 1, j) < 0:
            i -= 1
        walked = _walk(value, i - 1, j, cell)
        if not walked or area(walked) < 0:
            return walked
        i -= 1
        while value(i, j) >= 0:
            i -= 1
    return ()


def _walk(value: Callable[[int, int], float], i: int, j: int, cell: float) -> Loop:
    """From the crossing between (i, j), outside, and (i + 1, j), inside, around the region and back.

    Cells are named by their corner of least x and y; the walk enters the one below the first crossing, and leaves each
    by the next side, the same way round, that has one corner inside and one outside.
    """
    first = (i, j)
    side = 0
    points: list[Point] = []
    for _ in range(_LONGEST):
        corners = (value(i, j), value(i + 1, j), value(i + 1, j + 1), value(i, j + 1))
        points.append(_crossing(i, j, side, corners, cell))
        for turn in (1, 2, 3):
            leaving = (side + turn) % 4
            if (corners[leaving] < 0) != (corners[(leaving + 1) % 4] < 0):
                break
        dx, dy, side = _NEXT[leaving]
        i, j = i + dx, j + dy
        if (i, j) == first and side == 0:
            return tuple(points)
    return ()


# The cell beyond each side (above, right, below, left), and that side as the cell beyond names it.
_NEXT = ((0, -1, 2), (1, 0, 3), (0, 1, 0), (-1, 0, 1))


def _crossing(i: int, j: int, side: int, corners: tuple[float, float, float, float], cell: float) -> Point:
    one, other = corners[side], corners[(side + 1) % 4]
    share = one / (one - other)
    if side == 0:
        return ((i + share) * cell, j * cell)
    if side == 1:
        return ((i + 1) * cell, (j + share) * cell)
    if side == 2:
        return ((i + 1 - share) * cell, (j + 1) * cell)
    return (i * cell, (j + 1 - share) * cell)
