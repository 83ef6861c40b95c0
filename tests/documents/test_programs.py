"""Documents opened by the programs of others: EPUBCheck (W3C) and LibreOffice, where they are on the machine."""

from __future__ import annotations

import os
import re
import shutil
import subprocess
from pathlib import Path

import pytest

from protodsl.handout.blocks import Handout
from protodsl.render import Style
from protodsl.render.outputs import make
from protodsl.render.safety import safety_lines
from tests.documents.pages import demo_pages
from tests.documents.readers import words_in
from tests.unit.render import others, sample

EPUBCHECK = Path("/usr/share/java/epubcheck.jar")
# A short run is a third as long without the second compiler.
JAVA = ("java", "-XX:TieredStopAtLevel=1", "-XX:+UseSerialGC", "-jar")
PAGES: dict[str, tuple[Handout[str], Style]] = {
    "every block": (sample.sheet(), Style()),
    "large": (sample.sheet(), Style(large_print=True)),
    "clinician": (others.clinician(), Style(paper="Letter")),
    "arabic": (others.arabic(), Style(language="ar", direction="rtl")),
}


@pytest.fixture(scope="module")
def pages() -> dict[str, tuple[Handout[str], Style]]:
    """One of each kind, of the demo and of those with every kind of block."""
    demo = demo_pages()
    names = ("lateral ankle sprain, sheet", "lateral ankle sprain, questions", "P-0417, clinician")
    return PAGES | {name: demo[name] for name in names}


@pytest.mark.skipif(not EPUBCHECK.exists() or not shutil.which("java"), reason="Debian's epubcheck is not here")
def test_epubcheck_finds_nothing(pages: dict[str, tuple[Handout[str], Style]], tmp_path: Path) -> None:
    for name, (page, style) in pages.items():
        book = tmp_path / f"{name.replace(' ', '-')}.epub"
        book.write_bytes(make("epub", page, style).value or b"")
        told = subprocess.run([*JAVA, str(EPUBCHECK), str(book)], capture_output=True, text=True, check=False)
        counts = re.search(r"(\d+) fatals / (\d+) errors / (\d+) warnings", told.stdout + told.stderr)
        assert counts is not None, told.stderr
        assert counts.groups() == ("0", "0", "0"), (name, told.stderr)


@pytest.mark.skipif(not shutil.which("soffice"), reason="LibreOffice is not here")
def test_libreoffice_shows_every_safety_line(pages: dict[str, tuple[Handout[str], Style]], tmp_path: Path) -> None:
    """Printed by another program, the words are those of the handout; Arabic is left to the eye, as PDF reorders it."""
    files = []
    for name, (page, style) in pages.items():
        files.append(tmp_path / f"{name.replace(' ', '-')}.docx")
        files[-1].write_bytes(make("docx", page, style).value or b"")
    told = subprocess.run(
        ["soffice", "--headless", "--convert-to", "pdf", "--outdir", str(tmp_path), *map(str, files)],
        env={**os.environ, "HOME": str(tmp_path)},
        capture_output=True,
        timeout=300,
        check=True,
    )
    for file, (page, style) in zip(files, pages.values(), strict=True):
        printed = file.with_suffix(".pdf")
        assert printed.exists(), told.stderr
        if style.direction == "ltr":
            there = re.sub(r"\W+", "", words_in("pdf", printed.read_bytes()))
            assert [line for line in safety_lines(page) if re.sub(r"\W+", "", line.words) not in there] == []
