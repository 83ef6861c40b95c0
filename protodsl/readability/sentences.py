"""A text as sentences.

Where sentences end follows Unicode Standard Annex 29, Text Segmentation, section 5.1: a full stop ends none inside a
number (SB6) and none before a small letter (SB8); `!`, `?`, `؟`, `。` and their like end one in any case (SB8a to
SB11). A blank has to follow but after the full-width marks. Abbreviations and numbers of lists and of order are ours.
"""

from __future__ import annotations

import re

from protodsl.readability.abbreviations import ABBREVIATIONS, BEFORE_AN_ORDINAL, ORDINAL_LANGUAGES
from protodsl.readability.measures import primary

_CLOSERS = "\"'”’»›)]」』）】*"
_CLOSING = rf"[{re.escape(_CLOSERS)}]*"
_END = re.compile(rf"(?:(?<=[.!?…؟۔।։])|(?<=[.!?…؟۔।։][\"'”’»›)\]*])){_CLOSING}\s+|[。！？．｡](?:{_CLOSING})\s*|\n+")
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
    sentence = text[start:upto].rstrip()
    mark = sentence.rstrip(_CLOSERS)[-1:]
    if mark not in (".", "…"):
        return True
    following = _FIRST.search(text, after)
    is_small = following is not None and following.group().islower()
    if is_small:
        return False
    word = sentence.split()[-1] if mark == "." else ""
    if _NUMBER.fullmatch(word):
        return not _counts(sentence, word, language)
    return not _is_abbreviation(sentence, word, language)


def _counts(sentence: str, word: str, language: str) -> bool:
    """Whether a number with a full stop is that of a list, or of order (German: `die 2. Woche`)."""
    before = sentence[: -len(word)].split()
    if not before:
        return True
    return language in ORDINAL_LANGUAGES and before[-1].lower() in BEFORE_AN_ORDINAL.get(language, ())


def _is_abbreviation(sentence: str, word: str, language: str) -> bool:
    bare = word.lstrip("(\"'“„«*").rstrip(")\"'”’»*").lower()
    if bare not in ABBREVIATIONS.get(language, ()):
        return False
    # `5 m.` and `5 min.` are amounts and end a sentence, `z. B.` and `min. 5` do not.
    is_unit = len(bare) == 2 or bare == "min."
    return not (is_unit and sentence[: -len(word)].rstrip()[-1:].isdigit())
