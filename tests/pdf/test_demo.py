"""The pages of the demo clinic's sheets: none of a few lines, no exercise torn that fits a page, STOP on the first."""

from __future__ import annotations

from collections.abc import Mapping
from datetime import date
from functools import cache
from pathlib import Path

import pytest

from protodsl.asked import Asked
from protodsl.compiler import Checked, check_project, make_handout
from protodsl.formats import PDF
from protodsl.outcome import Outcome
from protodsl.project import open_project
from protodsl.render.pagination import Piece, nearly_empty
from tests.pdf.reading import Printed, watched

DEMO = Path(__file__).parents[2] / "protocols_demo"
# Every review date of the demo lies after this day.
DAY = date(2026, 11, 25)
# What a page that goes on with an exercise holds besides: a rule, the name and its space, on two lines (CSS px).
CONTINUED = 75


@cache
def demo() -> Checked:
    """The demo project, checked once."""
    return check_project(open_project(DEMO), (DEMO,), DAY)


PROTOCOLS = {
    protocol.name: (entry, protocol)
    for entry in demo().entries
    if entry.value is not None
    for protocol in entry.value.protocols
}
protocols = pytest.mark.parametrize("name", PROTOCOLS)


@cache
def sheet(name: str, large: bool = False) -> Printed:
    """A sheet of the demo as it is printed."""
    asked = Asked(formats=(PDF,), large_print=large)

    def made() -> Outcome[bytes]:
        outcome = make_handout(demo(), *PROTOCOLS[name], asked)
        return Outcome(outcome.value[PDF] if outcome.value else None, outcome.diagnostics)

    return watched(made)


@protocols
def test_no_page_but_the_last_holds_under_five_lines(name: str) -> None:
    layout = sheet(name).layout
    assert [page for page in nearly_empty(layout, 5) if page < len(layout.fill)] == []


@protocols
def test_an_exercise_is_torn_only_where_it_is_longer_than_a_page(name: str) -> None:
    layout = sheet(name).layout
    assert layout.exercises
    for card, pieces in layout.exercises.items():
        heights = heights_by_page(pieces)
        taken = sum(heights.values()) - CONTINUED * (len(heights) - 1)
        assert len(heights) == 1 or taken > layout.room, card


@protocols
def test_stop_begins_on_the_first_page_and_is_whole_there(name: str) -> None:
    """Whole in normal print: each of its groups, as the marks by which safety lines are found again say."""
    made = sheet(name)
    assert "STOP" in made.pages[0]
    assert stop_pages(made) == {0}


@pytest.mark.parametrize("name", list(PROTOCOLS)[:3])
def test_large_print_has_what_is_most_urgent_on_the_first_page(name: str) -> None:
    """The signs to call for help at once and those to stop for; no group of signs is torn."""
    made = sheet(name, large=True)
    groups = group_pages(made)
    assert groups[:2] == [{0}, {0}]
    assert all(len(pages) == 1 for pages in groups)


def heights_by_page(pieces: Mapping[int, Piece]) -> dict[int, float]:
    """The height of an exercise on each of its pages (CSS px): the first piece there holds those that follow it."""
    heights: dict[int, float] = {}
    for number in sorted(pieces):
        if number >= 0:
            heights.setdefault(pieces[number].page, pieces[number].height)
    return heights


def stop_pages(made: Printed) -> set[int]:
    """The pages, from 0, that the STOP frame lies on."""
    return set().union(*group_pages(made))


def group_pages(made: Printed) -> list[set[int]]:
    """For each group of the STOP frame, the pages from 0 that its text lies on."""
    found: dict[object, set[int]] = {}
    for number, page in enumerate(made.final.pages):
        for box in page._page_box.descendants():
            element = box.element
            is_group = element is not None and (element.get("class") or "").split()[:1] == ["row"]
            if is_group and box.element_tag == "div" and _in_stop(box):
                found.setdefault(element, set()).add(number)
    return list(found.values())


def _in_stop(group: object) -> bool:
    """Whether a row is a group of the STOP frame: it holds the mark of one."""
    inner = group.element.iter()  # type: ignore[attr-defined]
    return any((one.get("data-safety") or "").startswith("stop/group/") for one in inner)
