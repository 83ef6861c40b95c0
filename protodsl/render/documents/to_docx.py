"""A handout as a word-processing document that a clinic can go on writing in (ISO/IEC 29500-1, `.docx`)."""

from __future__ import annotations

import io
import zipfile
from collections.abc import Iterator
from xml.etree.ElementTree import Element, fromstring

from protodsl.diagnostics.render import extra_missing
from protodsl.handout.blocks import Handout
from protodsl.outcome import Outcome
from protodsl.render.documents.archive import zipped
from protodsl.render.safety import lost_in_text
from protodsl.render.style import Style

_MAIN = "{http://schemas.openxmlformats.org/wordprocessingml/2006/main}"


def docx(page: Handout[str], style: Style) -> Outcome[bytes]:
    """The document; read back, every safety line is in it, or a diagnostic says which is not."""
    try:
        from protodsl.render.documents.word.writer import document
    except ImportError as error:
        return Outcome(None, (extra_missing("docx", "docx", str(error)),))
    whole = io.BytesIO()
    document(page, style).save(whole)
    with zipfile.ZipFile(whole) as archive:
        data = zipped((name, archive.read(name)) for name in archive.namelist())
    said = lost_in_text(page, read_back(data))
    return Outcome(None if said else data, said)


def read_back(data: bytes) -> str:
    """The words of the document that can be seen, a line a paragraph."""
    with zipfile.ZipFile(io.BytesIO(data)) as archive:
        root = fromstring(archive.read("word/document.xml"))
    return "\n".join("".join(_words(paragraph)) for paragraph in root.iter(f"{_MAIN}p"))


def _words(paragraph: Element) -> Iterator[str]:
    for run in paragraph.iter(f"{_MAIN}r"):
        if run.find(f"{_MAIN}rPr/{_MAIN}vanish") is None:
            yield from (one.text or "" for one in run.iter(f"{_MAIN}t"))
