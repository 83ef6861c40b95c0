"""PDF/UA-1 (ISO 14289-1:2014) by veraPDF: a dozen pages here, every page by `python -m tests.accessibility`."""

from __future__ import annotations

import pytest

from protodsl.formats import CLINICIAN, QUESTIONS, SHEET
from protodsl.render import Style, pdf
from tests.accessibility import pages, verapdf
from tests.accessibility.pages import COMPACT, LARGE, LETTER, REFERRAL, USUAL, Wanted
from tests.unit.render import sample

# Each kind of page, each form and each language at least once, the longer documents where they are the shorter to make.
CHOSEN = (
    Wanted("wrist fracture", SHEET, "en", USUAL),
    Wanted("knee osteoarthritis", SHEET, "ar", COMPACT),
    Wanted("lateral ankle sprain", CLINICIAN, "en", LETTER),
    Wanted("return to running", CLINICIAN, "fr", USUAL),
    Wanted("low back pain", QUESTIONS, "pl", LARGE),
    Wanted("steady on your feet", QUESTIONS, "ar", USUAL),
    Wanted("P-0417", SHEET, "de", LARGE),
    Wanted("P-0423", SHEET, "ar", USUAL),
    Wanted("P-0431", SHEET, "es", LETTER),
    Wanted("P-0438", CLINICIAN, "ar", USUAL),
    Wanted("P-0431", CLINICIAN, "en", LARGE),
    Wanted("P-0423", REFERRAL, "en", USUAL),
    Wanted("P-0423", REFERRAL, "ar", LARGE),
)


@pytest.mark.parametrize("wanted", CHOSEN, ids=lambda one: one.name)
def test_it_is_pdf_ua(wanted: Wanted) -> None:
    """Not one rule is broken, of all that veraPDF has for PDF/UA-1."""
    made = pdf(*pages.made(wanted))
    assert made.value is not None, made.diagnostics
    assert verapdf.validate(made.value).failures == ()


@pytest.mark.parametrize("style", [Style(), Style(large_print=True), Style(compact=True)], ids=[USUAL, LARGE, COMPACT])
def test_pages_with_figures_are_pdf_ua(style: Style) -> None:
    """Drawings of one to three panels and a photograph, each with its words."""
    made = pdf(sample.sheet(), style)
    assert made.value is not None, made.diagnostics
    assert verapdf.validate(made.value).failures == ()


def test_the_validator_finds_a_fault() -> None:
    """An ordinary PDF without tags is none, by the first rule of clause 7.1 and others."""
    import weasyprint

    data = weasyprint.HTML(string="<h1>Knee</h1>").write_pdf()
    failures = verapdf.validate(data).failures
    assert any(one.startswith("7.1-") for one in failures)


def test_the_matrix_holds_every_page() -> None:
    """All protocols, cases, kinds, languages and forms: nothing drops out of it unseen."""
    every = list(pages.every_page())
    assert {one.subject for one in every} == {*pages.protocols(), *pages.cases()}
    assert {one.kind for one in every} == {SHEET, CLINICIAN, QUESTIONS, REFERRAL}
    assert {one.form for one in every} == {USUAL, LARGE, COMPACT, LETTER}
    assert {"en", "ar", "de", "es", "fr", "pl"} <= {one.language for one in every}
    assert len(every) == len(set(every))


def test_the_referral_names_a_danger_sign() -> None:
    """The page made here is the one that sends somebody away, not a sheet."""
    page, _ = pages.made(Wanted("P-0423", REFERRAL))
    assert page.kind == "referral"
    assert "fever" in str(page)
