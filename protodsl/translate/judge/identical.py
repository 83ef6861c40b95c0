"""A translation that is the text itself: copied and forgotten, or the same word in both languages."""

from __future__ import annotations

import re
from collections.abc import Iterator

from protodsl.diagnostics import translation as say
from protodsl.diagnostics.diagnostic import Diagnostic
from protodsl.translate.judge.pair import Pair
from protodsl.translate.tags import is_same

_WORD = re.compile(r"[^\W\d_]{2,}")
_ROMAN = re.compile(r"[ivx]+", re.IGNORECASE)
# Two languages may well share a word; hardly a sentence.
_FEWEST_WORDS = 2


def identical(pair: Pair) -> Iterator[Diagnostic]:
    """Two words or more, alike to the letter; numbers, signs and single words may be."""
    if is_same(pair.own, pair.language):
        return
    same = [form for form, there in zip(pair.targets, pair.sources, strict=False) if form == there]
    if any(len([word for word in _WORD.findall(form) if not _ROMAN.fullmatch(word)]) >= _FEWEST_WORDS for form in same):
        yield say.identical(pair.entry.span, pair.entry.target[0])
