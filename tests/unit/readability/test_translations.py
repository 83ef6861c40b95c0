"""Translations are measured as what they are, and named where they stand."""

from __future__ import annotations

from datetime import date
from pathlib import Path

import pytest

from protodsl.compiler import check_project
from protodsl.diagnostics.diagnostic import Diagnostic
from protodsl.project import open_project
from tests.cases.running import CASES

CASE = CASES / "bad" / "W801-long-sentence" / "translation"
LONG = "Póngase de pie sobre el primer escalón de la escalera"


@pytest.fixture
def folder(tmp_path: Path) -> Path:
    """A project whose translation has one sentence that is too long."""
    (tmp_path / "translations/es").mkdir(parents=True)
    for name in ("example.protocol", "translations/es/example.po"):
        (tmp_path / name).write_bytes((CASE / name).read_bytes())
    (tmp_path / "clinic.toml").write_bytes((CASES / "clinic.toml").read_bytes())
    return tmp_path


def change(path: Path, old: str, new: str) -> str:
    text = path.read_text("utf-8")
    assert text.count(old) == 1
    path.write_text(text.replace(old, new), encoding="utf-8")
    return text.replace(old, new)


def long_ones(folder: Path) -> list[Diagnostic]:
    found = check_project(open_project(folder), [folder], date(2026, 11, 25)).diagnostics
    return [one for one in found if one.code.id == "W801"]


def test_the_sentence_is_marked_alone(folder: Path) -> None:
    text = change(folder / "translations/es/example.po", LONG, f"Bien. {LONG}")
    (found,) = long_ones(folder)
    marked = text[found.primary.span.start : found.primary.span.end]
    assert marked.startswith(LONG) and marked.endswith("con las dos manos.")


@pytest.mark.parametrize("words", [f'Diga \\"ay\\". {LONG}', f'"\n"{LONG}'])
def test_words_that_are_escaped_or_broken_are_named_by_their_line(folder: Path, words: str) -> None:
    text = change(folder / "translations/es/example.po", LONG, words)
    (found,) = long_ones(folder)
    assert text[found.primary.span.start :].startswith("msgstr")


def test_what_is_outdated_is_not_measured(folder: Path) -> None:
    """It is words for another text, and that is said already."""
    context = 'msgctxt "exercise/heel raise/do"'
    change(folder / "translations/es/example.po", context, f"#, fuzzy\n{context}")
    assert long_ones(folder) == []


def test_a_limit_of_the_language(folder: Path) -> None:
    clinic = folder / "clinic.toml"
    clinic.write_text(clinic.read_text("utf-8") + "\n[limits.es]\nwords-in-a-sentence = 26\n", encoding="utf-8")
    assert long_ones(folder) == []
