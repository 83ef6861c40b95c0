"""What a reader finds in a document, by libraries that had no part in making it."""

from __future__ import annotations

import io
import zipfile
from html.parser import HTMLParser
from typing import Any

import docx
from markdown_it import MarkdownIt
from pypdf import PdfReader


class _Words(HTMLParser):
    def __init__(self) -> None:
        super().__init__()
        self.parts: list[str] = []
        self._unseen = 0

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        self._unseen += tag in ("style", "head", "script")

    def handle_endtag(self, tag: str) -> None:
        self._unseen -= tag in ("style", "head", "script")

    def handle_data(self, data: str) -> None:
        if not self._unseen:
            self.parts.append(data)


def html_words(text: str) -> str:
    """The words of HTML or XHTML, by the parser of the standard library."""
    parser = _Words()
    parser.feed(text)
    return " ".join(parser.parts)


def words_in(form: str, data: bytes) -> str:
    """All words of a file in one of the formats, in order; those of its name and its parts excepted."""
    if form == "html":
        return html_words(data.decode())
    if form == "pdf":
        return " ".join(page.extract_text() for page in PdfReader(io.BytesIO(data)).pages)
    if form == "md":
        return html_words(MarkdownIt("commonmark").enable("table").render(data.decode()))
    if form == "epub":
        with zipfile.ZipFile(io.BytesIO(data)) as book:
            names = [name for name in book.namelist() if name.endswith(".xhtml") and "nav" not in name]
            return " ".join(html_words(book.read(name).decode()) for name in names)
    if form == "docx":
        return "\n".join(_docx_words(docx.Document(io.BytesIO(data))))
    return data.decode()


def _docx_words(where: Any) -> list[str]:
    """Paragraphs and tables in the order of the document."""
    found: list[str] = []
    for block in where.iter_inner_content():
        if hasattr(block, "rows"):
            seen: set[int] = set()
            for row in block.rows:
                for cell in row.cells:
                    if id(cell._tc) not in seen:
                        seen.add(id(cell._tc))
                        found += _docx_words(cell)
        else:
            found.append(block.text)
    return found
