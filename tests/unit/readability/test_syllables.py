"""Syllables of single words, by the rules of each language; whole texts are held against counts in tests/evidence."""

from __future__ import annotations

import pytest

from protodsl.readability import has_syllables, syllables

# By the orthographic rules of diphthong and hiatus (Real Academia Española 2010; from memory, a check of our reading).
SPANISH = {
    "día": 2, "guía": 2, "oír": 2, "país": 2, "baúl": 2, "evalúe": 4, "caían": 3, "aeropuerto": 5, "leer": 2,
    "ahora": 3, "muy": 1, "rey": 1, "que": 1, "pie": 1, "ciudad": 2, "cuidado": 3, "rodilla": 3, "apoyarse": 4,
    "despacio": 3, "fisioterapia": 5, "vergüenza": 3, "limpiáis": 2, "y": 1,
}  # fmt: skip
# Duden, Die deutsche Rechtschreibung (from memory, a check of our reading).
GERMAN = {
    "Knie": 1, "Ferse": 2, "Bauch": 1, "Übung": 2, "Position": 4, "Therapie": 3, "quer": 1, "bequem": 2, "beenden": 3,
    "trainieren": 3, "Bewegung": 3, "neue": 2, "geübt": 2, "Schmerz": 1,
}  # fmt: skip


@pytest.mark.parametrize(("word", "count"), SPANISH.items())
def test_spanish(word: str, count: int) -> None:
    assert syllables(word, "es") == syllables(word.upper(), "es-MX") == count


@pytest.mark.parametrize(("word", "count"), GERMAN.items())
def test_german(word: str, count: int) -> None:
    assert syllables(word, "de") == count


@pytest.mark.parametrize(
    ("language", "word", "count"),
    [("it", "ginocchio", 3), ("it", "aiuto", 3), ("nl", "oefening", 3), ("fr", "douleur", 2), ("fr", "cinq", 1)],
)
def test_by_the_patterns_of_hyphenation(language: str, word: str, count: int) -> None:
    assert syllables(word, language) == count


def test_what_is_no_word_of_letters() -> None:
    """A number counts as one; an elided article is spoken with what follows; without a rule nothing is counted."""
    assert [syllables("2.5", tag) for tag in ("en", "de", "es", "it")] == [1, 1, 1, 1]
    assert syllables("l'aiuto", "it") == syllables("aiuto", "it")
    assert not has_syllables("pl") and syllables("kolano", "pl") == 0
