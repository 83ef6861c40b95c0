"""The printed handout: its pages, its words, its tags, and the same bytes every time."""

import subprocess
import sys
from pathlib import Path

import page as page_validation
import pytest

from protodsl.render.markdown import plain
from protodsl.render.safety import safety_lines
from tests.pdf.forms import FORMS, print_of
from tests.pdf.reading import printed, squeezed

forms = pytest.mark.parametrize("name", FORMS)


@forms
def test_it_is_pdf_ua(name: str) -> None:
    """ISO 14289-1:2014 by an independent validator; veraPDF said the same of these six when they were made."""
    report = page_validation.validate_pdf_bytes(print_of(name).data, profile="pdf-ua-1")
    assert [(one.rule_id, one.message) for one in report.failures] == []


@forms
def test_its_pages_title_language_and_paper(name: str) -> None:
    form, made = FORMS[name], print_of(name)
    assert len(made.pages) == form.count
    assert made.reader.metadata is not None
    assert made.reader.metadata.title == form.make().title
    assert str(made.reader.root_object["/Lang"]) == form.style.language
    width, height = (float(side) for side in made.reader.pages[0].mediabox[2:])
    # ISO 216 A4 is 210 by 297 mm; ANSI/ASME Y14.1 size A (Letter) is 8.5 by 11 inches; a point is 1/72 inch.
    expected = (612.0, 792.0) if form.style.paper == "Letter" else (210 / 25.4 * 72, 297 / 25.4 * 72)
    assert (width, height) == pytest.approx(expected, abs=0.5)


@forms
def test_every_safety_line_is_printed(name: str) -> None:
    """In Arabic the words come out of the file in another order, so there each word is looked for alone."""
    form, made = FORMS[name], print_of(name).words
    for line in safety_lines(form.make()):
        parts = line.words.split() if form.style.direction == "rtl" else [line.words]
        assert all(squeezed(part.strip(".,:،؟")) in made for part in parts), line


@pytest.mark.parametrize("name", [name for name in FORMS if FORMS[name].style.direction == "ltr"])
def test_the_number_to_call_and_the_page_stand_at_the_foot_of_every_page(name: str) -> None:
    form = FORMS[name]
    for number, text in enumerate(print_of(name).pages, 1):
        assert squeezed(plain(form.make().footer.right)) in text
        assert f"Page{number}of{form.count}" in text


@forms
def test_it_is_the_same_file_twice(name: str) -> None:
    assert printed(FORMS[name].make(), FORMS[name].style).data == print_of(name).data


def test_it_is_the_same_file_in_another_process() -> None:
    """Cold, in another time zone and with another order of hashes."""
    program = (
        "import sys\n"
        "from protodsl.render import Style, pdf\n"
        "from tests.unit.render import sample\n"
        "sys.stdout.buffer.write(pdf(sample.sheet(), Style()).value)\n"
    )
    environment = {"TZ": "Pacific/Auckland", "PYTHONHASHSEED": "7", "PATH": "/usr/bin:/bin", "LC_ALL": "C.UTF-8"}
    root = Path(__file__).parents[2]
    run = subprocess.run([sys.executable, "-c", program], cwd=root, env=environment, capture_output=True, check=True)
    assert run.stdout == print_of("person").data
    assert run.stderr == b""


def test_tags_are_complete() -> None:
    """ISO 32000-1, 14.8: one H1, a Scope on every TH (table 349), Alt on every Figure, and every number a Link."""
    tags = [one for one in print_of("person").objects() if one.get("/Type") == "/StructElem"]
    kinds = [one["/S"] for one in tags]
    assert kinds.count("/H1") == 1
    heads = [one for one in tags if one["/S"] == "/TH"]
    assert heads and all(one["/A"]["/Scope"] in ("/Row", "/Column") for one in heads)
    figures = [one for one in tags if one["/S"] == "/Figure"]
    assert len(figures) == 4 and all(one["/Alt"] for one in figures)
    assert kinds.count("/Link") == 5
