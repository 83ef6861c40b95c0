"""No document loses a line that keeps somebody safe: found again by readers that had no part in making it."""

from __future__ import annotations

import re
from collections import Counter
from dataclasses import replace
from typing import Any

import pytest

from protodsl.handout.blocks import Handout, StopGroup
from protodsl.render import Style
from protodsl.render.documents import outline
from protodsl.render.outputs import make
from protodsl.render.safety import safety_lines
from tests.documents.pages import demo_pages
from tests.documents.readers import words_in
from tests.unit.render import others, sample

DOCUMENTS = ("txt", "md", "epub", "docx")
RIGHT_TO_LEFT = Style(language="ar", direction="rtl")


@pytest.mark.parametrize("form", DOCUMENTS)
def test_every_page_of_the_demo_is_whole(form: str) -> None:
    """Sheets, clinician's pages, questions, pages of cases: nothing to say, each safety line as often as it is."""
    for name, (page, look) in demo_pages().items():
        _is_whole(form, page, look, name)


@pytest.mark.parametrize("form", DOCUMENTS)
@pytest.mark.parametrize("look", [Style(), Style(large_print=True), Style(paper="Letter", compact=True)], ids=repr)
def test_pages_with_every_kind_of_block_are_whole(form: str, look: Style) -> None:
    _is_whole(form, sample.sheet(), look, "sheet")
    _is_whole(form, others.clinician(), look, "clinician")


@pytest.mark.parametrize("form", DOCUMENTS)
def test_a_page_from_right_to_left_is_whole(form: str) -> None:
    _is_whole(form, others.arabic(), RIGHT_TO_LEFT, "arabic")


@pytest.mark.parametrize("form", DOCUMENTS)
def test_a_line_that_is_lost_makes_no_document(form: str, monkeypatch: pytest.MonkeyPatch) -> None:
    """P961, or P951 where a template made it, names the line; nothing is handed out."""
    page = sample.sheet()
    if form == "epub":
        monkeypatch.setattr("protodsl.render.documents.to_epub.chapters", _without_the_first_chapter)
    else:
        module = {"txt": "to_text", "md": "to_markdown", "docx": "word.writer"}[form]
        monkeypatch.setattr(f"protodsl.render.documents.{module}.outline", _without_stop_signs)
    made = make(form, page, Style())
    assert made.value is None
    assert {one.code.id for one in made.diagnostics} == {"P951" if form == "epub" else "P961"}
    assert any("chest pain" in one.message for one in made.diagnostics)


@pytest.mark.parametrize("form", ["txt", "md", "docx"])
def test_one_line_does_not_hide_behind_another(form: str, monkeypatch: pytest.MonkeyPatch) -> None:
    """Two exercises with the same sign to stop: it has to be there twice."""
    first = sample.card(1, "Stand up")
    page = sample.sheet((first, replace(first, id="again", number=2)))
    assert make(form, page, Style()).value is not None
    module = {"txt": "to_text", "md": "to_markdown", "docx": "word.writer"}[form]
    monkeypatch.setattr(f"protodsl.render.documents.{module}.outline", _without_the_second_sign)
    made = make(form, page, Style())
    assert made.value is None
    assert {one.code.id for one in made.diagnostics} == {"P961"}


def _is_whole(form: str, page: Handout[str], look: Style, name: str) -> None:
    made = make(form, page, look)
    assert made.value is not None, name
    assert made.diagnostics == (), name
    there = _squeezed(words_in(form, made.value))
    for line, count in Counter(_squeezed(line.words) for line in safety_lines(page)).items():
        assert there.count(line) >= count, (name, line)


def _squeezed(words: str) -> str:
    return re.sub(r"[\s\u200b-\u200f\u2060-\u2069]+", "", words)


def _without_stop_signs(*args: Any, **options: Any) -> Any:
    pieces = outline.outline(*args, **options)
    return tuple(replace(one, lines=()) if isinstance(one, StopGroup) else one for one in pieces)


def _without_the_second_sign(*args: Any, **options: Any) -> Any:
    pieces = list(outline.outline(*args, **options))
    signs = [at for at, one in enumerate(pieces) if isinstance(one, outline.Labelled) and one.mark == "stop"]
    del pieces[signs[-1]]
    return tuple(pieces)


def _without_the_first_chapter(body: Any) -> Any:
    from protodsl.render.documents.chapters import chapters

    return chapters(body)[1:]
