"""Longer words and the other direction fit the paper: every text is printed whole, on the page, over no other."""

from __future__ import annotations

import re
import subprocess
import unicodedata
from collections.abc import Iterator
from pathlib import Path
from xml.etree.ElementTree import Element, fromstring

import pytest

from tests.pdf.reading import squeezed
from tests.pseudo.pages import PRINTED, SPELLS, page, printed

languages = pytest.mark.parametrize("language", SPELLS)
names = pytest.mark.parametrize("name", PRINTED)

# Points of 1/72 inch: what a desktop printer leaves white at an edge, with room to spare (common practice, no source).
MARGIN = 10 / 25.4 * 72
# What a browser shows and a sheet of paper has no use for.
_ON_SCREEN = ("style", "script", "nav", "button", "svg")


@languages
@names
def test_no_text_is_printed_over_another(name: str, language: str) -> None:
    overlaps = printed(name, language).overlaps()
    # The number of an exercise is far taller than its line: it reaches down beside the side-head, never into it.
    assert [pair for pair in overlaps if not pair[0].isdigit()] == []


@languages
@names
def test_no_word_leaves_the_page(name: str, language: str, tmp_path: Path) -> None:
    """The boxes of words as Poppler finds them; a word that is cut off at the edge ends outside of the margin."""
    outside = []
    for sheet in _boxes(printed(name, language).data, tmp_path):
        width, height = float(sheet.get("width", 0)), float(sheet.get("height", 0))
        for word in sheet:
            left, right = float(word.get("xMin", 0)), float(word.get("xMax", 0))
            top, bottom = float(word.get("yMin", 0)), float(word.get("yMax", 0))
            if left < MARGIN or right > width - MARGIN or top < 0 or bottom > height - MARGIN / 2:
                outside.append((word.text, left, right))
    assert outside == []


@languages
@names
def test_every_word_of_the_page_is_printed(name: str, language: str) -> None:
    """Every word of the page of HTML stands in the PDF."""
    text = printed(name, language).words
    words = {word for piece in _texts(next(page(name, language).root.iter("body"))) for word in piece.split()}
    assert len(words) > 40
    if language == "ar":
        # A PDF is read in the order on paper; the letters that stand there are the same.
        assert {sign for word in words for sign in squeezed(word)} <= set(unicodedata.normalize("NFKC", text))
    else:
        assert {word for word in words if squeezed(word) not in text} == set()


def _boxes(data: bytes, folder: Path) -> list[Element]:
    """The pages of a PDF with the boxes of their words."""
    source = folder / "page.pdf"
    source.write_bytes(data)
    made = subprocess.run(["pdftotext", "-bbox", source, "-"], capture_output=True, check=True).stdout.decode()
    made = re.sub(r"<!DOCTYPE[^>]*>| xmlns=\"[^\"]*\"|&#(?:x[0-8bcef]|[0-8]);", "", made)
    return list(fromstring(re.sub(r"[\x00-\x08\x0b\x0c\x0e-\x1f]", "", made)).iter("page"))


def _texts(node: Element) -> Iterator[str]:
    """The texts of a page between two tags; one that is drawn is no text for the reader of a PDF."""
    if node.tag.rpartition("}")[2] in _ON_SCREEN:
        return
    yield node.text or ""
    for one in node:
        yield from _texts(one)
        yield one.tail or ""
