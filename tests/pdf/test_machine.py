"""What the machine or the text lacks is said before anything is printed."""

import sys
from dataclasses import replace
from pathlib import Path

import pytest

from protodsl import fonts
from protodsl.render import Style, html, pdf
from protodsl.render.typesetting import log_lines
from tests.pdf.reading import printed
from tests.unit.render import clinic, others, sample


def test_a_character_without_a_glyph() -> None:
    """P955 before printing; the HTML page is made, because a browser has more fonts."""
    page = replace(others.clinician(), title="Knee ⚠ 한")
    made = pdf(page, Style())
    assert made.value is None
    assert clinic.codes(made) == ["P955"]
    assert made.diagnostics[0].args["characters"] == ("⚠", "한")
    assert html(page, Style()).value


def test_a_character_in_the_footer_alone() -> None:
    page = others.clinician()
    made = pdf(replace(page, footer=replace(page.footer, right="☎ 112")), Style())
    assert clinic.codes(made) == ["P955"]


def test_a_font_that_is_missing(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """P954, one for each file."""
    monkeypatch.setattr(fonts, "font_folder", lambda: tmp_path)
    made = pdf(others.clinician(), Style())
    assert made.value is None
    assert clinic.codes(made) == ["P954"] * len(fonts.FONTS)


@pytest.mark.parametrize("error", [OSError("cannot load library 'libpango-1.0-0'"), ImportError("no weasyprint")])
def test_a_machine_without_the_library(error: Exception, tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """P953 with what to install; the HTML page is made."""

    class Refusing:
        def find_spec(self, name: str, path: object = None, target: object = None) -> None:
            if name == "weasyprint":
                raise error

    for name in [name for name in sys.modules if name.partition(".")[0] == "weasyprint"]:
        monkeypatch.delitem(sys.modules, name)
    monkeypatch.setattr(sys, "meta_path", [Refusing(), *sys.meta_path])
    style = Style(cache_folder=tmp_path)
    made = pdf(others.clinician(), style)
    assert made.value is None
    assert clinic.codes(made) == ["P953"]
    assert "libpango-1.0-0 libpangoft2-1.0-0 libharfbuzz-subset0" in made.diagnostics[0].help
    assert html(others.clinician(), style).value


def test_what_the_library_complains_of_is_said(tmp_path: Path) -> None:
    """P956 is a warning: the page is made."""
    made = pdf(others.clinician(), clinic.style(tmp_path, clinic__css=".row { backdrop-filter: blur(2px) }"))
    assert made.value is not None
    assert clinic.codes(made) == ["P956"]
    assert "backdrop-filter" in made.diagnostics[0].message


def test_rules_that_the_library_breaks_down_over(tmp_path: Path) -> None:
    """P958: WeasyPrint 70 raises a KeyError for a logical float inside an inline element."""
    style = clinic.style(tmp_path, clinic__css=".side > span { display: inline }")
    made = pdf(sample.sheet(), style)
    assert made.value is None
    assert clinic.codes(made) == ["P958"]
    assert html(sample.sheet(), style).value


def test_the_log_is_given_back_as_it_was() -> None:
    import logging

    # The first page brings the library in, and its own handlers with it.
    printed(others.clinician())
    before = list(logging.getLogger("weasyprint").handlers)
    with log_lines():
        printed(others.clinician())
    assert logging.getLogger("weasyprint").handlers == before
