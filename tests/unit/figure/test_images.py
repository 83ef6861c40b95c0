"""Picture files: what may be shown, what may not, and what is left of an SVG.

What an SVG may do in a page is in SVG 2 (W3C 2018), 2.7 and 16.7, and HTML (WHATWG), 4.8.4.4: an image may run and
fetch nothing. Here it must not even hold what would.
"""

from __future__ import annotations

import re
import struct
from base64 import b64decode
from pathlib import Path
from xml.etree import ElementTree
from zlib import compress, crc32

import pytest

from protodsl.asked import Asked
from protodsl.compiler import check_project, make_handout
from protodsl.figure.images import ImageFile, picture_of
from protodsl.figure.picture_file import LARGEST, Unread
from protodsl.figure.raster import Size, jpeg_size, png_size
from protodsl.figure.svg_image import clean
from protodsl.model.exercise import Image
from protodsl.model.text import Prose
from protodsl.project import open_project
from tests.cases.running import AS_OF, CASES

IMAGE = Image("a.svg", Prose("Standing on tiptoe"))
SHEET = """exercise heel raise
  dose 3 x 12, 3 days a week
  do
    Rise as high as you can.
  stop sharp pain
  image pictures/heel.{}: standing on tiptoe

question fever: Do you have a fever?

protocol heels
  title Heels
  version 1.0.0
  review 2026-10-05 by lead, next by 2027-10-05
  source Common practice, no source
  for everybody
  goal stronger calves
  red flag if fever
  give heel raise
"""


def png(width: int, height: int) -> bytes:
    """A grey PNG, made by the words of the standard (PNG, third edition, W3C 2025, 5 and 11.2)."""
    rows = b"".join(b"\0" + b"\x80" * width for _ in range(height))
    chunks = (
        (b"IHDR", struct.pack(">IIBBBBB", width, height, 8, 0, 0, 0, 0)),
        (b"IDAT", compress(rows)),
        (b"IEND", b""),
    )
    found = b"\x89PNG\r\n\x1a\n"
    for kind, data in chunks:
        found += struct.pack(">I", len(data)) + kind + data + struct.pack(">I", crc32(kind + data))
    return found


def jpeg(width: int, height: int) -> bytes:
    """The skeleton of a JPEG: start, a comment, a baseline frame, the end (ITU-T T.81, annex B)."""
    frame = struct.pack(">HHBHHB", 0xFFC0, 11, 8, height, width, 1) + b"\x01\x11\x00"
    return b"\xff\xd8" + b"\xff\xfe\x00\x04hi" + frame + b"\xff\xd9"


def svg(inside: str, opening: str = 'viewBox="0 0 40 30"') -> bytes:
    return f'<svg xmlns="http://www.w3.org/2000/svg" {opening}>{inside}</svg>'.encode()


def code(data: bytes | Unread) -> str:
    """The code of what is wrong with a picture; "" for one that may be shown."""
    found = picture_of(IMAGE, data)
    assert (found.value is None) == bool(found.diagnostics)
    return found.diagnostics[0].code.id if found.diagnostics else ""


def shown(data: bytes) -> ImageFile:
    found = picture_of(IMAGE, data)
    assert found.value is not None, found.diagnostics
    return found.value


def test_what_may_be_shown() -> None:
    for data, kind in (
        (png(80, 60), "image/png"),
        (jpeg(80, 60), "image/jpeg"),
        (svg("<path d='M0 0h9'/>"), "image/svg+xml"),
    ):
        made = shown(data)
        assert made.uri.startswith(f"data:{kind};base64,")
        assert made.ratio == pytest.approx(4 / 3)
    assert b64decode(shown(png(80, 60)).uri.partition(",")[2]) == png(80, 60)


def test_a_picture_that_is_not_there_or_not_ours() -> None:
    assert code(Unread.MISSING) == "F301"
    assert code(Unread.OUTSIDE) == "F306"


def test_a_picture_that_is_too_large() -> None:
    assert code(svg("<g/>" * 5) + b" " * LARGEST) == "F302"


