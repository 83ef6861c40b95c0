"""Lines of a text counted and added up, and the sentences of them that are hardest."""

from __future__ import annotations

from collections.abc import Iterable
from decimal import Decimal
from functools import lru_cache
from typing import NamedTuple

from protodsl.readability.counts import NOTHING_COUNTED, Counts
from protodsl.readability.measures import Kind, is_spaced, measures
from protodsl.readability.sentences import sentences
from protodsl.readability.syllables import has_syllables, syllables
from protodsl.readability.words import characters, letters, words
from protodsl.source import NOWHERE, Span

_LONG, _MANY = 7, 3
# A formula says of one or two words only that they are long; such a line is hard to name, not hard to read.
_FEWEST_TO_NAME = 5
_NAMED_WORDS = 3


class Line(NamedTuple):
    """A line that a patient reads, and its place."""

    text: str
    span: Span = NOWHERE


class Hard(NamedTuple):
    """A sentence with its place in its line, its counts, its value by the first formula, its longest words."""

    text: str
    line: Line
    start: int
    counts: Counts
    value: Decimal | None
    longest: tuple[str, ...]


@lru_cache(maxsize=65536)
def counted(text: str, language: str) -> Counts:
    """The counts of a text; kept, because the lines of a library are met again with every protocol that uses it."""
    found = [_of_sentence(sentence, language) for _, sentence in sentences(text, language)]
    # Most lines are one sentence.
    return found[0] if len(found) == 1 else sum(found, NOTHING_COUNTED)


def total(texts: Iterable[str], language: str) -> Counts:
    """The counts of all texts together; each begins a sentence."""
    return sum((counted(text, language) for text in texts), NOTHING_COUNTED)


def hardest(lines: Iterable[Line], language: str, count: int | None = 3) -> tuple[Hard, ...]:
    """The sentences that are hardest by the language's first formula, or longest where it has none; each words once.

    None counts all of them.
    """
    found: dict[str, Hard] = {}
    for line in lines:
        for start, text in sentences(line.text, language):
            if text not in found:
                found[text] = _hard(text, line, start, language)
    named = [one for one in found.values() if one.counts.words >= _FEWEST_TO_NAME or not is_spaced(language)]
    return tuple(sorted(named, key=lambda one: -_hardness(one, language))[:count])


def longest_words(texts: Iterable[str], language: str, count: int = _NAMED_WORDS) -> tuple[str, ...]:
    """The longest words, by syllables where these are counted, else by letters; none that is short."""
    if not is_spaced(language):
        return ()
    found = dict.fromkeys(word.lower() for text in texts for word in words(text))
    if has_syllables(language):
        ranked = sorted(found, key=lambda word: (-syllables(word, language), word))
        return tuple(word for word in ranked[:count] if syllables(word, language) >= _MANY)
    ranked = sorted(found, key=lambda word: (-letters(word), word))
    return tuple(word for word in ranked[:count] if letters(word) >= _LONG)


def _of_sentence(text: str, language: str) -> Counts:
    if not is_spaced(language):
        return Counts(sentences=1, characters=characters(text))
    found = words(text)
    spoken = many = single = written = long = digits = 0
    # One loop of plain sums: a check counts every line of every library.
    for word in found:
        said, signs, numbers = _measured(word, language)
        spoken += said
        many += said >= _MANY
        single += said == 1
        written += signs
        long += signs >= _LONG
        digits += numbers
    return Counts(len(found), 1, spoken, many, single, written, long, written + digits)


@lru_cache(maxsize=65536)
def _measured(word: str, language: str) -> tuple[int, int, int]:
    """The syllables, letters and digits of a word; texts say the same words again and again."""
    written = letters(word)
    return syllables(word, language), written, characters(word) - written


def _hard(text: str, line: Line, start: int, language: str) -> Hard:
    counts = _of_sentence(text, language)
    known = measures(language)
    value = known[0].formula(counts) if known and counts.words else None
    return Hard(text, line, start, counts, value, longest_words((text,), language))


def _hardness(one: Hard, language: str) -> Decimal:
    if one.value is None:
        return Decimal(one.counts.words or one.counts.characters)
    return -one.value if measures(language)[0].kind is Kind.EASE else one.value
