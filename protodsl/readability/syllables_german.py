"""Syllables of a German word by its vowels; our own rules, held against a hand count of 46 syllables."""

from __future__ import annotations

import re
from functools import cache

# Two vowels that are spoken as one; all others that stand side by side are apart (`Po-si-ti-on`).
_NUCLEUS = re.compile(r"aa|ee|oo|ie|ei|ey|ai|ay|au|äu|eu|oi|oy|[aeiouyäöüéèàô]")
# The u of `qu` is none, and neither is a prefix that ends in the vowel the word begins with (`be-enden`, `ge-ehrt`).
_NO_VOWEL = re.compile(r"(?<=q)u")
_PREFIX = re.compile(r"^(be|ge)(?=[ei])")


@cache
def german(word: str) -> int:
    """The syllables of a German word; a number counts as one."""
    letters = _PREFIX.sub(r"\1-", _NO_VOWEL.sub("", word.lower()))
    return max(1, len(_NUCLEUS.findall(letters)))