@pytest.mark.parametrize(
    "data",
    [
        b"", b"hello", b"GIF89a" + b"\0" * 40, b"%PDF-1.7", b"\0" * 100, b"\x89PNG\r\n\x1a\n", png(80, 60)[:-20],
        png(80, 60)[:40] + b"?" + png(80, 60)[41:], b"\xff\xd8\xff", jpeg(80, 60)[:-2], b"<html><body/></html>",
        b"<svg>", svg("<path>"), svg("", opening=""), svg("", opening='width="100%" height="100%"'),
        b"<?xml version='1.0'?>",
        svg("", opening='viewBox="0 0 a b"'),
    ],
)  # fmt: skip
def test_what_is_no_picture(data: bytes) -> None:
    """F303, whatever the name of the file says."""
    assert code(data) == "F303" or (code(data) == "F305" and b"html" in data)


@pytest.mark.parametrize(
    "data",
    [
        png(1, 1), png(30, 80), png(1000, 50), jpeg(60000, 60000), jpeg(9000, 9000), svg("", 'viewBox="0 0 0 0"'),
        svg("", 'viewBox="0 0 400 3"'), svg("", 'width="1mm" height="90mm"'), svg("", 'viewBox="0 0 nan inf"'),
    ],
)  # fmt: skip
def test_a_picture_of_an_absurd_size(data: bytes) -> None:
    """F304: specks, giants and strips."""
    assert code(data) == "F304"


BOMB = "".join(
    f'<g id="{chr(98 + n)}">' + f'<use href="#{chr(97 + n)}"/>' * 10 + "</g>" for n in range(8)
)  # fmt: skip
XLINK = 'xmlns:xlink="http://www.w3.org/1999/xlink"'


@pytest.mark.parametrize(
    "data",
    [
        svg("<script>alert(1)</script>"),
        svg("<g><SCRIPT/></g>"),
        svg("", 'viewBox="0 0 40 30" onload="alert(1)"'),
        svg("<path d='M0 0' onclick='x()'/>"),
        svg("<foreignObject><p>hi</p></foreignObject>"),
        svg("<foreignObject><body xmlns='http://www.w3.org/1999/xhtml'/></foreignObject>"),
        svg("<g xmlns:h='http://www.w3.org/1999/xhtml'><h:iframe src='a'/></g>"),
        svg("<image href='http://example.org/a.png'/>"),
        svg("<image href='//example.org/a.png'/>"),
        svg("<image href='a.png'/>"),
        svg(f"<image {XLINK} xlink:href='file:///etc/passwd'/>"),
        svg("<image href='data:image/svg+xml;base64,PHN2Zz4='/>"),
        svg("<use href='other.svg#a'/>"),
        svg("<a href='javascript:alert(1)'><path d='M0 0'/></a>"),
        svg("<a href='https://example.org'><path d='M0 0'/></a>"),
        svg("<path d='M0 0' style='fill:url(http://example.org/a#b)'/>"),
        svg("<path d='M0 0' fill='url(\"https://example.org/a\")'/>"),
        svg("<style>@import 'a.css';</style>"),
        svg("<style>path { fill: url(a.svg#b) }</style>"),
        svg("<style>@imp</style><style>path { fill: u\\72l(a) }</style>"),
        svg("<style>p { fill: u<!-- -->rl(http://example.org) }</style>"),
        svg("<filter><feImage href='#a'/></filter>"),
        b'<!DOCTYPE svg [<!ENTITY a "b">]>' + svg("<text>&a;</text>"),
        b'<!DOCTYPE svg [<!ENTITY a SYSTEM "file:///etc/passwd">]>' + svg("<text>&a;</text>"),
        svg(f'<path id="a" d="M0 0"/>{BOMB}<use href="#i"/>'),
        svg("<g id='a'><use href='#b'/></g><g id='b'><use href='#a'/></g><use href='#a'/>"),
        svg("<g>" * 150 + "</g>" * 150),
    ],
)
def test_an_svg_that_is_not_safe(data: bytes) -> None:
    """F305: nothing that runs, nothing from outside, nothing that unfolds without end."""
    assert code(data) == "F305"


