"""A text as words, and their letters."""

from __future__ import annotations

import re
import unicodedata
from functools import cache

_NUMBER = r"\d+(?:[.,٫]\d+)+"
_ASCII_WORD = re.compile(rf"{_NUMBER}|\w[\w'-]*")
# Where marks that stand on another letter (Arabic, Hebrew, Devanagari) have their place in Unicode.
_MARKS = range(0x300, 0x3100)


def words(text: str) -> list[str]:
    """The words of a text; a number counts as one, so do parts with a hyphen between, a placeholder as its words."""
    return (_ASCII_WORD if text.isascii() else _word()).findall(text)


@cache
def _word() -> re.Pattern[str]:
    """A word of any script: the library's `\\w` ends at a mark that stands on a letter."""
    marks = "".join(chr(sign) for sign in _MARKS if unicodedata.category(chr(sign)).startswith("M"))
    return re.compile(rf"{_NUMBER}|\w[\w{marks}'’-]*")


def letters(word: str) -> int:
    """How many letters a word has, without digits, hyphens and marks that stand on another letter."""
    return sum(sign.isalpha() for sign in word)


def characters(text: str) -> int:
    """How many letters and digits a text has."""
    return sum(sign.isalnum() for sign in text)
