"""Syllables of an English word by its letters; held against the CMU Pronouncing Dictionary in the tests."""

from __future__ import annotations

import re
from functools import cache

_VOWELS = re.compile(r"[aeiouy]+")
# An e that is written and not spoken: at the end, in most -ed and -es, and before endings that are words of their own.
_SILENT = re.compile(
    r"e(?=(?:ly|ful|ness|less|ments?|thing|where|body|ways|work)$)"
    r"|(?<=[^aeiouyltd])ed$|(?<=[aeiou]l)ed$|(?<=ll)ed$"
    r"|(?<=[^aeiouysxzcgh])(?<![^aeiouy]l)es$|(?<![^aeiouy]l)e$"
)
# Vowels side by side that are spoken apart, and endings that are spoken without a vowel.
_APART = re.compile(
    r"yi|(?<![cstgxn])i[ao](?!us)|[aeou]ing|eo(?!u|ple|n$|rge)|(?<=[^cgst])ien|i(?:er|est)$|ua(?=l)|iu|ie(?=t)"
    r"|(?<=r)ious|sms?$|thms?$"
)


@cache
def english(word: str) -> int:
    """The syllables of an English word, counted by its letters; a number counts as one."""
    letters = re.sub(r"[^a-z]", "", re.sub(r"['’]s$", "", word.lower()))
    return max(1, len(_VOWELS.findall(_SILENT.sub("", letters))) + len(_APART.findall(letters)))
