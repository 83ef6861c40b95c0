"""The pages of a person as they come out of the page maker: every form has them whole, with nothing to say."""

from __future__ import annotations

import io

import page as page_validation
import pytest
from pypdf import PdfReader

from protodsl.handout.blocks import Handout
from protodsl.handout.person import compose_case_page, compose_person
from protodsl.handout.phrase import Phrase
from protodsl.render import Style, pdf
from tests.unit.handout import samples
from tests.unit.handout.person import plans

_FORMS = {"normal": Style(), "large print": Style(large_print=True), "compact": Style(compact=True)}
_SHEET = compose_person(plans.plan(), samples.CLINIC, plans.OPTIONS, plans.last_sheet())
_CASE = compose_case_page(plans.plan(), samples.CLINIC, plans.OPTIONS, plans.last_sheet())


@pytest.mark.parametrize("form", _FORMS)
def test_the_sheet_is_printed_whole(form: str) -> None:
    """No safety line lost, no exercise torn, the case's id at the foot of every page."""
    assert _SHEET is not None
    made = pdf(plans.words(_SHEET), _FORMS[form])
    assert made.value is not None and made.diagnostics == ()
    pages = PdfReader(io.BytesIO(made.value)).pages
    texts = [page.extract_text().replace("\xa0", " ") for page in pages]
    assert [text for text in texts if "P-0417" not in text or "01632 960 142" not in text] == []


@pytest.mark.parametrize("page", [_SHEET, _CASE], ids=["sheet", "case"])
def test_it_is_pdf_ua(page: Handout[Phrase] | None) -> None:
    """ISO 14289-1:2014 by an independent validator."""
    assert page is not None
    made = pdf(plans.words(page), Style())
    assert made.value is not None
    report = page_validation.validate_pdf_bytes(made.value, profile="pdf-ua-1")
    assert [(one.rule_id, one.message) for one in report.failures] == []


def test_charts_are_printed_with_their_words() -> None:
    """The letters, the dates and the names of the lines are text on the page, and no text is smaller than 12 pt.

    12 pt is the size of all other words of the page (see the measures of the sheet).
    """
    made = pdf(plans.words(_CASE), Style())
    assert made.value is not None and made.diagnostics == ()
    pages = PdfReader(io.BytesIO(made.value)).pages
    text = " ".join(page.extract_text() for page in pages)
    assert "pain next morning" in text and "heel raises (left side)" in text and "16 Nov" in text
    sizes: list[float] = []
    for page in pages:
        page.extract_text(
            visitor_text=lambda words, cm, tm, font, size: sizes.append(_size(cm, tm, size)) if words.strip() else None
        )
    assert sizes and min(sizes) > 11.9


def _size(cm: list[float], tm: list[float], size: float) -> float:
    """The size in points on paper: the font's, times the scale of the text matrix and of the page's."""
    return abs(size * tm[3] * cm[3])
