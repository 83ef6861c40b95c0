"""Everything that is read on a page comes from a catalogue: in a made-up language no English word is left on it.

The expected result is the transformation itself: neither language has a letter from A to Z, and every text that went
through a catalogue stands between brackets.
"""

from __future__ import annotations

import re
from collections.abc import Iterator
from functools import cache
from pathlib import Path
from xml.etree.ElementTree import Element

import pytest

from protodsl.formats import CLINICIAN
from tests.pseudo.pages import NAMES, SPELLS, clinic, page
from tests.pseudo.words import CLOSE, OPEN

languages = pytest.mark.parametrize("language", SPELLS)
names = pytest.mark.parametrize("name", NAMES)

_RUN = re.compile(r"[A-Za-z]+")
_PASSED_OVER = ("style", "script")
# What is read aloud or shown besides the text of an element.
_READ = ("alt", "title", "aria-label", "placeholder")

# What stays as it is written in every language, as patterns of whole texts or parts of one: names of the clinic, ...
KEPT = (
    r"Alder Quay clinic",
    r"Physiotherapy, 2 Harbour Steps",
    # ... what a program wrote: the digest of the sheet, the name and version of a protocol, the id of a case, ...
    r"\b[0-9a-f]{5}-[0-9a-f]{5}\b",
    r"\bP-\d{4}\b",
    r"\bprotodsl\b",
    # ... file and line, ...
    r"\b[\w/-]+\.(?:protocol|case|toml)(?::\d+)?",
    r"\b[\w-]+:\d+",
    # ... codes of diagnostics and numbers of conditions, which the chains on the clinician's page are marked with.
    r"\b[A-Z]\d{3}\b",
    r"\b[ivx]+\b",
    r"\b[A-C]\b",
)


@languages
@names
def test_no_english_is_left(name: str, language: str) -> None:
    """Text and what is read aloud in its place; a passage marked as of another language is read in that language."""
    kept = re.compile("|".join((*KEPT, *(_identifiers() if name.endswith(CLINICIAN) else ()))))
    texts = _read_texts(page(name, language).root, language)
    assert {run for text in texts for run in _RUN.findall(kept.sub(" ", text))} == set()


@languages
@names
def test_nothing_is_marked_as_missing(name: str, language: str) -> None:
    assert 'class="untranslated"' not in page(name, language).html
    assert page(name, language).said == ()


@languages
@names
def test_brackets_close_and_every_placeholder_is_filled(name: str, language: str) -> None:
    """Nothing is cut off between catalogue and page; no `{value}`, no `[setting]`, no star, no name of a message."""
    for text in _read_texts(page(name, language).root, language):
        assert not re.search(r"[{}\[\]*]|\bduration-|\blength-|\bmass-", text), text
        depth = 0
        for sign in text:
            depth += {OPEN: 1, CLOSE: -1}.get(sign, 0)
            assert depth >= 0, text
        assert depth == 0, text


@languages
@names
def test_the_page_says_its_language_and_direction(name: str, language: str) -> None:
    root = page(name, language).root
    assert (root.get("lang"), root.get("dir")) == (language, "rtl" if language == "ar" else "ltr")


@pytest.mark.parametrize("name", [one for one in NAMES if not one.endswith(CLINICIAN)])
def test_what_is_marked_as_of_another_language_was_never_to_be_translated(name: str) -> None:
    """A mark is no way round a catalogue: for a patient it stands on references, names and the reviewer's role."""
    protocols = [one for entry in clinic().entries if entry.value for one in entry.value.protocols]
    kept = {source.text for one in protocols for source in one.sources} | {one.name for one in protocols}
    kept |= {one.review.by for one in protocols if one.review}
    marked = [one for one in page(name, "el").root.iter() if one.get("lang") == "en"]
    assert {" ".join("".join(one.itertext()).split()) for one in marked} <= kept


@cache
def _identifiers() -> tuple[str, ...]:
    """Names that a clinician wrote and finds again in her files: of files, and of findings (heads of her charts)."""
    scopes = [one.scope for entry in clinic().entries if entry.value for one in entry.value.protocols]
    names = {name for scope in scopes for name in scope.findings}
    files = {Path(path).stem for path in clinic().sources}
    longest = sorted(names | files, key=len, reverse=True)
    return tuple(rf"(?i:(?<!\w){re.escape(name)}(?!\w))" for name in longest)


def _read_texts(element: Element, language: str) -> Iterator[str]:
    """The texts of a page by block, without what is marked as of another language."""
    for node in element.iter():
        if node.tag in ("p", "li", "td", "th", "h1", "h2", "h3", "dt", "dd", "figcaption", "title", "desc", "text"):
            yield " ".join("".join(_texts(node, language)).split())
        if _is_in(node, language):
            yield from (node.get(name, "") for name in _READ)
    body = next(element.iter("body"))
    yield " ".join(" ".join(_texts(body, language)).split())


def _texts(node: Element, language: str) -> Iterator[str]:
    if node.tag in _PASSED_OVER or not _is_in(node, language):
        return
    yield node.text or ""
    for one in node:
        yield from _texts(one, language)
        yield one.tail or ""


def _is_in(node: Element, language: str) -> bool:
    return node.get("lang") in (None, language)
