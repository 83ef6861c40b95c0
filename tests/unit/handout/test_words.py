"""Each case below `tests/cases/good/words` pins, word by word, what a protocol's sheet and clinician's page say.

`PROTODSL_WRITE_EXPECTED=1 python -m pytest tests/unit/handout/test_words.py` writes them anew; read the difference
before it is committed.
"""

import os
from decimal import Decimal
from pathlib import Path

import pytest

from protodsl.diagnostics.diagnostic import Severity
from protodsl.handout import Options, compose_clinician, compose_sheet
from protodsl.handout.blocks import Handout
from protodsl.handout.phrase import Phrase
from protodsl.localise import localise
from protodsl.model.protocol import Protocol
from protodsl.readability import Kind, level_of, total
from protodsl.resolve import Cache, resolve
from tests.unit.handout.demo import PROTOCOLS, Shelf, demo
from tests.unit.handout.samples import CLINIC
from tests.unit.handout.shown import shown, shown_lines

WORDS = Path(__file__).parents[2] / "cases" / "good" / "words"
CASES = sorted(path for path in WORDS.iterdir() if path.is_dir())
WRITE = bool(os.environ.get("PROTODSL_WRITE_EXPECTED"))


@pytest.mark.parametrize("folder", CASES, ids=lambda folder: folder.name)
def test_a_protocol_says_what_is_pinned(folder: Path) -> None:
    """The sheet and the clinician's page, in words."""
    shelf = Shelf(folder)
    (file,) = folder.glob("*.protocol")
    entry = resolve(file.name, shelf, Cache())
    assert not [one.message for one in entry.diagnostics if one.severity is Severity.ERROR]
    assert entry.value is not None
    (protocol,) = entry.value.protocols
    options = Options(sources=shelf.sources, digest="01234-56789", version="1.0")
    pages = {
        "sheet.txt": compose_sheet(protocol, CLINIC, options),
        "clinician.txt": compose_clinician(protocol, CLINIC, entry.diagnostics, options),
    }
    for name, page in pages.items():
        said = _in_words(page, protocol)
        if WRITE:
            (folder / name).write_text(said, encoding="utf-8")
        assert said == (folder / name).read_text(encoding="utf-8")


def test_every_file_is_read() -> None:
    """An expectation that no test reads is no expectation."""
    assert {path.name for folder in CASES for path in folder.iterdir() if path.suffix != ".protocol"} == {
        "sheet.txt",
        "clinician.txt",
    }


@pytest.mark.parametrize("path", PROTOCOLS, ids=lambda path: path.stem)
def test_a_sheet_is_plain_enough_to_read(path: Path) -> None:
    """No section is above the eighth school grade by the formula of Kincaid and others, 1975 (Report 8-75).

    That eight is the most a patient should meet is common practice, no source. Sources and versions are left out.
    """
    sources, protocols = demo(path)
    for protocol in protocols:
        page = localise(compose_sheet(protocol, CLINIC, Options(sources=sources)), protocol.scope, CLINIC, "en").value
        assert page is not None
        for section in page.sections:
            if section.id not in ("about", "ask"):
                assert _grade(shown_lines(section)) <= 8, section.id


def _grade(lines: list[str]) -> Decimal:
    level = level_of(total((line.replace("*", "") for line in lines), "en"), "en", Kind.GRADE)
    return level.value if level else Decimal(0)


def _in_words(page: Handout[Phrase], protocol: Protocol) -> str:
    made = localise(page, protocol.scope, CLINIC, "en")
    assert made.value is not None and not made.diagnostics
    return shown(made.value)
