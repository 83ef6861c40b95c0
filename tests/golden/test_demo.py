"""The demo clinic's handouts, pinned: HTML whole but for its fonts, PDF as its title, tags, pages and text.

`python -m pytest tests/golden --snapshot-update` writes them anew; read the difference before it is committed.
"""

from __future__ import annotations

import io
import re
from datetime import date
from functools import cache
from pathlib import Path
from typing import Any, cast

import pytest
from pypdf import PdfReader
from syrupy.assertion import SnapshotAssertion
from syrupy.extensions.single_file import SingleFileSnapshotExtension, WriteMode

from protodsl.asked import Asked
from protodsl.compiler import Checked, check_project, make_handout
from protodsl.formats import CLINICIAN, HTML, PDF, SHEET
from protodsl.project import open_project

DEMO = Path(__file__).parents[2] / "protocols_demo"
# Every review date of the demo lies after this day.
DAY = date(2026, 11, 25)
KINDS = (SHEET, CLINICIAN)
FONT_DATA = re.compile(r"data:font/woff2;base64,[A-Za-z0-9+/=]+")


class Pinned(SingleFileSnapshotExtension):
    """One readable text file a snapshot."""

    _write_mode = WriteMode.TEXT
    file_extension = "txt"


@cache
def demo() -> Checked:
    """The demo project, checked once."""
    return check_project(open_project(DEMO), (DEMO,), DAY)


@cache
def made(name: str, kind: str) -> dict[str, bytes]:
    """One handout of the demo, in all formats."""
    entry, protocol = PROTOCOLS[name]
    outcome = make_handout(demo(), entry, protocol, Asked(kind=kind))
    assert outcome.value is not None and not outcome.diagnostics
    return outcome.value


PROTOCOLS = {
    protocol.name: (entry, protocol)
    for entry in demo().entries
    if entry.value is not None
    for protocol in entry.value.protocols
}


def test_the_demo_builds_without_a_diagnostic() -> None:
    """Not one error, warning or hint in the whole demo clinic, and at least eight protocols in it."""
    assert [(one.code.id, one.message) for one in demo().diagnostics] == []
    assert len(PROTOCOLS) >= 8


@pytest.mark.parametrize("kind", KINDS)
@pytest.mark.parametrize("name", PROTOCOLS)
def test_html(name: str, kind: str, snapshot: SnapshotAssertion) -> None:
    """The page as written, its fonts named only."""
    text = FONT_DATA.sub("data:font/woff2", made(name, kind)[HTML].decode())
    assert text == snapshot(extension_class=Pinned)


@pytest.mark.parametrize("kind", KINDS)
@pytest.mark.parametrize("name", PROTOCOLS)
def test_pdf(name: str, kind: str, snapshot: SnapshotAssertion) -> None:
    """What a reader gets page by page, and that the file says what it is and is tagged."""
    reader = PdfReader(io.BytesIO(made(name, kind)[PDF]))
    assert reader.metadata is not None and reader.metadata.title
    root = cast("dict[str, Any]", reader.root_object)
    assert root["/MarkInfo"]["/Marked"]
    assert root["/Lang"] == "en"
    pages = [
        f"--- page {number} of {len(reader.pages)}\n{page.extract_text()}"
        for number, page in enumerate(reader.pages, 1)
    ]
    assert f"{reader.metadata.title}\n" + "\n".join(pages) == snapshot(extension_class=Pinned)
