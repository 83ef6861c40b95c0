"""The pages that are looked at in a browser, as HTML, each made once."""

from __future__ import annotations

from functools import cache
from pathlib import Path
from typing import Any

from protodsl.formats import CLINICIAN, QUESTIONS, SHEET
from protodsl.render import html
from tests.accessibility import pages
from tests.accessibility.pages import REFERRAL, Wanted
from tests.unit.render import sample

LANGUAGES = ("en", "ar", "de")
_KINDS = (
    ("knee osteoarthritis", SHEET),
    ("lateral ankle sprain", CLINICIAN),
    ("steady on your feet", QUESTIONS),
    ("P-0417", SHEET),
    ("P-0431", CLINICIAN),
    ("P-0423", REFERRAL),
)
SCREENS = tuple(Wanted(subject, kind, language) for language in LANGUAGES for subject, kind in _KINDS)
# A sheet with drawings of one to three panels and a photograph.
PICTURED = Wanted("a sample", SHEET, "en", figures=True)
_LOOKS = Path(__file__).with_name("looks.js")


@cache
def screen(wanted: Wanted) -> str:
    """The page as one HTML file."""
    page, style = (sample.sheet(), pages.made(SCREENS[0])[1]) if wanted == PICTURED else pages.made(wanted)
    made = html(page, style)
    assert made.value is not None, made.diagnostics
    return made.value


def look(page: Any, name: str) -> Any:
    """What one of the functions in `looks.js` sees of a page that is shown."""
    return page.evaluate(f"({_LOOKS.read_text(encoding='utf-8')}).{name}()")
