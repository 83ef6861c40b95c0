"""A made handout taken apart into headings, paragraphs, lists and tables, and put together again for other programs."""

from __future__ import annotations

import zipfile
from collections.abc import Iterator
from dataclasses import dataclass, field
from html import escape
from html.parser import HTMLParser
from pathlib import Path

Table = list[list[str]]
Piece = tuple[str, str | Table]

_HEADS = {f"h{level}" for level in range(1, 7)}
_TEXTS = {*_HEADS, "p", "li", "td", "th", "caption"}


@dataclass
class _Reader(HTMLParser):
    """Collects the pieces of a page in their order; a paragraph inside a list item or a cell belongs to it."""

    pieces: list[Piece] = field(default_factory=list)
    open: list[str] = field(default_factory=list)
    words: list[str] = field(default_factory=list)
    rows: Table | None = None
    silent: int = 0
    drawing: list[str] | None = None

    def __post_init__(self) -> None:
        super().__init__(convert_charrefs=True)

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        if tag == "svg":
            self.drawing = []
        if self.drawing is not None:
            given = "".join(f' {name}="{escape(value or "")}"' for name, value in attrs)
            self.drawing.append(f"<{tag}{given}>")
        elif tag in ("style", "head", "script"):
            self.silent += 1
        elif tag == "table":
            self.rows = []
        elif tag == "tr" and self.rows is not None:
            self.rows.append([])
        elif tag in _TEXTS:
            if not any(one in ("li", "td", "th") for one in self.open):
                self.words = []
            self.open.append(tag)

    def handle_startendtag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        if self.drawing is not None:
            given = "".join(f' {name}="{escape(value or "")}"' for name, value in attrs)
            self.drawing.append(f"<{tag}{given}/>")
        elif tag == "br":
            self.words.append(" ")

    def handle_endtag(self, tag: str) -> None:
        if self.drawing is not None:
            self.drawing.append(f"</{tag}>")
            if tag == "svg":
                self.pieces.append(("svg", "".join(self.drawing)))
                self.drawing = None
        elif tag in ("style", "head", "script"):
            self.silent -= 1
        elif tag == "table" and self.rows is not None:
            self.pieces.append(("table", [row for row in self.rows if row]))
            self.rows = None
        elif tag in _TEXTS and self.open:
            self.open.pop()
            self._close(tag)

    def _close(self, tag: str) -> None:
        text = " ".join("".join(self.words).split())
        if any(one in ("li", "td", "th") for one in self.open):
            self.words.append(" ")
        elif tag in ("td", "th") and self.rows:
            self.rows[-1].append(text)
            self.words = []
        elif text:
            self.pieces.append((tag, text))
            self.words = []

    def handle_data(self, data: str) -> None:
        if self.drawing is not None:
            self.drawing.append(escape(data))
        elif not self.silent and self.open:
            self.words.append(data)


def pieces_of(page: str) -> list[Piece]:
    """The pieces of an HTML page, in the order a reader meets them."""
    reader = _Reader()
    reader.feed(page)
    return reader.pieces


def plain_page(pieces: list[Piece], title: str) -> str:
    """The same as an author writes a page without thinking of cost: side-heads in flex rows, lists, tables."""
    body = "\n".join(_html(pieces))
    return f"""<!DOCTYPE html><html lang="en"><head><meta charset="utf-8"><title>{escape(title)}</title><style>
@page {{ size: A4; margin: 18mm 16mm; @bottom-right {{ content: "page " counter(page) " of " counter(pages) }} }}
body {{ font: 11pt/1.4 sans-serif; margin: 0 }}
h1 {{ font-size: 22pt; margin: 0 0 6pt }}
h2 {{ font-size: 15pt; border-bottom: 1pt solid; margin: 14pt 0 6pt; break-after: avoid }}
.row {{ display: flex; border-top: .5pt solid #999; padding: 4pt 0 }}
.row > h3, .row > h4 {{ width: 34mm; flex: none; font-size: 11pt; margin: 0 }}
.row > div {{ flex: 1 }}
p, ul {{ margin: 0 0 4pt }}
table {{ border-collapse: collapse; width: 100%; margin: 6pt 0 }}
td, th {{ border: .5pt solid #666; padding: 3pt; text-align: left }}
svg {{ width: 60mm; height: 40mm }}
</style></head><body>{body}</body></html>"""


