"""What a patient reads is no harder than the clinic wants."""

from __future__ import annotations

from collections.abc import Iterator
from decimal import ROUND_HALF_EVEN, Decimal
from functools import lru_cache
from itertools import groupby

from protodsl.check.context import Context
from protodsl.check.texts import Text
from protodsl.check.words.readability import grade, syllables
from protodsl.check.words.sentences import sentences, words
from protodsl.diagnostics import words as say
from protodsl.diagnostics.diagnostic import Diagnostic
from protodsl.model.protocol import Entry
from protodsl.source import Span

# Below this the grade says more of one word than of the text. Its authors measured passages of 100 words and more;
# an exercise has about 50 to 100.
_FEWEST_WORDS = 40
_NAMED_WORDS = 3


def hard_to_read(entry: Entry, context: Context) -> Iterator[Diagnostic]:
    """The prose of an exercise or a protocol, taken together, above `reading-grade`; English only."""
    most = context.clinic.limits.reading_grade
    if most is None or not context.clinic.languages[0].startswith("en"):
        return
    for _, group in groupby(context.texts, key=lambda text: id(text.owner)):
        texts = list(group)
        counts = [_counted(text.prose.text) for text in texts]
        total = tuple(sum(column) for column in zip(*counts, strict=True))
        if total[0] < _FEWEST_WORDS:
            continue
        found = grade(*total)
        if found > most:
            owner = texts[0].owner
            shown = found.quantize(Decimal("0.1"), ROUND_HALF_EVEN)
            yield say.hard_to_read(owner.name, shown, most, _hardest_words(texts), owner.span, _hardest_line(texts))


@lru_cache(maxsize=65536)
def _counted(line: str) -> tuple[int, int, int]:
    """Words, sentences and syllables of a line; what has no full stop is a sentence all the same.

    Kept, because the lines of a library are met again with every protocol that uses it.
    """
    found = words(line)
    return len(found), len(sentences(line)), sum(map(syllables, found))


def _hardest_words(texts: list[Text]) -> list[str]:
    found = dict.fromkeys(word.lower() for text in texts for word in words(text.prose.text))
    long = sorted(found, key=lambda word: (-syllables(word), word))
    return [word for word in long[:_NAMED_WORDS] if syllables(word) > 2]


def _hardest_line(texts: list[Text]) -> Span | None:
    graded = [(grade(*counts), text.prose.span) for text in texts if (counts := _counted(text.prose.text))[0] > 0]
    return max(graded, key=lambda one: one[0])[1] if graded else None
