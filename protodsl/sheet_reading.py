"""How hard a whole sheet is to read: every sentence on it, conditions in words among them, with its place."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from dataclasses import dataclass, fields, is_dataclass
from decimal import Decimal
from functools import cache
from typing import Any, NamedTuple

from protodsl import handout, localise
from protodsl.check.words.hard_to_read import past, sentences_at
from protodsl.check.words.limits import too_hard
from protodsl.diagnostics import words as say
from protodsl.diagnostics.diagnostic import Diagnostic
from protodsl.handout.blocks import (
    Chain,
    Chart,
    Diary,
    ExerciseCard,
    Footer,
    Item,
    Lines,
    Masthead,
    PainScale,
    Station,
    Table,
)
from protodsl.handout.phrase import InWords, Listed, Message, Phrase, Written
from protodsl.languages import Words
from protodsl.model.clinic import Clinic, Limits
from protodsl.model.protocol import Protocol
from protodsl.model.text import Prose, is_translated
from protodsl.outcome import Outcome
from protodsl.readability import (
    Counts,
    Hard,
    Level,
    Line,
    Summary,
    counted,
    hardest,
    is_spaced,
    levels,
    sentences,
    total,
    words,
)
from protodsl.render.markdown import plain
from protodsl.source import NOWHERE, Span

# The fields of a block that are read as sentences; heads, names, tables, the diary and the margins are not.
_SENTENCES: dict[type, tuple[str, ...]] = {
    Item: ("text",),
    ExerciseCard: ("when", "dose"),
    Station: ("when",),
    PainScale: ("intro",),
}
_PASSED_OVER = (Table, Diary, Lines, Footer, Masthead, Chain, Chart)
# Which version of which protocol it is stands there for the clinic.
_VERSION = "about.protocol"
# What there are no words for in the language of the page stands in another one.
_MISSING = "](missing:"

# The place of a line of prose, in its protocol or in its catalogue.
Find = Callable[[Prose], Span]


class Part(NamedTuple):
    """The lines of one exercise by its name, or ("") of all that stands outside of exercises."""

    exercise: str
    lines: tuple[Line, ...]


@dataclass(frozen=True, slots=True)
class SheetReading:
    """The sentences of a sheet in a language, their counts, the values by every formula of that language.

    `left_out` counts lines without words in the language.
    """

    language: str
    parts: tuple[Part, ...]
    counts: Counts
    levels: tuple[Level, ...]
    left_out: int = 0

    @property
    def lines(self) -> tuple[Line, ...]:
        """Every line of the sheet."""
        return tuple(line for part in self.parts for line in part.lines)

    def hardest(self, count: int = 3) -> tuple[Hard, ...]:
        """The sentences that are hardest to read."""
        return hardest(self.lines, self.language, count)

    def longest(self, limits: Limits, count: int = 3) -> tuple[Hard, ...]:
        """The longest of the sentences that are longer than the clinic wants."""
        most, spaced = _most(limits, self.language), is_spaced(self.language)
        if most is None:
            return ()
        sized = [
            (one.counts.words if spaced else one.counts.characters, one)
            for one in hardest(self.lines, self.language, None)
        ]
        return tuple(one for size, one in sorted(sized, key=lambda one: -one[0])[:count] if size > most)

    def summary(self, limits: Limits) -> Summary:
        """What the clinician's page says of it."""
        most, spaced = _most(limits, self.language), is_spaced(self.language)
        counts = [
            counted(sentence, self.language)
            for line in self.lines
            for _, sentence in sentences(line.text, self.language)
        ]
        sizes = [one.words if spaced else one.characters for one in counts]
        mean = Decimal(sum(sizes)) / max(1, len(sizes))
        long = sum(size > most for size in sizes) if most is not None else 0
        return Summary(self.levels[0] if self.levels else None, len(sizes), long, most, mean, spaced)


def _most(limits: Limits, language: str) -> int | None:
    """The limit of a sentence, in what sentences of the language are measured in."""
    said = limits.reading(language)
    return said.words_in_a_sentence if is_spaced(language) else said.characters_in_a_sentence


