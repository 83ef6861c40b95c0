"""A text as sentences.

Where sentences end follows Unicode Standard Annex 29, Text Segmentation, section 5.1: a full stop ends none inside a
number (SB6) and none before a small letter (SB8); `!`, `?`, `؟`, `。` and their like end one in any case (SB8a to
SB11). A blank has to follow but after the full-width marks. Abbreviations and numbers of lists and of order are ours.
"""

from __future__ import annotations

import re

from protodsl.readability.abbreviations import ABBREVIATIONS, BEFORE_AN_ORDINAL, ORDINAL_LANGUAGES
from protodsl.readability.measures import primary

_CLOSING = r"[\"'”’»›)\]」』）】*]*"
_END = re.compile(rf"(?:(?<=[.!?…؟۔।։])|(?<=[.!?…؟۔।։][\"'”’»›)\]*])){_CLOSING}\s+|[。！？．｡](?:{_CLOSING})\s*|\n+")
_MARK = re.compile(rf"([.!?…؟۔।։。！？．｡]){_CLOSING}\s*$")
_LAST = re.compile(r"(\S+)\s*$")
_NUMBER = re.compile(r"[(\"'“„«*]*\d{1,3}\.")
_FIRST = re.compile(r"[\w]")


def sentences(text: str, language: str = "en") -> tuple[tuple[int, str], ...]:
    """The sentences of a text, each with its offset; what ends without a mark is a sentence all the same."""
    found = []
    start = 0
    for end in _END.finditer(text):
        upto = end.start() if text[end.start() : end.end()].isspace() else end.start() + len(end.group().rstrip())
        if upto > start and _ends(text, start, upto, end.end(), primary(language)):
            found.append((start, text[start:upto]))
            start = end.end()
    rest = text[start:].rstrip()
    kept = [(at, sentence) for at, sentence in found if _FIRST.search(sentence)]
    return (*kept, (start, rest)) if _FIRST.search(rest) else tuple(kept)


def _ends(text: str, start: int, upto: int, after: int, language: str) -> bool:
    """Whether a sentence ends where a mark and a blank stand."""
    mark = _MARK.search(text, start, upto)
    if mark is None or mark[1] not in ".…":
        return True
    following = _FIRST.search(text, after)
    is_small = following is not None and following.group().islower()
    if is_small:
        return False
    last = _LAST.search(text, start, upto)
    word = last[1] if last and mark[1] == "." else ""
    if _NUMBER.fullmatch(word):
        return not _counts(text[start:upto], word, language)
    return not _is_abbreviation(word, language)


def _counts(sentence: str, word: str, language: str) -> bool:
    """Whether a number with a full stop is that of a list, or of order (German: `die 2. Woche`)."""
    before = sentence[: -len(word)].split()
    if not before:
        return True
    return language in ORDINAL_LANGUAGES and before[-1].lower() in BEFORE_AN_ORDINAL.get(language, ())


def _is_abbreviation(word: str, language: str) -> bool:
    bare = word.lstrip("(\"'“„«*").rstrip(")\"'”’»*").lower()
    # An initial, as in `z. B.` and `p. ej.`; a Latin `I.` or `a.` at the end of a sentence is rare.
    is_initial = len(bare) == 2 and bare[0].isalpha() and bare[1] == "."
    return is_initial or bare in ABBREVIATIONS.get(language, ())
