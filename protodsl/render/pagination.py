"""What the laid-out pages show: where each exercise lies, whether one is torn, and what of the safety lines is seen."""

from __future__ import annotations

import itertools
from collections.abc import Iterator, Mapping
from dataclasses import dataclass, field
from typing import Any


@dataclass(frozen=True, slots=True)
class Breaks:
    """What is done about exercises that are too long for a page, by their ids.

    First one that is a little too long is set tight; `tight` keeps the piece at which it tore. Where that does not help
    it is parted: `partings` are the pieces that begin a page of their own.
    """

    tight: Mapping[str, int] = field(default_factory=dict)
    partings: Mapping[str, tuple[int, ...]] = field(default_factory=dict)


UNBROKEN = Breaks()
# An exercise of which more pieces than this do not fit is not worth trying to set tight.
_FEW_PIECES = 3


@dataclass(frozen=True, slots=True)
class Layout:
    """What was found on the pages: for each piece of an exercise its pages, for each safety line its words, by page."""

    pieces: Mapping[tuple[str, int], tuple[int, ...]]
    shown: tuple[tuple[str, str, bool], ...]
    fill: tuple[int, ...]
    """How many lines of text stand on each page."""
    strays: tuple[str, ...] = ()
    """The words of floats that were torn at the end of a page, whose rest stands alone at the head of the next."""


@dataclass(slots=True)
class _Reading:
    pieces: dict[tuple[str, int], list[int]] = field(default_factory=dict)
    shown: dict[Any, list[tuple[str, bool]]] = field(default_factory=dict)
    ids: dict[Any, str] = field(default_factory=dict)
    fill: list[int] = field(default_factory=list)
    strays: list[str] = field(default_factory=list)


def read_layout(document: Any) -> Layout:
    """Walk the boxes of every page once."""
    reading = _Reading()
    for number, page in enumerate(document.pages):
        box = page._page_box
        reading.fill.append(0)
        for child in box.children:
            if type(child).__name__ != "MarginBox":
                _walk(child, number, (page.width, page.height), (), reading)
            if child.element_tag == "html":
                reading.strays += [_words(one) for one in child.children if one.element_tag != "body"]
    shown = tuple(
        (reading.ids[element], "".join(words for words, _ in parts), all(seen for _, seen in parts))
        for element, parts in reading.shown.items()
    )
    return Layout(
        {piece: tuple(pages) for piece, pages in reading.pieces.items()},
        shown,
        tuple(reading.fill),
        tuple(reading.strays),
    )


def mended(layout: Layout, breaks: Breaks) -> Breaks:
    """The breaks with something done about each torn exercise; the same ones when none is torn."""
    starts: dict[str, dict[int, int]] = {}
    for (card, piece), pages in layout.pieces.items():
        starts.setdefault(card, {})[piece] = pages[0]
    tight, partings = dict(breaks.tight), dict(breaks.partings)
    for card, pieces in starts.items():
        tear = _tear(pieces, partings.get(card, ()))
        if tear is None:
            continue
        if card in tight:
            partings[card] = (tight.pop(card),)
        elif card not in partings and len(pieces) - sorted(pieces).index(tear) <= _FEW_PIECES:
            tight[card] = tear
        else:
            partings[card] = (*partings.get(card, ()), tear)
    return Breaks(tight, partings)


def _tear(pieces: Mapping[int, int], partings: tuple[int, ...]) -> int | None:
    """The piece at which an exercise is to be parted: where it tore, but never the last one alone.

    A line of stations with nothing over it says little.
    """
    order = sorted(pieces)
    for before, piece in itertools.pairwise(order):
        if pieces[piece] != pieces[before] and piece not in partings:
            wanted = piece if piece < order[-1] or len(order) < 4 else order[-2]
            return wanted if wanted > max(partings, default=0) else None
    return None


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


def _words(box: Any) -> str:
    """The words in a box."""
    boxes = box.descendants() if hasattr(box, "descendants") else ()
    return " ".join("".join(one.text for one in boxes if type(one).__name__ == "TextBox").split())


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


def nearly_empty(layout: Layout, fewest: int) -> Iterator[int]:
    """The numbers, from 1, of the pages with fewer lines than that."""
    return (number for number, lines in enumerate(layout.fill, 1) if lines < fewest)
