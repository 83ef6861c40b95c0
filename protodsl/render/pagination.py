"""What the laid-out pages show: where each exercise lies, whether one is torn, and what of the safety lines is seen."""

from __future__ import annotations

import itertools
from collections.abc import Iterator, Mapping
from dataclasses import dataclass, field
from typing import Any

Partings = Mapping[str, tuple[int, ...]]
"""For each exercise the numbers of the pieces that begin a page of their own."""


@dataclass(frozen=True, slots=True)
class Layout:
    """What was found on the pages: for each piece of an exercise its pages, for each safety line its words, by page."""

    pieces: Mapping[tuple[str, int], tuple[int, ...]]
    shown: tuple[tuple[str, str, bool], ...]
    fill: tuple[int, ...]
    """How many lines of text stand on each page."""


@dataclass(slots=True)
class _Reading:
    pieces: dict[tuple[str, int], list[int]] = field(default_factory=dict)
    shown: dict[Any, list[tuple[str, bool]]] = field(default_factory=dict)
    ids: dict[Any, str] = field(default_factory=dict)
    fill: list[int] = field(default_factory=list)


def read_layout(document: Any) -> Layout:
    """Walk the boxes of every page once."""
    reading = _Reading()
    for number, page in enumerate(document.pages):
        box = page._page_box
        reading.fill.append(0)
        for child in box.children:
            if type(child).__name__ != "MarginBox":
                _walk(child, number, (page.width, page.height), (), reading)
    shown = tuple(
        (reading.ids[element], "".join(words for words, _ in parts), all(seen for _, seen in parts))
        for element, parts in reading.shown.items()
    )
    return Layout({piece: tuple(pages) for piece, pages in reading.pieces.items()}, shown, tuple(reading.fill))


def torn(layout: Layout, partings: Partings) -> Partings:
    """Where each torn exercise is to be parted, besides where it is already; empty when none is torn.

    A piece begins a new page where the layout broke, but never the last one alone: a line of stations with nothing over
    it says little.
    """
    starts: dict[str, dict[int, int]] = {}
    for (card, piece), pages in layout.pieces.items():
        starts.setdefault(card, {})[piece] = pages[0]
    found = dict(partings)
    for card, pieces in starts.items():
        order = sorted(pieces)
        already = partings.get(card, ())
        for before, piece in itertools.pairwise(order):
            if pieces[piece] != pieces[before] and piece not in already:
                wanted = piece if piece < order[-1] or len(order) < 4 else order[-2]
                if wanted not in already and wanted > max(already, default=0):
                    found[card] = (*already, wanted)
                break
    return found


def _walk(box: Any, page: int, size: tuple[float, float], marked: tuple[Any, ...], reading: _Reading) -> None:
    """One box and those inside it; `marked` are the safety elements it stands in."""
    box = getattr(box, "_box", box)
    element = box.element
    if element is not None and box.element_tag == element.tag:
        part = element.get("data-part")
        if part is not None:
            card, _, piece = part.rpartition("/")
            pages = reading.pieces.setdefault((card, int(piece)), [])
            if page not in pages:
                pages.append(page)
        safety = element.get("data-safety")
        if safety and element not in marked:
            marked = (*marked, element)
            reading.ids[element] = safety
            reading.shown.setdefault(element, [])
    kind = type(box).__name__
    if kind == "TextBox":
        for one in marked:
            reading.shown[one].append((box.text, _can_be_seen(box, size)))
        return
    if kind == "LineBox":
        reading.fill[page] += 1
    for child in getattr(box, "children", ()):
        _walk(child, page, size, marked, reading)


def _can_be_seen(box: Any, size: tuple[float, float]) -> bool:
    """Whether a box of text lies on the page, is visible, and has a size that can be read."""
    style = box.style
    return bool(
        style["visibility"] == "visible"
        and style["font_size"] > 1
        and getattr(style["color"], "alpha", 1) > 0
        and 0 <= box.position_x < size[0]
        and 0 <= box.position_y < size[1]
    )


def nearly_empty(layout: Layout, fewest: int = 4) -> Iterator[int]:
    """The numbers, from 1, of the pages with fewer lines than that."""
    return (number for number, lines in enumerate(layout.fill, 1) if lines < fewest)
