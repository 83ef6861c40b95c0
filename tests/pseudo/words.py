"""Texts in two languages that nobody speaks: one longer and accented, one of Arabic letters.

What is left of English in a page of either was never translated: neither has a letter from A to Z.
"""

from __future__ import annotations

import re
from collections.abc import Callable
from dataclasses import replace
from pathlib import Path

from protodsl.translate.entries import Entry
from protodsl.translate.plurals import categories
from protodsl.translate.po import write_po
from protodsl.translate.tags import locale_of
from tests.unit.translate.catalogues import load

# A placeholder is no word: `{value}` of the product's own, `[setting]` of a clinic's prose.
_SLOT = re.compile(r"(\{\w+\}|\[[^\[\]]*\])")
_PLAIN = "abcdefghijklmnopqrstuvwxyz"
_ACCENTED = "åḃçďéƒĝĥîĵķļμñöþɋřšţûṿŵẍýž"
_ARABIC = "ابتثجحخدذرزسشصضطظعغفقكلمنه"
# Translations are longer than English by a third and more where the text is short (W3C, "Text size in translation").
_LONGER = 0.4
OPEN, CLOSE = "«", "»"

Spell = Callable[[str], str]


def accented(text: str) -> str:
    """The text with an accent on every letter, longer by two fifths, between brackets."""
    return _turned(text, _table(_ACCENTED, _ACCENTED.upper()), "ļöñĝ")


def mirrored(text: str) -> str:
    """The text in Arabic letters, longer by two fifths, between brackets."""
    return _turned(text, _table(_ARABIC, _ARABIC), "طويل")


def fill(path: Path, language: str, spell: Spell) -> None:
    """Translate a whole catalogue."""
    held = load(path, language)
    path.write_text(
        write_po(replace(held, entries=tuple(_filled(one, language, spell) for one in held.entries))), encoding="utf-8"
    )


def _filled(entry: Entry, language: str, spell: Spell) -> Entry:
    forms = entry.source
    if len(forms) > 1:
        locale = locale_of(language)
        assert locale is not None
        forms = tuple(forms[-1] for _ in categories(locale))
    return replace(entry, target=tuple(map(spell, forms)), fuzzy=False)


def _table(lower: str, upper: str) -> dict[int, int]:
    assert len(lower) == len(upper) == len(_PLAIN)
    return str.maketrans(_PLAIN + _PLAIN.upper(), lower + upper)


def _turned(text: str, table: dict[int, int], filler: str) -> str:
    parts = _SLOT.split(text)
    letters = sum(sign.isalpha() for part in parts[::2] for sign in part)
    if not letters:
        return text
    spelt = "".join(part if at % 2 else part.translate(table) for at, part in enumerate(parts))
    more = " ".join([filler] * max(1, round(letters * _LONGER / (len(filler) + 1))))
    return f"{OPEN}{spelt} {more}{CLOSE}"
