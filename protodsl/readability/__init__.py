"""How hard a text is to read: words, sentences and syllables counted, and the published formulas of each language."""

from protodsl.readability.counts import NOTHING_COUNTED, Counts
from protodsl.readability.levels import Level, level_of, levels
from protodsl.readability.measures import Kind, Measure, is_spaced, measures
from protodsl.readability.passages import Hard, Line, counted, hardest, longest_words, total
from protodsl.readability.sentences import sentences
from protodsl.readability.summary import Summary
from protodsl.readability.syllables import has_syllables, syllables
from protodsl.readability.usual import Usual, usual
from protodsl.readability.words import words

__all__ = [
    "NOTHING_COUNTED",
    "Counts",
    "Hard",
    "Kind",
    "Level",
    "Line",
    "Measure",
    "Summary",
    "Usual",
    "counted",
    "hardest",
    "has_syllables",
    "is_spaced",
    "level_of",
    "levels",
    "longest_words",
    "measures",
    "sentences",
    "syllables",
    "total",
    "usual",
    "words",
]
