"""The page of a handout in chapters: what comes before the exercises, the exercises, what comes after them."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from xml.etree.ElementTree import Element

_CARD = "card"


@dataclass(frozen=True, slots=True)
class Entry:
    """A line of the table of contents: its words, where it leads within the chapter, and the lines below it."""

    words: str
    anchor: str
    below: tuple[Entry, ...] = ()


@dataclass(frozen=True, slots=True)
class Chapter:
    """Part of the page, with what the table of contents says of it."""

    name: str
    elements: tuple[Element, ...]
    contents: tuple[Entry, ...]

    @property
    def has_drawings(self) -> bool:
        """Whether there is SVG in it."""
        return any(found.tag.endswith("}svg") for element in self.elements for found in element.iter())


def chapters(body: Element) -> tuple[Chapter, ...]:
    """The body of a page in one to three chapters, without the parts that a pen is needed for."""
    _unwrap_captions(body)
    _drop_what_needs_a_pen(body)
    groups: list[list[Element]] = [[]]
    in_exercises = False
    for element in _flat(body):
        if any(_has_class(inner, _CARD) for inner in element.iter()) != in_exercises:
            in_exercises = not in_exercises
            groups.append([])
        groups[-1].append(element)
    filled = [group for group in groups if group]
    return tuple(
        Chapter(f"part-{number}.xhtml", tuple(group), tuple(_contents(group, number)))
        for number, group in enumerate(filled, 1)
    )


def _flat(body: Element) -> Iterator[Element]:
    """The children of the body, those of `main` in its place."""
    for element in body:
        if element.tag == "main":
            yield from element
        else:
            yield element


def _unwrap_captions(body: Element) -> None:
    """A caption is a child of its figure (HTML, 4.4.13); for paper the two are held together by an element more."""
    for figure in body.iter("figure"):
        for box in [one for one in figure.findall("div") if one.find("figcaption") is not None]:
            at = list(figure).index(box)
            figure.remove(box)
            for child in reversed(box):
                figure.insert(at, child)


def _drop_what_needs_a_pen(body: Element) -> None:
    """Sections to write on: a device that shows books cannot be written on."""
    for parent in list(body.iter()):
        for section in [one for one in parent.findall("section") if _needs_a_pen(one)]:
            parent.remove(section)


def _needs_a_pen(section: Element) -> bool:
    return any(_has_class(inner, "diary") or _has_class(inner, "write") for inner in section.iter())


def _contents(group: Iterable[Element], chapter: int) -> Iterator[Entry]:
    for at, element in enumerate(group, 1):
        below = tuple(
            Entry(_words(head), _anchor(card, f"part-{chapter}-{at}-{number}"))
            for number, card in enumerate((one for one in element.iter() if _has_class(one, _CARD)), 1)
            if (head := _first_head(card)) is not None
        )
        head = _first_head(element)
        if head is None:
            continue
        if below and _words(head) == below[0].words:
            yield from below
        else:
            yield Entry(_words(head), _anchor(element, f"part-{chapter}-{at}"), below)


def _anchor(element: Element, otherwise: str) -> str:
    """The element's id; it gets one where it has none."""
    if not element.get("id"):
        element.set("id", otherwise)
    return element.attrib["id"]


def _first_head(element: Element) -> Element | None:
    return next((one for one in element.iter() if one.tag in ("h1", "h2", "h3")), None)


def _words(element: Element) -> str:
    return " ".join("".join(element.itertext()).split())


def _has_class(element: Element, name: str) -> bool:
    return name in element.get("class", "").split()
