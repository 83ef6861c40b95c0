"""Word-processing documents, read back by python-docx and element by element (ISO/IEC 29500-1)."""

from __future__ import annotations

import io
import zipfile
from dataclasses import replace
from functools import cache
from typing import Any

import docx
import pytest
from docx.oxml.ns import qn
from PIL import Image

from protodsl.handout.blocks import Handout
from protodsl.render import Style
from protodsl.render.documents import to_docx
from tests.documents.pages import demo_pages
from tests.unit.render import others, sample

ARABIC = Style(language="ar", direction="rtl")


@cache
def data(page: Handout[str] | None = None, style: Style | None = None) -> bytes:
    """The bytes of a page."""
    outcome = to_docx.docx(page or sample.sheet(), style or Style())
    assert outcome.diagnostics == ()
    assert outcome.value is not None
    return outcome.value


def made(page: Handout[str] | None = None, style: Style | None = None) -> Any:
    """The document as python-docx reads it."""
    return docx.Document(io.BytesIO(data(page, style)))


def has(parent: Any, path: str) -> bool:
    """Whether an element is there."""
    return parent.find("/".join(qn(f"w:{name}") for name in path.split("/"))) is not None


def test_heads_are_of_the_styles_that_make_the_outline() -> None:
    heads = [(one.style.name, one.text) for one in made().paragraphs if one.style.name.startswith("Heading")]
    assert heads[0] == ("Heading 1", "Your right knee, weeks 4 and 5")
    assert heads[1] == ("Heading 2", "STOP and get help if this happens")
    assert ("Heading 2", "Your week") in heads
    assert ("Heading 2", "1. Stand up from a chair") in heads
    assert ("Heading 3", "Step by step") in heads


def test_steps_are_lists_that_each_begin_with_1() -> None:
    """17.9.27 and 17.9.8: a numbering instance for each list, whose first level is started again."""
    document = made()
    numbering = document.part.numbering_part.element
    steps = [one for one in document.paragraphs if one.style.name == "List Number"]
    used = [one._p.pPr.find(qn("w:numPr")).find(qn("w:numId")).get(qn("w:val")) for one in steps]
    assert len(steps) == 20
    assert len(set(used)) == 5
    for number in set(used):
        (instance,) = (one for one in numbering.findall(qn("w:num")) if one.get(qn("w:numId")) == number)
        start = instance.find(qn("w:lvlOverride")).find(qn("w:startOverride"))
        assert start.get(qn("w:val")) == "1"
        kind = instance.find(qn("w:abstractNumId")).get(qn("w:val"))
        (form,) = (one for one in numbering.findall(qn("w:abstractNum")) if one.get(qn("w:abstractNumId")) == kind)
        assert form.find(qn("w:lvl")).find(qn("w:numFmt")).get(qn("w:val")) == "decimal"
    names = [child.tag for child in numbering]
    assert names == sorted(names, key=lambda tag: tag == qn("w:num")), "every abstractNum stands before every num"


def test_tables_repeat_their_heads_and_keep_their_rows_whole() -> None:
    week, scale, diary = made().tables[1:4]
    for table in (week, scale, diary):
        assert has(table.rows[0]._tr, "trPr/tblHeader")
        assert not has(table.rows[1]._tr, "trPr/tblHeader")
        assert all(has(row._tr, "trPr/cantSplit") for row in table.rows)
    assert [cell.text for cell in week.rows[0].cells] == ["Minutes for each", *sample.DAYS]
    assert [cell.text for cell in scale.rows[1].cells] == [str(number) for number in range(11)]
    assert diary.rows[2].cells[1].text.count("□") == 4


def test_every_element_stands_where_the_schema_wants_it() -> None:
    """Properties out of order make a file that Word calls damaged (ISO/IEC 29500-1, annex A: xsd:sequence)."""
    from protodsl.render.documents.word.elements import CELL, PARAGRAPH, RUN, SECTION, TABLE

    for page, style in ((sample.sheet(), Style()), (others.arabic(), ARABIC), (others.clinician(), Style())):
        document = made(page, style)
        roots = (document.element, document.styles.element, document.sections[0].footer._element)
        for name, order in (("pPr", PARAGRAPH), ("rPr", RUN), ("tblPr", TABLE), ("tcPr", CELL), ("sectPr", SECTION)):
            for root in roots:
                for properties in root.iter(qn(f"w:{name}")):
                    names = [child.tag.rpartition("}")[2] for child in properties]
                    assert set(names) <= set(order), names
                    assert names == sorted(names, key=order.index), names


def test_the_language_and_the_properties_are_set() -> None:
    document = made()
    language = document.styles.element.find(qn("w:docDefaults")).find(f".//{qn('w:lang')}")
    assert language.get(qn("w:val")) == "en"
    about = document.core_properties
    assert about.title == "Your right knee, weeks 4 and 5: Alder Quay clinic"
    assert (about.author, about.language, about.identifier) == ("Alder Quay clinic", "en", "7f3c91d044bea217")
    assert (about.comments, about.last_modified_by) == ("", "")


