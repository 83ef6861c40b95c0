"""The forms of a handout that are printed: on other paper, larger, smaller, for the clinician, right to left."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from functools import cache

from protodsl.handout.blocks import Handout
from protodsl.render import Style
from tests.pdf.reading import Printed, printed
from tests.unit.render import others, sample


@dataclass(frozen=True, slots=True)
class Form:
    """A handout, how it is printed, and how many pages it is known to take."""

    make: Callable[[], Handout[str]]
    style: Style
    count: int


FORMS = {
    "person": Form(sample.sheet, Style(), 9),
    "person, Letter": Form(sample.sheet, Style(paper="Letter"), 9),
    "large print": Form(sample.sheet, Style(large_print=True), 15),
    "compact": Form(sample.sheet, Style(compact=True), 5),
    "clinician": Form(others.clinician, Style(), 1),
    "right to left": Form(others.arabic, Style(language="ar", direction="rtl"), 2),
}


@cache
def print_of(name: str) -> Printed:
    """The print of a form, made once for all tests."""
    return printed(FORMS[name].make(), FORMS[name].style)
