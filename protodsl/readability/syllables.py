"""Syllables of a word in the languages whose formulas need them.

English, German and Spanish are counted by rules on their letters; Italian, French and Dutch by the places at which
pyphen (the hyphenation patterns of Hunspell) breaks a word, also after its first letter, and in Italian and Dutch
before its last. Held against counts of four sentences each (English by the CMU Pronouncing Dictionary, others by hand)
English, German, Spanish and Italian are exact; pyphen as it comes misses 1 of 32, 3 of 46, 2 of 47 and 3 of 56. In
French it never breaks before a mute e (`chaise` is one) and misses some breaks (`idée`). For French and Dutch there is
no count to hold it against.
"""

from __future__ import annotations

import re
from collections.abc import Callable, Mapping
from functools import cache
from typing import Any

from protodsl.readability.measures import primary
from protodsl.readability.syllables_english import english
from protodsl.readability.syllables_german import german
from protodsl.readability.syllables_spanish import spanish

_OWN: Mapping[str, Callable[[str], int]] = {"en": english, "de": german, "es": spanish}
# The name of the dictionary, and how many letters have to stay behind the last break.
_DICTIONARIES: Mapping[str, tuple[str, int]] = {"fr": ("fr", 2), "it": ("it_IT", 1), "nl": ("nl_NL", 1)}
_PARTS = re.compile(r"[-'’]")


def has_syllables(language: str) -> bool:
    """Whether syllables of the language are counted."""
    tag = primary(language)
    return tag in _OWN or tag in _DICTIONARIES


def syllables(word: str, language: str) -> int:
    """The syllables of a word, at least one; a number counts as one. 0 for a language without a count."""
    tag = primary(language)
    if tag in _OWN:
        return _OWN[tag](word)
    return _hyphenated(word, tag) if tag in _DICTIONARIES else 0


@cache
def _hyphenated(word: str, language: str) -> int:
    parts = [part for part in _PARTS.split(word.lower()) if any(sign.isalpha() for sign in part)]
    # An elided article (`l'`, `d'`) is spoken with what follows.
    spoken = [part for part in parts if len(part) > 1 or len(parts) == 1]
    return max(1, sum(len(_dictionary(language).positions(part)) + 1 for part in spoken))


@cache
def _dictionary(language: str) -> Any:
    # Most checks are of English, which needs no dictionary.
    import pyphen

    name, right = _DICTIONARIES[language]
    return pyphen.Pyphen(lang=name, left=1, right=right)