def test_what_is_left_of_an_svg_is_the_drawing() -> None:
    """Another program's notes, comments, instructions and document types go; what draws stays as it was."""
    text = (
        '<?xml version="1.0"?><?xml-stylesheet href="http://example.org/a.css"?>'
        '<!DOCTYPE svg PUBLIC "-//W3C//DTD SVG 1.1//EN" "http://www.w3.org/Graphics/SVG/1.1/DTD/svg11.dtd">'
        '<svg xmlns="http://www.w3.org/2000/svg" xmlns:x="http://example.org/draw" x:version="1"'
        ' width="80" height="60">'
        '<x:notes><x:by>me</x:by></x:notes><metadata>who</metadata><!-- a -->'
        '<defs><linearGradient id="g"><stop offset="0" stop-color="#fff"/></linearGradient></defs>'
        '<path d="M0 0h9" fill="url(#g)" x:label="leg"/><use href="#g"/><animate attributeName="x"/>'
        '<text>1 &lt; 2 &amp; 3</text>'
        "</svg>"
    )  # fmt: skip
    made = clean(text.encode()).text
    assert "example.org" not in made and "who" not in made and "animate" not in made and "<?" not in made
    root = ElementTree.fromstring(made)
    assert [one.tag.partition("}")[2] for one in root.iter()] == [
        "svg", "defs", "linearGradient", "stop", "path", "use", "text",
    ]  # fmt: skip
    assert root.find("{*}path").attrib == {"d": "M0 0h9", "fill": "url(#g)"}  # type: ignore[union-attr]
    assert root.findtext("{*}text") == "1 < 2 & 3"
    assert clean(made.encode()).text == made


def test_sizes_by_the_structure_of_the_file() -> None:
    assert png_size(png(80, 60)) == Size(80, 60)
    assert jpeg_size(jpeg(80, 60)) == Size(80, 60)


def project(place: Path, ending: str, data: bytes) -> Path:
    (place / "pictures").mkdir()
    (place / "pictures" / f"heel.{ending}").write_bytes(data)
    (place / "heels.protocol").write_text(SHEET.format(ending), encoding="utf-8")
    (place / "clinic.toml").write_bytes((CASES / "clinic.toml").read_bytes())
    return place


def sheet(place: Path) -> tuple[list[str], str]:
    """What is said about a project, and its one sheet as HTML."""
    checked = check_project(open_project(place), [place], AS_OF)
    entry = checked.entries[0]
    assert entry.value is not None
    made = make_handout(checked, entry, entry.value.protocols[0], Asked(formats=("html",)))
    return [one.code.id for one in checked.diagnostics], (made.value or {}).get("html", b"").decode()


def test_a_picture_stands_on_the_sheet_with_its_words(tmp_path: Path) -> None:
    said, page = sheet(project(tmp_path, "svg", svg("<path d='M0 0h9'/>")))
    assert not {one for one in said if one.startswith("F")}
    assert 'src="data:image/svg+xml;base64,' in page and 'alt="standing on tiptoe"' in page


def test_the_digest_of_a_sheet_covers_its_pictures(tmp_path: Path) -> None:
    for name in "abc":
        (tmp_path / name).mkdir()
    pages = [
        sheet(project(tmp_path / name, "png", png(80, side)))[1] for name, side in (("a", 60), ("b", 61), ("c", 60))
    ]
    one, other, again = (re.findall(r"\b[0-9a-f]{5}-[0-9a-f]{5}\b", page)[0] for page in pages)
    assert one == again != other


@pytest.mark.parametrize("path", ["../heel.svg", "/etc/passwd", "pictures/../../heel.svg", "C:/heel.svg"])
def test_no_path_leads_out_of_a_project(tmp_path: Path, path: str) -> None:
    (tmp_path / "heel.svg").write_bytes(svg(""))
    inner = tmp_path / "inner"
    inner.mkdir()
    assert open_project(inner).picture(path) is Unread.OUTSIDE


def test_no_link_leads_out_of_a_project(tmp_path: Path) -> None:
    (tmp_path / "heel.svg").write_bytes(svg(""))
    inner = tmp_path / "inner"
    inner.mkdir()
    (inner / "heel.svg").symlink_to(tmp_path / "heel.svg")
    assert open_project(inner).picture("heel.svg") is Unread.OUTSIDE
    assert open_project(inner).picture("other.svg") is Unread.MISSING
