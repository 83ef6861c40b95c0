"""A chart as coordinates: everything a drawing needs but the drawing itself, in units of a point of normal print."""

from __future__ import annotations

from dataclasses import dataclass
from decimal import Decimal

from protodsl.handout.blocks import Chart
from protodsl.render import markdown

WIDTH, HEIGHT = 500, 210
_LEFT, _RIGHT, _TOP, _BOTTOM = 44, 474, 58, 182
# Letters of moves closer than this stand in the other of two rows.
_NARROW = 16
_ROWS = (36, 50)
# Line and point of each line of a chart: they differ in dashes and in shape, not in colour.
_DASHES = ("", "7 3", "2 3", "9 3 2 3")
_SHAPES = ("disc", "ring", "square", "cross")


@dataclass(frozen=True, slots=True)
class Line:
    """One line: the path through its points, where they are, and where its name stands above the chart."""

    name: str
    shape: str
    dashes: str
    path: str
    points: tuple[tuple[str, str], ...]
    at: str


@dataclass(frozen=True, slots=True)
class Mark:
    """The letters of moves over the day on which they were made."""

    letters: str
    x: str
    y: str


@dataclass(frozen=True, slots=True)
class Plot:
    """The whole: its size, the frame, the ticks with their words, the marks and the lines."""

    title: str
    width: int
    height: int
    left: int
    right: int
    top: int
    bottom: int
    rem: str
    dates: tuple[tuple[str, str], ...]
    values: tuple[tuple[str, str], ...]
    marks: tuple[Mark, ...]
    lines: tuple[Line, ...]


def plotted(chart: Chart[str]) -> Plot:
    """The coordinates of a chart; a value at the lowest tick lies on the bottom line, at the highest on the top one."""
    low, high = chart.values[0][0], chart.values[-1][0]

    def across(day: int) -> str:
        return _rounded(_LEFT + Decimal(_RIGHT - _LEFT) * day / chart.days)

    def up(value: Decimal) -> str:
        return _rounded(_BOTTOM - Decimal(_BOTTOM - _TOP) * (value - low) / (high - low))

    lines = []
    for at, line in enumerate(chart.lines):
        points = tuple((across(day), up(value)) for day, value in line.points)
        path = "M" + "L".join(f"{x} {y}" for x, y in points)
        name_at = _rounded(Decimal(_LEFT) + Decimal(WIDTH - _LEFT) * at / len(chart.lines))
        kind = at % len(_SHAPES)
        lines.append(Line(markdown.plain(line.name), _SHAPES[kind], _DASHES[kind], path, points, name_at))
    return Plot(
        title=markdown.plain(chart.alternative),
        width=WIDTH,
        height=HEIGHT,
        left=_LEFT,
        right=_RIGHT,
        top=_TOP,
        bottom=_BOTTOM,
        rem=_rounded(Decimal(WIDTH) / 12),
        dates=tuple((across(day), markdown.plain(words)) for day, words in chart.dates),
        values=tuple((up(value), markdown.plain(words)) for value, words in chart.values),
        marks=_marks([(mark.letters, across(mark.day)) for mark in chart.marks]),
        lines=tuple(lines),
    )


def _marks(letters: list[tuple[str, str]]) -> tuple[Mark, ...]:
    """Letters side by side where there is room, else in two rows by turns."""
    found: list[Mark] = []
    ends = [Decimal(0)] * len(_ROWS)
    for text, x in letters:
        place = Decimal(x)
        row = next((row for row, end in enumerate(ends) if place >= end), len(_ROWS) - 1)
        ends[row] = place + _NARROW * (1 + text.count(" "))
        found.append(Mark(text, x, str(_ROWS[row])))
    return tuple(found)


def _rounded(value: Decimal) -> str:
    """Tenths of a unit, which nobody sees, without idle zeros."""
    return f"{value.quantize(Decimal('0.1')):f}".removesuffix(".0")
