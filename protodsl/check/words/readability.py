"""How hard English prose is to read: the school grade of Flesch and Kincaid, and syllables.

Kincaid JP, Fishburne RP, Rogers RL, Chissom BS. Derivation of new readability formulas for Navy enlisted personnel.
Research Branch Report 8-75, Naval Technical Training Command, 1975.
"""

from __future__ import annotations

import re
from decimal import Decimal
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


def grade(words: int, sentences: int, syllables: int) -> Decimal:
    """0.39 x words a sentence + 11.8 x syllables a word - 15.59: years of schooling in the United States."""
    a_sentence = Decimal(words) / Decimal(sentences)
    a_word = Decimal(syllables) / Decimal(words)
    return Decimal("0.39") * a_sentence + Decimal("11.8") * a_word - Decimal("15.59")


@cache
def syllables(word: str) -> int:
    """The syllables of an English word, counted by its letters; a number counts as one."""
    letters = re.sub(r"[^a-z]", "", re.sub(r"['’]s$", "", word.lower()))
    return max(1, len(_VOWELS.findall(_SILENT.sub("", letters))) + len(_APART.findall(letters)))
