"""What the laid-out pages show: where each exercise lies, whether one is torn, and what of the safety lines is seen."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass, field
from typing import Any


@dataclass(frozen=True, slots=True)
class Piece:
    """Where a piece of an exercise begins, its height there, and how far its foot is above the page's (CSS px)."""

    page: int
    height: float
    below: float


@dataclass(frozen=True, slots=True)
class Layout:
    """What was found on the pages: the pieces of each exercise, and each safety line with its words.

    `fill` is how many lines of text stand on each page, `room` the height that a page has for them (CSS px); `strays`
    are the words of floats that were torn at the end of a page, so the rest stands alone at the head of the next.
    `used` is the share of the height of each page down to its last line, `margins` the words in its margins.
    """

    exercises: Mapping[str, Mapping[int, Piece]]
    shown: tuple[tuple[str, str, bool], ...]
    fill: tuple[int, ...]
    strays: tuple[str, ...] = ()
    room: float = 0
    used: tuple[float, ...] = ()
    margins: tuple[str, ...] = ()


@dataclass(slots=True)
class _Reading:
    """What is being found; `width`, `height`, `foot` and `room` are those of the page that is walked."""

    exercises: dict[str, dict[int, Piece]] = field(default_factory=dict)
    shown: dict[Any, list[tuple[str, bool]]] = field(default_factory=dict)
    fill: list[int] = field(default_factory=list)
    strays: list[str] = field(default_factory=list)
    used: list[float] = field(default_factory=list)
    margins: list[str] = field(default_factory=list)
    width: float = 0
    height: float = 0
    foot: float = 0
    room: float = 0


def read_layout(document: Any) -> Layout:
    """Walk the boxes of every page once."""
    reading = _Reading()
    for page in document.pages:
        box = page._page_box
        reading.fill.append(0)
        reading.used.append(0)
        reading.width, reading.height, reading.foot = page.width, page.height, box.content_box_y() + box.height
        reading.room = box.height
        reading.margins.append(" ".join(_words(one) for one in box.children if type(one).__name__ == "MarginBox"))
        for child in box.children:
            if type(child).__name__ != "MarginBox":
                _walk(child, (), reading)
            if child.element_tag == "html":
                reading.strays += [_words(one) for one in child.children if one.element_tag != "body"]
    shown = tuple(
        (element.get("data-safety"), "".join(words for words, _ in parts), all(seen for _, seen in parts))
        for element, parts in reading.shown.items()
    )
    return Layout(
        reading.exercises,
        shown,
        tuple(reading.fill),
        tuple(reading.strays),
        reading.room,
        tuple(reading.used),
        tuple(reading.margins),
    )


def nearly_empty(layout: Layout, fewest: int) -> Iterator[int]:
    """The numbers, from 1, of the pages with fewer lines than that."""
    return (number for number, lines in enumerate(layout.fill, 1) if lines < fewest)


def half_empty(layout: Layout, least: float) -> bool:
    """Whether a page before the first exercise is used to less than this share."""
    first = min((piece.page for pieces in layout.exercises.values() for piece in pieces.values()), default=0)
    return any(share < least for share in layout.used[:first])


def _walk(box: Any, marked: tuple[Any, ...], reading: _Reading) -> None:
    """One box and those inside it; `marked` are the safety elements it stands in."""
    box = getattr(box, "_box", box)
    element = box.element
    if element is not None and box.element_tag == element.tag:
        if element.get("data-part"):
            _note_piece(box, element.get("data-part"), reading)
        if element.get("data-safety") and element not in marked:
            marked = (*marked, element)
            reading.shown.setdefault(element, [])
    kind = type(box).__name__
    if kind == "TextBox":
        for one in marked:
            reading.shown[one].append((box.text, _can_be_seen(box, reading)))
        return
    if kind == "LineBox":
        reading.fill[-1] += 1
        low = 1 - (reading.foot - box.position_y - box.height) / reading.room
        reading.used[-1] = max(reading.used[-1], low)
    for child in getattr(box, "children", ()):
        _walk(child, marked, reading)


def _note_piece(box: Any, part: str, reading: _Reading) -> None:
    """Only where a piece begins: it may go on overleaf."""
    exercise, _, number = part.rpartition("/")
    height = box.margin_height()
    piece = Piece(len(reading.fill) - 1, height, reading.foot - box.position_y - height)
    reading.exercises.setdefault(exercise, {}).setdefault(int(number), piece)


def _words(box: Any) -> str:
    """The words in a box."""
    boxes = box.descendants() if hasattr(box, "descendants") else ()
    return " ".join("".join(one.text for one in boxes if type(one).__name__ == "TextBox").split())


def _can_be_seen(box: Any, reading: _Reading) -> bool:
    """Whether a box of text lies on the page, is visible, and has a size that can be read."""
    style = box.style
    return bool(
        style["visibility"] == "visible"
        and style["font_size"] > 1
        and getattr(style["color"], "alpha", 1) > 0
        and 0 <= box.position_x < reading.width
        and 0 <= box.position_y < reading.height
    )
