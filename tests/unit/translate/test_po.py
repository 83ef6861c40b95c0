"""What is written can be read again, by this project and by programs that are not its own."""

from __future__ import annotations

import shutil
import subprocess
from dataclasses import replace
from datetime import date
from io import BytesIO
from pathlib import Path

import pytest
from babel.messages.pofile import read_po as babel_reads
from hypothesis import given, settings
from hypothesis import strategies as some

from protodsl.translate.entries import Catalogue, Entry
from protodsl.translate.merge import with_headers
from protodsl.translate.po import write_po
from protodsl.translate.review import Review, digest
from protodsl.translate.text import decoded
from tests.unit.translate.catalogues import compiled, read

needs_gettext = pytest.mark.skipif(shutil.which("msgfmt") is None, reason="GNU gettext is not installed")

# Everything an author can type on one line, with what a PO file has to escape.
SIGNS = some.characters(blacklist_categories=("Cs", "Cc"))
WORDS = some.text(SIGNS, min_size=1, max_size=60).map(str.strip).filter(bool)
WORDS |= some.sampled_from(['a "quoted" word', "back\\slash", "tab\tinside", "\\n", 'ends in "', "#, fuzzy", "| msgid"])
COMMENT = some.sampled_from(["ask the lead", "see the film", "nothing, really"])


@some.composite
def _entries(draw: some.DrawFn) -> Entry:
    key = f"exercise/{draw(some.sampled_from(['heel raise', 'calf “x”', 'a/b']))}/do"
    source, target = draw(WORDS), draw(some.just("") | WORDS)
    fuzzy = bool(target) and draw(some.booleans())
    mark = Review(date(2026, 10, 5), "physiotherapist, native speaker", digest(key, (source,), (target,)))
    return Entry(
        key,
        (source,),
        (target,) if target else (),
        fuzzy,
        (draw(WORDS),) if fuzzy else (),
        tuple(draw(some.lists(COMMENT, max_size=2, unique=True))),
        tuple(draw(some.lists(COMMENT, max_size=2, unique=True))),
        mark if target and not fuzzy and draw(some.booleans()) else None,
        (draw(some.sampled_from(["ankle.protocol", "library/our calf.protocol"])),),
    )


def _unique(entries: list[Entry]) -> tuple[Entry, ...]:
    return tuple({entry.id: entry for entry in entries}.values())


CATALOGUES = some.lists(_entries(), max_size=6).map(_unique)


@settings(max_examples=150, deadline=None)
@given(CATALOGUES, CATALOGUES)
def test_reading_what_was_written_gives_the_same(entries: tuple[Entry, ...], old: tuple[Entry, ...]) -> None:
    """Every part of an entry comes back, of an obsolete one all but where it once stood."""
    known = {entry.id for entry in entries}
    gone = tuple(replace(entry, notes=(), places=()) for entry in old if entry.id not in known and entry.target)
    catalogue = with_headers(Catalogue("translations/es/x.po", "es", entries=entries, obsolete=gone))
    again = read(write_po(catalogue), "es", catalogue.path)
    assert again.entries == entries
    assert sorted(again.obsolete, key=lambda e: e.id) == sorted(gone, key=lambda e: e.id)
    assert again.headers == catalogue.headers
    assert write_po(again) == write_po(catalogue)


@settings(max_examples=60, deadline=None)
@given(CATALOGUES)
def test_babel_reads_the_same_words(entries: tuple[Entry, ...]) -> None:
    """Babel's public reader finds each string, its translation and its mark `fuzzy`."""
    text = write_po(with_headers(Catalogue("x.po", "es", entries=entries)))
    theirs = {(m.context, m.id): (m.string, m.fuzzy) for m in babel_reads(BytesIO(text.encode())) if m.id}
    assert theirs == {entry.id: ((entry.target or ("",))[0], entry.fuzzy) for entry in entries}


@needs_gettext
@settings(max_examples=25, deadline=None)
@given(entries=CATALOGUES)
def test_gettext_compiles_it_and_finds_the_words(
    entries: tuple[Entry, ...], tmp_path_factory: pytest.TempPathFactory
) -> None:
    """GNU msgfmt --check takes the file; Python's reader finds in it what is translated and not fuzzy."""
    place = tmp_path_factory.mktemp("po")
    (place / "x.po").write_text(write_po(with_headers(Catalogue("x.po", "es", entries=entries))), encoding="utf-8")
    found = compiled(place / "x.po", place)
    for entry in entries:
        wanted = entry.target[0] if entry.is_translated else entry.source[0]
        assert found.pgettext(*entry.id) == wanted


@needs_gettext
def test_gettexts_own_tools_keep_the_marks(tmp_path: Path) -> None:
    """What msgcat, as a PO editor does, reads and writes again still holds the review, the comments and the state."""
    mark = Review(date(2026, 10, 5), "physiotherapist", digest("a/b/do", ("Rise.",), ("Suba.",)))
    entries = (
        Entry("a/b/do", ("Rise.",), ("Suba.",), review=mark, comments=("mine",), notes=("a step",), places=("a.po",)),
        Entry("a/b/stop", ("New pain. " * 20,), ("Dolor.",), True, ("Pain. " * 30,), places=("a.po",)),
    )
    catalogue = with_headers(Catalogue("x.po", "es", entries=entries))
    path = tmp_path / "x.po"
    path.write_text(write_po(catalogue), encoding="utf-8")
    wrapped = subprocess.run(["msgcat", path], check=True, capture_output=True, text=True).stdout
    assert wrapped != write_po(catalogue)
    again = read(wrapped, "es", "x.po")
    assert again.entries == entries
    assert again.entries[0].is_reviewed


def test_plural_forms_are_kept_in_the_number_of_the_language() -> None:
    """Arabic has six; a form that is missing makes the entry untranslated."""
    entry = Entry("unit.reps", ("{count} repetition", "{count} repetitions"), ("a", "b", "c", "d", "e", "{count} f"))
    text = write_po(with_headers(Catalogue("ar.po", "ar", entries=(entry,))))
    assert read(text, "ar").entries == (entry,)
    fewer = read(text.replace('msgstr[5] "{count} f"\n', ""), "ar").entries[0]
    assert not fewer.is_translated


def test_windows_line_ends_and_blanks_are_read() -> None:
    data = b'msgid ""\r\nmsgstr ""\r\n\r\n  msgctxt "a/b/do"\r\n msgid "Rise."\r\nmsgstr  "Suba."\r\n'
    text = decoded("x.po", data).value
    assert text is not None and read(text.text, "es").entries[0].target == ("Suba.",)
