"""Syllables of a Spanish word by its vowels, after the rules of diphthong and hiatus.

Real Academia Española. Ortografía de la lengua española, 2010: two open vowels are apart, so is a closed vowel with an
accent; a closed vowel beside an open one, and two closed ones, are one syllable. From memory, not read again.
"""

from __future__ import annotations

import re
from functools import cache

_NUCLEUS = re.compile(r"[iuüy]?[aeoáéó][iuüy]?(?![íú])|[aeoáéó]|[íú]|[iuü]+y?|y$")
# The u of `que`, `qui`, `gue` and `gui` is none.
_MUTE = re.compile(r"(?<=[qg])u(?=[eiéí])")


@cache
def spanish(word: str) -> int:
    """The syllables of a Spanish word; a number counts as one."""
    return max(1, len(_NUCLEUS.findall(_MUTE.sub("", word.lower()))))
