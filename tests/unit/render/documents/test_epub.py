"""EPUB 3.3 (W3C Recommendation, 2023): the container, the package and the content documents."""

from __future__ import annotations

import io
import struct
import zipfile
from dataclasses import replace
from pathlib import Path
from xml.etree.ElementTree import Element, fromstring

import pytest

from protodsl import resources
from protodsl.handout.blocks import Handout
from protodsl.render import Style
from protodsl.render.documents.to_epub import epub
from tests.documents.pages import demo_pages
from tests.unit.render import clinic, others, sample

OPF = {"opf": "http://www.idpf.org/2007/opf", "dc": "http://purl.org/dc/elements/1.1/"}
HTML = {"h": "http://www.w3.org/1999/xhtml", "svg": "http://www.w3.org/2000/svg"}
TYPE = "{http://www.idpf.org/2007/ops}type"
ARABIC = Style(language="ar", direction="rtl")


def made(page: Handout[str], style: Style | None = None) -> bytes:
    """The bytes of a page."""
    outcome = epub(page, style or Style())
    assert outcome.diagnostics == ()
    assert outcome.value is not None
    return outcome.value


def parts(data: bytes) -> dict[str, bytes]:
    """Every file in the book by its name."""
    with zipfile.ZipFile(io.BytesIO(data)) as book:
        return {name: book.read(name) for name in book.namelist()}


def package(data: bytes) -> Element:
    """The package document."""
    return fromstring(parts(data)["EPUB/package.opf"])


def meta(root: Element) -> list[tuple[str, str]]:
    """The properties of the publication."""
    return [(one.get("property", ""), one.text or "") for one in root.iterfind("opf:metadata/opf:meta", OPF)]


def test_the_container_begins_with_its_type() -> None:
    """OCF, 4.3.1: first in the file, not compressed, no extra field, so that the type stands at byte 38."""
    data = made(sample.sheet())
    assert data[:4] == b"PK\x03\x04"
    method, extra = struct.unpack("<H", data[8:10])[0], struct.unpack("<H", data[28:30])[0]
    assert (method, extra) == (0, 0)
    assert data[30:58] == b"mimetypeapplication/epub+zip"


def test_the_package_says_what_it_must() -> None:
    """5.5.3: an identifier, a title, a language, and when it was changed."""
    root = package(made(sample.sheet()))
    assert root.get("version") == "3.0"
    assert root.findtext("opf:metadata/dc:language", namespaces=OPF) == "en"
    assert root.findtext("opf:metadata/dc:title", namespaces=OPF) == "Your right knee, weeks 4 and 5: Alder Quay clinic"
    identifier = root.find(f"opf:metadata/dc:identifier[@id='{root.get('unique-identifier')}']", OPF)
    assert identifier is not None
    assert (identifier.text or "").startswith("urn:uuid:")
    assert [value for name, value in meta(root) if name == "dcterms:modified"] == ["1980-01-01T00:00:00Z"]


def test_another_sheet_is_another_publication() -> None:
    """One identifier for each digest and language: a reader's device takes a new sheet for a new book."""
    identifiers = set()
    for page, style in ((sample.sheet(), Style()), (others.arabic(), ARABIC), (others.clinician(), Style())):
        identifiers.add(package(made(page, style)).findtext("opf:metadata/dc:identifier", namespaces=OPF))
    assert len(identifiers) == 3


def test_it_says_how_it_can_be_read() -> None:
    """EPUB Accessibility 1.1, 2.2: modes, a sufficient mode, features and hazards."""
    said = meta(package(made(sample.sheet(), Style(large_print=True))))
    values = {name: [value for key, value in said if key == name] for name, _ in said}
    assert values["schema:accessMode"] == ["textual", "visual"]
    assert values["schema:accessModeSufficient"] == ["textual"]
    assert values["schema:accessibilityHazard"] == ["none"]
    assert {"tableOfContents", "alternativeText", "largePrint"} <= set(values["schema:accessibilityFeature"])
    plain = meta(package(made(demo_pages()["P-0417, sheet"][0])))
    assert ("schema:accessMode", "visual") not in plain


def test_every_file_is_in_the_manifest_and_every_chapter_in_the_spine() -> None:
    data = made(sample.sheet())
    root = package(data)
    items = {one.get("id"): one.attrib for one in root.iterfind("opf:manifest/opf:item", OPF)}
    named = {f"EPUB/{one['href']}" for one in items.values()}
    assert named == {name for name in parts(data) if name.startswith("EPUB/")} - {"EPUB/package.opf"}
    spine = [items[one.get("idref")]["href"] for one in root.iterfind("opf:spine/opf:itemref", OPF)]
    assert spine == ["part-1.xhtml", "part-2.xhtml", "part-3.xhtml"]
    drawn = [one["href"] for one in items.values() if one.get("properties") == "svg"]
    assert drawn == ["part-2.xhtml"]


