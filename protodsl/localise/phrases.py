"""One phrase of a handout as a string of inline Markdown."""

from __future__ import annotations

from protodsl.handout.phrase import (
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
from protodsl.localise.conditions import in_words
from protodsl.localise.voice import Voice
from protodsl.model.dose import Range

PHRASES = (Message, Written, InWords, DoseInWords, Measure, Number, Day, Weekday, Literal, Listed)


def phrase(voice: Voice, one: Phrase) -> str:
    """The words of a phrase; KeyError for a message key that no catalogue holds."""
    match one:
        case Message(key, values, count):
            filled = {name: phrase(voice, value) for name, value in values.items()}
            return voice.say(key, count, **filled)
        case Written(prose, side):
            return voice.about(side).prose(prose)
        case InWords(condition, streak, negated, side):
            return in_words(voice, condition, streak, negated, side)
        case DoseInWords(dose, group, side):
            return doses.short(voice, dose, group, side) if group else doses.sentences(voice, dose, side)
        case Measure(quantity):
            return voice.quantity(quantity)
        case Number(value, to):
            return numbers.range_of(voice.catalogue, Range(value, value if to is None else to))
        case Day(date):
            return numbers.day(voice.catalogue, date)
        case Weekday(number, short):
            return numbers.weekday(voice.catalogue, number, short)
        case Literal(text):
            return escape.literal(text)
        case Listed(of, by):
            return _listed(voice, [phrase(voice, part) for part in of], by)


def _listed(voice: Voice, parts: list[str], by: str) -> str:
    folded = {"sentences": doses.joined, "comma": doses.commas, "then": doses.then}
    return folded[by](voice, parts) if by in folded else numbers.listed(voice.catalogue, parts, by)