def read_sheet(
    protocol: Protocol, clinic: Clinic, options: handout.Options, given: Words, find: Find | None = None
) -> Outcome[SheetReading]:
    """The sheet of a protocol for anybody, in the language of its `given` words; None where the product has none."""
    composed = handout.compose_sheet(protocol, clinic, options)
    spoken = localise.speak(
        composed, protocol.scope, clinic, given.language, given.texts, given.written_in, given.spoken
    )
    if spoken.value is None:
        return Outcome(None, spoken.diagnostics)
    find = find or (lambda prose: prose.span)
    parts: dict[str, list[Line]] = {}
    left_out = 0
    for phrase, text, exercise in _sentences(composed.sections, spoken.value.page.sections):
        if _MISSING in text:
            left_out += 1
        elif text and not _is_reference(phrase) and not _says(phrase, _VERSION):
            parts.setdefault(exercise, []).append(Line(plain(text), _place(phrase, text, given, find)))
    counts = total((line.text for lines in parts.values() for line in lines), given.language)
    found = tuple(Part(exercise, tuple(lines)) for exercise, lines in parts.items())
    return Outcome(SheetReading(given.language, found, counts, levels(counts, given.language), left_out))


def said_of_sheet(protocol: Protocol, clinic: Clinic, reading: SheetReading) -> Iterator[Diagnostic]:
    """That a sheet is harder than the clinic wants, with its hardest sentences; nothing of one with lines left out."""
    found = None if reading.left_out else too_hard(reading.counts, clinic.limits, reading.language)
    if found is not None:
        hard = sentences_at(reading.hardest())
        yield say.sheet_hard_to_read(protocol.name, reading.language, past(found), protocol.span, hard)


def _sentences(composed: Any, spoken: Any, exercise: str = "") -> Iterator[tuple[Phrase, str, str]]:
    """What is read as sentences, as phrase and as words, with its exercise; both trees have one shape."""
    if isinstance(composed, tuple):
        for one, other in zip(composed, spoken, strict=True):
            yield from _sentences(one, other, exercise)
        return
    kind = type(composed)
    if kind in _PASSED_OVER or not kind.__module__.endswith("handout.blocks"):
        return
    inside = composed.id if isinstance(composed, ExerciseCard) else exercise
    for name in _SENTENCES.get(kind, ()):
        if getattr(composed, name) is not None:
            yield getattr(composed, name), getattr(spoken, name), inside
    for name in _fields(kind):  # type: ignore[arg-type]
        yield from _sentences(getattr(composed, name), getattr(spoken, name), inside)


@cache
def _fields(kind: type[Any]) -> tuple[str, ...]:
    return tuple(field.name for field in fields(kind)) if is_dataclass(kind) else ()


def _parts(phrase: Phrase) -> Iterator[Written | InWords]:
    """The authored prose and the conditions in a phrase."""
    if isinstance(phrase, (Written, InWords)):
        yield phrase
    elif isinstance(phrase, Message):
        for value in phrase.values.values():
            yield from _parts(value)
    elif isinstance(phrase, Listed):
        for one in phrase.of:
            yield from _parts(one)


def _is_reference(phrase: Phrase) -> bool:
    """Whether it is a reference to the literature, which stays in its own language and is no sentence."""
    parts = list(_parts(phrase))
    return bool(parts) and all(isinstance(one, Written) and not is_translated(one.prose.key) for one in parts)


def _says(phrase: Phrase, key: str) -> bool:
    """Whether a message of the product's own is among the sentences of a phrase."""
    if isinstance(phrase, Listed):
        return any(_says(one, key) for one in phrase.of)
    return isinstance(phrase, Message) and phrase.key == key


def _place(phrase: Phrase, text: str, given: Words, find: Find) -> Span:
    """The place of the longest authored words in it, else of its condition; NOWHERE for the product's own words."""
    said = set(words(text))
    ranked: list[tuple[int, Span]] = []
    for one in _parts(phrase):
        if isinstance(one, Written):
            own = given.texts.get((one.prose.key, one.prose.text), one.prose.text)
            ranked.append((len(said & set(words(own))), find(one.prose)))
        else:
            ranked.append((0, one.condition.span))
    return max((one for one in ranked if one[1].path), key=lambda one: one[0], default=(0, NOWHERE))[1]
