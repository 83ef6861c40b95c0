"""The shipped Arabic words on a real page: what is copied from the PDF, numbers and names in their order, figures."""

from __future__ import annotations

import re
import subprocess
import unicodedata
from collections import Counter
from collections.abc import Iterator
from functools import cache
from pathlib import Path
from xml.etree.ElementTree import Element, fromstring

import pytest

from protodsl.asked import Asked
from protodsl.compiler import make_handout
from protodsl.formats import HTML, PDF, SHEET
from tests.pseudo.pages import clinic, page

_WORD = re.compile(r"[\u0621-\u064a\u0671-\u06d3]+")
# Vowel signs, the lengthening sign and marks of direction are no letters.
_NO_LETTER = re.compile(r"[\u064b-\u0652\u0640\u200e\u200f\u202a-\u202e\u2066-\u2069]")
# Poppler gives the two letters of the ligature lam-alef in the order of the paper.
_LAM_ALEF = re.compile(r"ل([اأإآ])")


@cache
def draft() -> dict[str, bytes]:
    """A draft of a demo sheet in Arabic: the shipped words, around prose that is not translated."""
    found = clinic()
    overlay = found.project.root / "translations/ar/protodsl.po"
    held = overlay.read_bytes()
    overlay.unlink()
    try:
        from protodsl.compiler import open_run
        from tests.pseudo.pages import DAY

        run = open_run(found.project, DAY)
        entry = run.entry("ankle-sprain.protocol")
        assert entry.value is not None
        checked = type(found)(found.project, (), (entry,), run.sources(), run=run)
        asked = Asked(SHEET, "ar", (HTML, PDF), draft=True)
        made = make_handout(checked, entry, entry.value.protocols[0], asked)
    finally:
        overlay.write_bytes(held)
    assert made.value is not None
    return dict(made.value)


def test_words_copied_from_the_pdf_are_those_of_the_page(tmp_path: Path) -> None:
    """By Poppler, a reader of its own; the share is what was measured with Vazirmatn, lower shares are a worse font."""
    path = tmp_path / "draft.pdf"
    path.write_bytes(draft()[PDF])
    read = subprocess.run(["pdftotext", "-raw", path, "-"], capture_output=True, check=True).stdout.decode()
    copied = set(_words(unicodedata.normalize("NFKC", read)))
    shown = set(_words(" ".join(_texts(_body()))))
    assert len(shown) > 400
    exact = shown & copied
    mended = {word for word in shown if {word, _LAM_ALEF.sub(r"\1ل", word), _before_tanwin(word)} & copied}
    print(f"{len(exact)} of {len(shown)} words, {len(mended)} but for lam-alef and tanwin")
    assert len(exact) >= 0.8 * len(shown)
    assert len(mended) >= 0.95 * len(shown)


def test_no_range_of_digits_in_the_text() -> None:
    """`8-12` shows as `12-8` from right to left (UAX #9), so a range is written in words."""
    for text in _texts(_body()):
        assert not re.search(r"\d\s*[-–]\s*\d", re.sub(r"\b[0-9a-f]{5}-[0-9a-f]{5}\b|\bP-\d+", "", text)), text


def test_every_telephone_number_keeps_its_order() -> None:
    """A link from left to right, its groups joined by no-break spaces (UAX #9, W4)."""
    links = [one for one in _body().iter("a") if (one.get("href") or "").startswith("tel:")]
    assert len(links) > 3 and {one.get("dir") for one in links} == {"ltr"}
    assert not any(" " in "".join(one.itertext()) for one in links)
    loose = [text for text in _texts(_body(), ("a",)) if re.search(r"\d{3,} \d{3,}", text)]
    assert loose == []


def test_brackets_pair_and_foreign_passages_say_their_direction() -> None:
    for text in (" ".join("".join(one.itertext()).split()) for one in _body().iter("li")):
        assert text.count("(") == text.count(")"), text
    marked = [one for one in _body().iter("span") if one.get("lang") == "en"]
    assert marked and {one.get("dir") for one in marked} == {"ltr"}


@pytest.mark.parametrize("name", [f"lateral ankle sprain, {SHEET}", f"P-0431, {SHEET}"])
def test_bodies_are_not_mirrored(name: str) -> None:
    """Left stays left: the panels change places, and each body is drawn with the very same lines."""
    one, other = (Counter(_paths(page(name, language).root)) for language in ("el", "ar"))
    assert one.total() > 100
    # Arrows and floors are drawn anew for panels in another order, and a place is rounded anew.
    assert (one & other).total() >= 0.8 * one.total()


def _paths(root: Element) -> Iterator[str]:
    for node in root.iter():
        if node.tag.endswith("path"):
            # What follows the first point is relative to it, wherever a panel stands.
            yield re.sub(r"^M[-\d. ]+", "", node.get("d", ""))


def _before_tanwin(word: str) -> str:
    """A word without its last alef, which Poppler sets apart with the sign on it."""
    return _LAM_ALEF.sub(r"\1ل", word.removesuffix("ا"))


def _words(text: str) -> list[str]:
    return _WORD.findall(_NO_LETTER.sub("", text))


@cache
def _body() -> Element:
    return next(fromstring(draft()[HTML].decode().replace("<!DOCTYPE html>", "")).iter("body"))


def _texts(node: Element, but: tuple[str, ...] = ()) -> Iterator[str]:
    if node.tag.rpartition("}")[2] in ("style", "script", "svg", *but) or node.get("lang") == "en":
        return
    yield node.text or ""
    for one in node:
        yield from _texts(one, but)
        yield one.tail or ""