def test_the_contents_lead_to_every_section_and_exercise() -> None:
    files = parts(made(sample.sheet()))
    nav = fromstring(files["EPUB/nav.xhtml"])
    toc = next(one for one in nav.iterfind(".//h:nav", HTML) if one.get(TYPE) == "toc")
    links = [(one.get("href", ""), "".join(one.itertext())) for one in toc.iterfind(".//h:a", HTML)]
    for address, _ in links:
        name, _, anchor = address.partition("#")
        page = fromstring(files[f"EPUB/{name}"])
        assert [one for one in page.iter() if one.get("id") == anchor], address
    words = [text for _, text in links]
    assert words[1] == "STOP and get help if this happens"
    assert [text for text in words if text[0].isdigit()] == [
        "1 Stand up from a chair",
        "2 Straighten your knee",
        "3 Lift your hips",
        "4 Step up",
        "5 Calf stretch",
    ]
    assert "Your diary" not in words


def test_a_picture_is_drawn_in_place_with_its_text_alternative() -> None:
    page = fromstring(parts(made(sample.sheet()))["EPUB/part-2.xhtml"])
    drawings = page.findall(".//svg:svg", HTML)
    assert len(drawings) == 4
    titles = [drawing.findtext("svg:title", namespaces=HTML) for drawing in drawings]
    assert titles[0] == "A person does the exercise Stand up from a chair in 3 pictures."


def test_from_right_to_left_pages_turn_the_other_way_and_the_font_goes_along() -> None:
    data = made(others.arabic(), ARABIC)
    spine = package(data).find("opf:spine", OPF)
    assert spine is not None
    assert spine.get("page-progression-direction") == "rtl"
    files = parts(data)
    for name in ("Vazirmatn-Regular.ttf", "Vazirmatn-Bold.ttf"):
        assert files[f"EPUB/{name}"] == resources.data("protodsl.fonts", name)
        assert f'url("{name}")' in files["EPUB/style.css"].decode()
    chapter = fromstring(files["EPUB/part-1.xhtml"])
    assert chapter.get("dir") == "rtl"
    assert chapter.get("{http://www.w3.org/XML/1998/namespace}lang") == "ar"
    assert not [name for name in parts(made(sample.sheet())) if name.endswith(".ttf")]


def test_large_print_is_larger() -> None:
    usual, large = (parts(made(sample.sheet(), Style(large_print=one))) for one in (False, True))
    assert b'class="sheet"' in usual["EPUB/part-1.xhtml"]
    assert b'class="sheet large"' in large["EPUB/part-1.xhtml"]
    assert b"html.large { font-size: 1.5em" in large["EPUB/style.css"]


def test_every_chapter_of_a_draft_says_that_it_is_one() -> None:
    files = parts(made(replace(sample.sheet(), draft=("Draft: not for a patient",))))
    chapters = [text.decode() for name, text in files.items() if "part-" in name]
    assert len(chapters) == 3
    assert all('<p class="draft">Draft: not for a patient</p>' in text for text in chapters)


def test_the_same_page_gives_the_same_bytes() -> None:
    assert made(sample.sheet()) == made(sample.sheet())


def test_a_clinics_own_template_and_style_are_used(tmp_path: Path) -> None:
    own = '{% extends "protodsl/sheet.html.j2" %}{% block masthead %}<p>Our quay</p>{{ super() }}{% endblock %}'
    style = clinic.style(tmp_path, sheet__html__j2=own, epub__css="p { margin: 1em }")
    files = parts(made(sample.sheet(), style))
    assert b"<p>Our quay</p>" in files["EPUB/part-1.xhtml"]
    assert files["EPUB/style.css"] == b"p { margin: 1em }"


@pytest.mark.parametrize(
    ("block", "code"),
    [
        ("{% block main %}{% endblock %}", "P951"),
        ('{% block masthead %}<img alt="" src="http://a.example/b.png"/>{% endblock %}', "P957"),
        ('{% block main %}<div hidden="">{{ super() }}</div>{% endblock %}', "P952"),
    ],
)
def test_a_template_that_loses_hides_or_fetches_makes_no_book(tmp_path: Path, block: str, code: str) -> None:
    own = '{% extends "protodsl/sheet.html.j2" %}' + block
    outcome = epub(sample.sheet(), clinic.style(tmp_path, sheet__html__j2=own))
    assert outcome.value is None
    assert {one.code.id for one in outcome.diagnostics} == {code}
