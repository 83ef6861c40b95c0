"""A chart as it is drawn: where its points lie, that it reads without colour, and what it says in words."""

from __future__ import annotations

import re
from dataclasses import replace
from decimal import Decimal
from xml.etree.ElementTree import Element, fromstring

from hypothesis import given
from hypothesis import strategies as st

from protodsl.handout.blocks import Chart, ChartLine, ChartMark, Section
from protodsl.render import Style, html
from protodsl.render.chart import plotted
from tests.unit.render import others

_SVG = "{http://www.w3.org/2000/svg}"
_CHART = Chart(
    caption="Pain",
    alternative="Pain: 3 values.",
    days=10,
    lines=tuple(
        ChartLine(name, ((0, Decimal(at)), (4, Decimal(5)), (10, Decimal(10 - at))))
        for at, name in enumerate(("pain", "next morning", "left", "right"))
    ),
    marks=(ChartMark(4, "A B"), ChartMark(5, "C")),
    dates=((0, "2 Nov"), (7, "9 Nov")),
    values=((Decimal(0), "0"), (Decimal(5), "5"), (Decimal(10), "10")),
)


def _drawn(chart: Chart[str]) -> Element:
    page = replace(others.clinician(), sections=(Section("charts", "Over time", (chart,)),))
    made = html(page, Style())
    assert made.value is not None and made.diagnostics == ()
    found = re.search(r"<svg.*?</svg>", made.value, re.S)
    assert found is not None
    return fromstring(found[0])


def test_it_says_what_it_shows() -> None:
    """The first element is the title, which readers read out and PDF tags hold (SVG 1.1, 5.4)."""
    svg = _drawn(_CHART)
    assert svg[0].tag == f"{_SVG}title" and svg[0].text == "Pain: 3 values."
    words = [text.text for text in svg.iter(f"{_SVG}text")]
    assert {"0", "5", "10", "2 Nov", "9 Nov", "A B", "C", "pain", "next morning", "left", "right"} == set(words)


def test_no_words_are_smaller_than_the_text() -> None:
    """A unit of the drawing is a point: as many points wide as units, 12 of them to a rem; every size is 12."""
    svg = _drawn(_CHART)
    width = Decimal(svg.attrib["viewBox"].split()[2])
    rem = Decimal(str(re.search(r"width:([\d.]+)rem", svg.attrib["style"])[1]))  # type: ignore[index]
    assert abs(rem * 12 - width) < 1
    assert {element.get("font-size") for element in svg.iter() if element.get("font-size")} == {"12"}


def test_lines_differ_without_colour() -> None:
    """One ink; each line has its own dashes and its own shape of point."""
    svg = _drawn(_CHART)
    inks = {element.get(name) for element in svg.iter() for name in ("stroke", "fill")} - {None, "none"}
    assert inks == {"#1b242b", "#8b8f8d", "#fff"}
    lines = plotted(_CHART).lines
    assert len({line.dashes for line in lines}) == len({line.shape for line in lines}) == len(lines) == 4


def test_points_lie_where_their_values_are() -> None:
    """The lowest tick is the bottom line, the highest the top one, the first day the left edge, the last the right."""
    plot = plotted(_CHART)
    assert plot.lines[0].points[0] == (str(plot.left), str(plot.bottom))
    assert plot.lines[0].points[2] == (str(plot.right), str(plot.top))
    assert Decimal(plot.lines[0].points[1][1]) == Decimal(plot.top + plot.bottom) / 2


def test_letters_close_together_stand_in_two_rows() -> None:
    """Moves on neighbouring days do not print over one another."""
    first, second = plotted(replace(_CHART, days=100)).marks
    assert first.y != second.y
    apart = plotted(replace(_CHART, marks=(ChartMark(0, "A"), ChartMark(9, "B")))).marks
    assert apart[0].y == apart[1].y


@given(st.lists(st.tuples(st.integers(0, 400), st.decimals(-50, 500, places=1)), min_size=1, max_size=20))
def test_a_higher_value_is_drawn_higher_and_a_later_one_further_right(points: list[tuple[int, Decimal]]) -> None:
    """Whatever the numbers; to the tenth of a point, and never outside the frame."""
    points.sort()
    values = [value for _, value in points]
    low, high = min(values), max(values) + 1
    chart = replace(
        _CHART,
        days=400,
        lines=(ChartLine("x", tuple(points)),),
        values=((low, "low"), (high, "high")),
    )
    plot = plotted(chart)
    where = [(Decimal(x), -Decimal(y)) for x, y in plot.lines[0].points]
    for (day, value), (x, y) in zip(points, where, strict=True):
        assert plot.left <= x <= plot.right and plot.top <= -y <= plot.bottom
        for (other_day, other), (other_x, other_y) in zip(points, where, strict=True):
            assert x >= other_x or day < other_day
            assert y >= other_y or value < other