def test_pictures_have_their_text_alternative_and_show_something() -> None:
    document = made()
    shapes = list(document.inline_shapes)
    assert len(shapes) == 4
    assert shapes[0]._inline.docPr.get("descr") == "A person does the exercise Stand up from a chair in 3 pictures."
    with zipfile.ZipFile(io.BytesIO(data())) as archive:
        images = [archive.read(name) for name in archive.namelist() if name.startswith("word/media/")]
    for image in images:
        with Image.open(io.BytesIO(image)) as opened:
            assert opened.format == "PNG"
            colours = opened.convert("RGB").getcolors(1 << 20) or []
            assert len(colours) > 10
            assert max(colours)[1] == (255, 255, 255)


def test_a_chart_is_drawn_and_told_in_words() -> None:
    page, style = demo_pages()["P-0417, clinician"]
    document = made(page, style)
    told = [shape._inline.docPr.get("descr") for shape in document.inline_shapes]
    assert len(told) == 3
    assert told[2].startswith("Pain: 18 values, from 3 on 3 November 2026")


@pytest.mark.parametrize("page", [sample.sheet, others.arabic], ids=["left to right", "right to left"])
def test_direction(page: Any) -> None:
    """17.3.1.6, 17.3.2.30 and 17.4.1: paragraphs, runs and tables turn; telephone numbers do not."""
    mirrored = page is others.arabic
    document = made(page(), ARABIC if mirrored else Style())
    assert has(document.styles["Normal"].element, "pPr/bidi") == mirrored
    assert all(has(table._tbl, "tblPr/bidiVisual") == mirrored for table in document.tables)
    assert has(document.sections[0]._sectPr, "bidi") == mirrored
    cells = [paragraph for table in document.tables for cell in table._cells for paragraph in cell.paragraphs]
    runs = [run for paragraph in (*document.paragraphs, *cells) for run in paragraph.runs if run.text.strip()]
    numbers = [run for run in runs if "1632 960" in run.text or "01632" in run.text]
    assert numbers
    for run in runs:
        alone = run.text.startswith("\u2068")
        assert has(run._r, "rPr/rtl") == (mirrored and not alone), run.text
    if mirrored:
        assert all(run.text.startswith("\u2068") and run.text.endswith("\u2069") for run in numbers)


@pytest.mark.parametrize(("style", "points"), [(Style(), 12), (Style(large_print=True), 18), (Style(compact=True), 11)])
def test_the_size_of_print(style: Style, points: int) -> None:
    """Large print is 18 points; sizes for other scripts are the same (w:szCs)."""
    for name, least in (("Normal", points), ("List Bullet", points), ("Heading 2", points), ("Heading 6", points)):
        properties = made(style=style).styles[name].element.rPr
        for tag in ("w:sz", "w:szCs"):
            assert int(properties.find(qn(tag)).get(qn("w:val"))) / 2 >= least
    normal = made(style=style).styles["Normal"].element.rPr
    assert int(normal.find(qn("w:sz")).get(qn("w:val"))) == 2 * points


def test_paper() -> None:
    """A4 is 210 by 297 mm (ISO 216), Letter 8.5 by 11 inches (ANSI/ASME Y14.1)."""
    a4, letter = (made(style=Style(paper=name)).sections[0] for name in ("A4", "Letter"))
    assert (round(a4.page_width.mm), round(a4.page_height.mm)) == (210, 297)
    assert (round(letter.page_width.inches, 2), round(letter.page_height.inches, 2)) == (8.5, 11)


def test_an_exercise_begins_a_page_and_the_foot_says_whom_to_call() -> None:
    document = made()
    broken = [one.text for one in document.paragraphs if one.paragraph_format.page_break_before]
    assert broken[:2] == ["1. Stand up from a chair", "2. Straighten your knee"]
    assert broken[-1] == "Your diary"
    foot = document.sections[0].footer
    assert foot.paragraphs[0].text == "P-0417, right knee · Knee protocol, version 3\tWorried? 01632 960 142"
    fields = [one.get(qn("w:instr")) for one in foot._element.iter(qn("w:fldSimple"))]
    assert fields == ["PAGE", "NUMPAGES"]


def test_every_page_of_a_draft_says_that_it_is_one() -> None:
    header = made(replace(sample.sheet(), draft=("Draft: not for a patient", "Entwurf"))).sections[0].header
    assert [one.text for one in header.paragraphs] == ["Draft: not for a patient", "Entwurf"]
    assert not has(made().sections[0]._sectPr, "headerReference")


def test_the_same_page_gives_the_same_bytes_and_no_clock() -> None:
    first = data()
    assert first == data.__wrapped__()
    with zipfile.ZipFile(io.BytesIO(first)) as archive:
        assert {one.date_time for one in archive.infolist()} == {(1980, 1, 1, 0, 0, 0)}
        assert not [name for name in archive.namelist() if "thumbnail" in name]
        assert archive.namelist()[0] == "[Content_Types].xml"