def odt(pieces: list[Piece], title: str, path: Path) -> None:
    """The same as an OpenDocument text (ISO/IEC 26300), with named styles, real lists and real tables."""
    manifest = (
        '<?xml version="1.0"?><manifest:manifest xmlns:manifest="urn:oasis:names:tc:opendocument:xmlns:manifest:1.0">'
        '<manifest:file-entry manifest:full-path="/"'
        ' manifest:media-type="application/vnd.oasis.opendocument.text"/>'
        '<manifest:file-entry manifest:full-path="content.xml" manifest:media-type="text/xml"/>'
        '<manifest:file-entry manifest:full-path="meta.xml" manifest:media-type="text/xml"/>{}</manifest:manifest>'
    )
    drawings = [str(content) for kind, content in pieces if kind == "svg"]
    entries = "".join(
        f'<manifest:file-entry manifest:full-path="Pictures/{at}.svg" manifest:media-type="image/svg+xml"/>'
        for at in range(len(drawings))
    )
    with zipfile.ZipFile(path, "w", zipfile.ZIP_DEFLATED) as out:
        out.writestr("mimetype", "application/vnd.oasis.opendocument.text", zipfile.ZIP_STORED)
        out.writestr("META-INF/manifest.xml", manifest.format(entries))
        out.writestr("meta.xml", _META.format(escape(title)))
        out.writestr("content.xml", _CONTENT.format("".join(_opendocument(pieces))))
        for at, drawing in enumerate(drawings):
            out.writestr(f"Pictures/{at}.svg", drawing)


def _html(pieces: list[Piece]) -> Iterator[str]:
    in_list = in_row = False
    for kind, content in pieces:
        if in_list and kind != "li":
            yield "</ul>"
            in_list = False
        if in_row and (kind in _HEADS or kind == "table"):
            yield "</div></div>"
            in_row = False
        if kind in ("h3", "h4"):
            yield f'<div class="row"><{kind}>{escape(str(content))}</{kind}><div>'
            in_row = True
        elif kind == "table":
            rows = ("".join(f"<td>{escape(cell)}</td>" for cell in row) for row in content)
            yield "<table>" + "".join(f"<tr>{row}</tr>" for row in rows) + "</table>"
        elif kind == "svg":
            yield str(content)
        elif kind == "li":
            yield ("" if in_list else "<ul>") + f"<li>{escape(str(content))}</li>"
            in_list = True
        else:
            yield f"<{kind}>{escape(str(content))}</{kind}>"
    yield ("</ul>" if in_list else "") + ("</div></div>" if in_row else "")


def _opendocument(pieces: list[Piece]) -> Iterator[str]:
    in_list, drawn = False, 0
    for kind, content in pieces:
        if in_list and kind != "li":
            yield "</text:list>"
            in_list = False
        if kind in _HEADS:
            yield f'<text:h text:outline-level="{min(int(kind[1]), 3)}">{escape(str(content))}</text:h>'
        elif kind == "table":
            widest = max((len(row) for row in content), default=1)
            yield f'<table:table><table:table-column table:number-columns-repeated="{widest}"/>'
            for row in content:
                cells = (*row, *("" for _ in range(widest - len(row))))
                filled = "".join(
                    f"<table:table-cell><text:p>{escape(cell)}</text:p></table:table-cell>" for cell in cells
                )
                yield f"<table:table-row>{filled}</table:table-row>"
            yield "</table:table>"
        elif kind == "svg":
            yield (
                '<text:p><draw:frame text:anchor-type="as-char" svg:width="6cm" svg:height="4cm">'
                f'<draw:image xlink:href="Pictures/{drawn}.svg" xlink:type="simple"/><svg:title>figure</svg:title>'
                "</draw:frame></text:p>"
            )
            drawn += 1
        elif kind == "li":
            yield (
                "" if in_list else "<text:list>"
            ) + f"<text:list-item><text:p>{escape(str(content))}</text:p></text:list-item>"
            in_list = True
        else:
            yield f"<text:p>{escape(str(content))}</text:p>"
    yield "</text:list>" if in_list else ""


_META = (
    '<?xml version="1.0" encoding="UTF-8"?><office:document-meta'
    ' xmlns:office="urn:oasis:names:tc:opendocument:xmlns:office:1.0" xmlns:dc="http://purl.org/dc/elements/1.1/"'
    ' office:version="1.3"><office:meta><dc:title>{}</dc:title><dc:language>en</dc:language></office:meta>'
    "</office:document-meta>"
)
_CONTENT = (
    '<?xml version="1.0" encoding="UTF-8"?><office:document-content'
    ' xmlns:office="urn:oasis:names:tc:opendocument:xmlns:office:1.0"'
    ' xmlns:text="urn:oasis:names:tc:opendocument:xmlns:text:1.0"'
    ' xmlns:table="urn:oasis:names:tc:opendocument:xmlns:table:1.0"'
    ' xmlns:draw="urn:oasis:names:tc:opendocument:xmlns:drawing:1.0"'
    ' xmlns:svg="urn:oasis:names:tc:opendocument:xmlns:svg-compatible:1.0"'
    ' xmlns:xlink="http://www.w3.org/1999/xlink" office:version="1.3">'
    "<office:body><office:text>{}</office:text></office:body></office:document-content>"
)
