"""One phrase of a handout as a string of inline Markdown."""

from __future__ import annotations

from collections.abc import Callable
from typing import Any

from protodsl.handout.phrase import (
    AUTHOR,
    PROGRAM,
    Day,
    DoseInWords,
    InWords,
    Listed,
    Literal,
    Measure,
    Message,
    Number,
    Phrase,
    Weekday,
    Written,
)
from protodsl.localise import doses, escape, numbers
from protodsl.localise.catalogue import SOURCE_LANGUAGE
from protodsl.localise.conditions import in_words
from protodsl.localise.voice import Voice
from protodsl.model.dose import Range


def phrase(voice: Voice, one: Phrase) -> str:
    """The words of a phrase; KeyError for a message key that no catalogue holds."""
    return WRITERS[type(one)](voice, one)


def _within(voice: Voice, one: Phrase) -> str:
    """A phrase inside another, where many languages write a day of the week small."""
    if isinstance(one, Weekday):
        return numbers.weekday(voice.catalogue, one.number, one.short, alone=False)
    return phrase(voice, one)


def _message(voice: Voice, one: Message) -> str:
    filled = {name: _within(voice, value) for name, value in one.values.items()}
    text = voice.say(one.key, one.count, **filled)
    return escape.in_language(text, SOURCE_LANGUAGE, True) if one.key in voice.catalogue.missing else text


def _written(voice: Voice, one: Written) -> str:
    return voice.about(one.side).prose(one.prose)


def _condition(voice: Voice, one: InWords) -> str:
    return in_words(voice, one.condition, one.streak, one.negated, one.side)


def _dose(voice: Voice, one: DoseInWords) -> str:
    if one.group:
        return doses.short(voice, one.dose, one.group, one.side)
    return doses.sentences(voice, one.dose, one.side)


def _literal(voice: Voice, one: Literal) -> str:
    """Marked as of its language where the page is in another, so that it is read aloud in its own."""
    text = escape.literal(one.text)
    language = {AUTHOR: voice.written_in, PROGRAM: SOURCE_LANGUAGE}.get(one.words_of, "")
    return text if language in ("", voice.catalogue.language) else escape.in_language(text, language, False)


def _number(voice: Voice, one: Number) -> str:
    return numbers.range_of(voice.catalogue, Range(one.value, one.value if one.to is None else one.to))


def _listed(voice: Voice, one: Listed) -> str:
    parts = [_within(voice, part) for part in one.of]
    folded = {"sentences": doses.joined, "comma": doses.commas, "then": doses.then, "later": doses.later}
    if one.by in folded:
        return folded[one.by](voice, parts)
    return numbers.listed(voice.catalogue, parts, one.by)


# By type: a handout holds some hundred phrases, and a batch a thousand handouts.
WRITERS: dict[type, Callable[[Voice, Any], str]] = {
    Message: _message,
    Written: _written,
    InWords: _condition,
    DoseInWords: _dose,
    Measure: lambda voice, one: voice.quantity(one.quantity),
    Number: _number,
    Day: lambda voice, one: numbers.day(voice.catalogue, one.date, one.short),
    Weekday: lambda voice, one: numbers.weekday(voice.catalogue, one.number, one.short),
    Literal: _literal,
    Listed: _listed,
}
