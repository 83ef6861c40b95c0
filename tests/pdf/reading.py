"""What a reader of a PDF sees: its text page by page, its tags, and what the layout held."""

from __future__ import annotations

import itertools
import re
from collections.abc import Callable
from dataclasses import dataclass
from io import BytesIO
from typing import Any
from unittest.mock import patch

import pypdf

from protodsl.handout.blocks import Handout
from protodsl.outcome import Outcome
from protodsl.render import Style, pdf
from protodsl.render.pagination import Layout, read_layout
from protodsl.render.typesetting import Typesetter


@dataclass(frozen=True, slots=True)
class Printed:
    """A PDF, the words of each page without spaces (a layout may change those), the layouts tried, the one printed."""

    data: bytes
    pages: tuple[str, ...]
    reader: pypdf.PdfReader
    layouts: tuple[Any, ...]
    final: Any

    @property
    def words(self) -> str:
        """The words of all pages."""
        return "".join(self.pages)

    @property
    def layout(self) -> Layout:
        """What the printed pages hold."""
        return read_layout(self.final)

    def pages_of(self, card: str) -> set[int]:
        """The pages that an exercise lies on."""
        return {piece.page for number, piece in self.layout.exercises[card].items() if number >= 0}

    def overlaps(self) -> list[tuple[str, str]]:
        """The texts that are printed over one another, by the middle of their letters."""
        found = []
        for page in self.final.pages:
            boxes = _texts(page)
            for one, other in itertools.combinations(boxes, 2):
                apart = abs(one.position_y + one.height / 2 - other.position_y - other.height / 2)
                low = apart < 0.3 * (one.style["font_size"] + other.style["font_size"])
                right = min(one.position_x + one.width, other.position_x + other.width)
                if low and right - max(one.position_x, other.position_x) > 1:
                    found.append((one.text, other.text))
        return found

    def texts(self) -> list[Any]:
        """The boxes of text of all pages."""
        return [box for page in self.final.pages for box in _texts(page)]

    def objects(self) -> list[Any]:
        """Every dictionary of the file."""
        numbers = {*self.reader.xref_objStm, *(number for one in self.reader.xref.values() for number in one)}
        return [one for number in sorted(numbers) if isinstance(one := self.reader.get_object(number), dict)]


def squeezed(text: str) -> str:
    """Text without spaces and marks of direction."""
    return re.sub(r"[\s\u200b-\u200f\u2060-\u2069]+", "", text)


def printed(page: Handout[str], style: Style | None = None) -> Printed:
    """The PDF of a handout, which must have been made without a word from the library."""
    return watched(lambda: pdf(page, style or Style()))


def watched(make: Callable[[], Outcome[bytes]]) -> Printed:
    """What is printed by this, read back, with what the library laid out meanwhile."""
    layouts: list[Any] = []
    written: list[Any] = []
    original = Typesetter.pages

    def kept(self: Typesetter, *parts: Any) -> Any:
        made = original(self, *parts)
        write = made.write_pdf

        def writing(*arguments: Any, **options: Any) -> Any:
            written.append(made)
            return write(*arguments, **options)

        made.write_pdf = writing
        layouts.append(made)
        return made

    with patch.object(Typesetter, "pages", kept):
        made = make()
    assert made.value is not None, made.diagnostics
    assert made.diagnostics == ()
    reader = pypdf.PdfReader(BytesIO(made.value))
    pages = tuple(squeezed(one.extract_text()) for one in reader.pages)
    return Printed(made.value, pages, reader, tuple(layouts), written[-1])


def _texts(page: Any) -> list[Any]:
    return [box for box in page._page_box.descendants() if type(box).__name__ == "TextBox" and box.text.strip()]
