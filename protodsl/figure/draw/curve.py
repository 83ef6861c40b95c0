"""Few cubic curves through many points, and their path data on a grid of whole numbers."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, field
from math import hypot

from protodsl.figure.draw.contour import Point

# Units of the drawing in a centimetre of a body of 170 cm: on paper of 36 mm a stature a unit is 0.07 mm.
UNITS = 3
# How far a curve may lie from its points, in centimetres.
_TOLERANCE = 0.3
_STRIDES = (3, 5, 8, 12, 18, 26, 38)

Cubic = tuple[Point, Point, Point, Point]


@dataclass(slots=True)
class Pen:
    """Writes path data: places in centimetres of a panel, mirrored or not, moved to where the panel stands (units)."""

    left: int
    top: int
    mirror: bool = False
    _data: list[str] = field(default_factory=list)
    _at: tuple[int, int] = (0, 0)
    _last: str = ""

    def fresh(self) -> Pen:
        """A pen that stands at the same place and has written nothing."""
        return Pen(self.left, self.top, self.mirror)

    def place(self, at: Point) -> tuple[int, int]:
        """A place on the grid of the whole drawing."""
        x, y = round(at[0] * UNITS), round(at[1] * UNITS)
        return (self.left - x if self.mirror else self.left + x), self.top + y

    def closed(self, loop: Sequence[Point]) -> Pen:
        """A smooth closed outline."""
        return self._curves(fitted((*loop, loop[0]), closed=True))._close()

    def open(self, points: Sequence[Point]) -> Pen:
        """A smooth line."""
        return self._curves(fitted(points)) if len(points) > 2 else self.lines(points)

    def lines(self, points: Sequence[Point], close: bool = False) -> Pen:
        """Straight lines from place to place."""
        self._move(points[0])
        for at in points[1:]:
            x, y = self.place(at)
            dx, dy = x - self._at[0], y - self._at[1]
            if dx and dy:
                self._add("l", (dx, dy))
            elif dx:
                self._add("h", (dx,))
            elif dy:
                self._add("v", (dy,))
            self._at = (x, y)
        return self._close() if close else self

    def circle(self, at: Point, radius: float) -> Pen:
        """A whole circle."""
        size = max(1, round(radius * UNITS))
        self._move((at[0] - (-radius if self.mirror else radius), at[1]))
        self._data.append(f"a{size} {size} 0 1 0 {2 * size} 0a{size} {size} 0 1 0-{2 * size} 0z")
        self._last = "z"
        return self

    @property
    def data(self) -> str:
        """The path data so far."""
        return "".join(self._data)

    def _curves(self, cubics: Sequence[Cubic]) -> Pen:
        self._move(cubics[0][0])
        for cubic in cubics:
            ox, oy = self._at
            placed = [self.place(at) for at in cubic[1:]]
            self._add("c", [value for x, y in placed for value in (x - ox, y - oy)])
            self._at = placed[-1]
        return self

    def _move(self, at: Point) -> None:
        x, y = self.place(at)
        self._last = ""
        self._add("M", (x, y))
        self._at = (x, y)

    def _close(self) -> Pen:
        self._data.append("z")
        self._last = "z"
        return self

    def _add(self, letter: str, numbers: Sequence[int]) -> None:
        text = "" if letter == self._last else letter
        for at, number in enumerate(numbers):
            text += f" {number}" if number >= 0 and (at or not text) else str(number)
        self._data.append(text)
        self._last = letter


def fitted(points: Sequence[Point], closed: bool = False) -> list[Cubic]:
    """Cubic curves that keep within 3 mm of the points, as few as a greedy search finds."""
    directions = _directions(points, closed)
    cubics: list[Cubic] = []
    start, last = 0, len(points) - 1
    while start < last:
        best: tuple[int, Cubic] | None = None
        for stride in _STRIDES:
            end = min(last, start + stride)
            cubic = _fit(points, start, end, directions)
            if cubic is None:
                break
            best = (end, cubic)
            if end == last:
                break
        end, cubic = best or (start + 1, _straight(points[start], points[start + 1]))
        cubics.append(cubic)
        start = end
    return cubics


def _directions(points: Sequence[Point], closed: bool) -> list[Point]:
    """The way of the line at each point, from its neighbours."""
    last = len(points) - 1
    found: list[Point] = []
    for at in range(len(points)):
        before = points[at - 1] if at else (points[last - 1] if closed else points[0])
        after = points[at + 1] if at < last else (points[1] if closed else points[last])
        dx, dy = after[0] - before[0], after[1] - before[1]
        size = hypot(dx, dy) or 1.0
        found.append((dx / size, dy / size))
    return found


def _fit(points: Sequence[Point], start: int, end: int, directions: Sequence[Point]) -> Cubic | None:
    """The curve of least squares with the given ends and directions; None where it strays too far.

    After Schneider, "An algorithm for automatically fitting digitized curves", Graphics Gems (1990).
    """
    a, d = points[start], points[end]
    (tx, ty), (wx, wy) = directions[start], (-directions[end][0], -directions[end][1])
    shares = _shares(points, start, end)
    c00 = c01 = c11 = x0 = x1 = 0.0
    for at, t in enumerate(shares, start):
        s = 1 - t
        b0, b1, b2, b3 = s * s * s, 3 * s * s * t, 3 * s * t * t, t * t * t
        rx = points[at][0] - (a[0] * (b0 + b1) + d[0] * (b2 + b3))
        ry = points[at][1] - (a[1] * (b0 + b1) + d[1] * (b2 + b3))
        c00 += b1 * b1
        c01 += b1 * b2
        c11 += b2 * b2
        x0 += b1 * (rx * tx + ry * ty)
        x1 += b2 * (rx * wx + ry * wy)
    c01 *= tx * wx + ty * wy
    chord = hypot(d[0] - a[0], d[1] - a[1])
    whole = c00 * c11 - c01 * c01
    first = second = chord / 3
    if whole > 1e-9:
        first, second = (x0 * c11 - x1 * c01) / whole, (x1 * c00 - x0 * c01) / whole
        if not (0.1 * chord < first < 1.2 * chord and 0.1 * chord < second < 1.2 * chord):
            first = second = chord / 3
    b = (a[0] + tx * first, a[1] + ty * first)
    c = (d[0] + wx * second, d[1] + wy * second)
    for at, t in enumerate(shares, start):
        s = 1 - t
        b0, b1, b2, b3 = s * s * s, 3 * s * s * t, 3 * s * t * t, t * t * t
        dx = b0 * a[0] + b1 * b[0] + b2 * c[0] + b3 * d[0] - points[at][0]
        dy = b0 * a[1] + b1 * b[1] + b2 * c[1] + b3 * d[1] - points[at][1]
        if dx * dx + dy * dy > _TOLERANCE * _TOLERANCE:
            return None
    return a, b, c, d


def _shares(points: Sequence[Point], start: int, end: int) -> list[float]:
    """How far along each point lies, 0 to 1, by the length of the line."""
    lengths = [0.0]
    for at in range(start + 1, end + 1):
        a, b = points[at - 1], points[at]
        lengths.append(lengths[-1] + hypot(b[0] - a[0], b[1] - a[1]))
    whole = lengths[-1] or 1.0
    return [length / whole for length in lengths]


def _straight(a: Point, d: Point) -> Cubic:
    dx, dy = (d[0] - a[0]) / 3, (d[1] - a[1]) / 3
    return a, (a[0] + dx, a[1] + dy), (d[0] - dx, d[1] - dy), d
