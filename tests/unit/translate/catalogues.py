"""Catalogues for tests: read from their text, filled, and looked at by programs that are not this project's."""

from __future__ import annotations

import gettext
import re
import subprocess
from dataclasses import replace
from pathlib import Path

from protodsl.source import Source
from protodsl.translate.entries import Catalogue, Entry
from protodsl.translate.plurals import categories
from protodsl.translate.po import read_po, write_po
from protodsl.translate.tags import locale_of

_SLOT = re.compile(r"(\[[^\[\]]*\]|\{\w+\})")


def read(text: str, language: str = "en", path: str = "translations/en/tobillo.po") -> Catalogue:
    """The catalogue of a text without a mistake."""
    outcome = read_po(Source(path, text), language)
    assert outcome.value is not None and not outcome.diagnostics, outcome.diagnostics
    return outcome.value


def load(path: Path, language: str = "en") -> Catalogue:
    """The catalogue in a file."""
    return read(path.read_text("utf-8"), language)


def save(path: Path, catalogue: Catalogue) -> None:
    """Write a catalogue as a PO editor would."""
    path.write_text(write_po(catalogue), encoding="utf-8")


def filled(catalogue: Catalogue) -> Catalogue:
    """Every entry with words of its own: each word of the text turned round, numbers and placeholders kept."""
    entries = tuple(filled_entry(entry, catalogue.language) for entry in catalogue.entries)
    return replace(catalogue, entries=entries)


def fill(path: Path, language: str = "en") -> None:
    """Translate a whole catalogue."""
    save(path, filled(load(path, language)))


def turned(text: str) -> str:
    """Words that no language has, one for each of the text."""
    parts = _SLOT.split(text)
    return "".join(
        part if at % 2 else re.sub(r"[^\W\d_]+", lambda word: word[0][::-1], part) for at, part in enumerate(parts)
    )


def compiled(path: Path, place: Path) -> gettext.GNUTranslations:
    """The catalogue as GNU gettext's own compiler and Python's own reader have it."""
    target = place / "messages.mo"
    subprocess.run(["msgfmt", "--check", "--output-file", target, path], check=True, capture_output=True)
    with target.open("rb") as file:
        return gettext.GNUTranslations(file)


def filled_entry(entry: Entry, language: str) -> Entry:
    """The entry with words that no language has, in as many forms as the language has where the text has a plural."""
    forms = entry.source
    if len(forms) > 1:
        locale = locale_of(language)
        assert locale is not None
        forms = tuple(forms[-1] for _ in categories(locale))
    return replace(entry, target=tuple(turned(form) for form in forms), fuzzy=False)
