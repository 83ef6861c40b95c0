"""A whole sheet: what counts of it, where its sentences stand, and what is said of one that is too hard."""

from __future__ import annotations

from dataclasses import replace
from decimal import Decimal

import pytest

from protodsl.handout import Options, compose_clinician
from protodsl.languages import Words
from protodsl.localise import localise
from protodsl.model.clinic import Limits
from protodsl.readability import Summary, sentences
from protodsl.sheet_reading import SheetReading, read_sheet, said_of_sheet
from tests.support import entry
from tests.unit.check.saying import CLINIC, PAIN, exercise, protocol
from tests.unit.handout.shown import shown

WORDY = "Continuously maintaining stability necessitates considerable concentration throughout."
RAISE = exercise("heel raise", "avoid if pain > 6", f"why {WORDY}")
TEXT = PAIN + RAISE + protocol("call if pain > 5", "give heel raise")


def reading(text: str = TEXT, language: str = "en", written_in: str = "") -> SheetReading:
    (found,) = entry(text).protocols
    read = read_sheet(found, CLINIC, Options(), Words(language, written_in)).value
    assert read is not None
    return read


def test_conditions_in_words_count() -> None:
    """What a condition says is nowhere in the prose, and its place is that of the condition."""
    line = next(line for line in reading().lines if "more than 6 out of 10" in line.text)
    assert TEXT[line.span.start : line.span.end] == "pain > 6"


def test_what_does_not_count() -> None:
    """References, versions, headings and the diary are not read as sentences."""
    said = " ".join(line.text for line in reading().lines)
    assert WORDY in said
    assert "common practice, no source" not in said and "1.0.0" not in said and "A calf" not in said


def test_sentences_are_named_with_their_places() -> None:
    hard = reading().hardest(1)[0]
    assert hard.text == WORDY
    assert TEXT[hard.line.span.start : hard.line.span.end] == WORDY
    assert [part.exercise for part in reading().parts if part.exercise] == ["heel raise"]


def test_a_sheet_past_its_limit() -> None:
    """W808, with the hardest sentences marked; within the limit nothing is said."""
    (found,) = entry(TEXT).protocols
    read = reading()
    level = read.levels[0]
    assert list(said_of_sheet(found, replace(CLINIC, limits=Limits(reading_grade=level.value)), read)) == []
    below = replace(CLINIC, limits=Limits(reading_grade=level.value - Decimal("0.01")))
    (said,) = said_of_sheet(found, below, read)
    assert said.code.id == "W808" and "the sheet of `calf` in `en` is of school grade" in said.message
    assert TEXT[said.secondary[0].span.start : said.secondary[0].span.end] == WORDY
    assert said.secondary[0].words.startswith("the hardest sentence: 7 words, the longest `considerable`")


def test_lines_without_words_are_left_out_and_no_limit_is_held_against_the_rest() -> None:
    read = reading(language="es", written_in="en")
    assert read.left_out and WORDY not in {line.text for line in read.lines}
    (found,) = entry(TEXT).protocols
    strict = replace(CLINIC, limits=Limits(reading_ease=Decimal(200)))
    assert list(said_of_sheet(found, strict, read)) == []


def test_long_sentences_are_counted() -> None:
    """The mean hides them: one long condition among many short lines."""
    summary = reading().summary(Limits(words_in_a_sentence=6))
    assert summary.most == 6 and 0 < summary.long < summary.sentences
    assert summary.long == sum(one.counts.words > 6 for one in reading().hardest(1000)) + _repeated(6)


def _repeated(most: int) -> int:
    """Long sentences that stand on the sheet more than once, which are named once."""
    said = [sentence.text for sentence in reading().hardest(1000) if sentence.counts.words > most]
    every = [text for line in reading().lines for _, text in sentences(line.text)]
    return sum(every.count(text) - 1 for text in said)


@pytest.mark.parametrize(
    ("summary", "expected"),
    [
        (
            Summary(reading().levels[0], 20, 1, 20, Decimal(8)),
            f"Reading level of the sheet: school grade {reading().levels[0].shown} (Flesch-Kincaid). "
            "1 of 20 sentences is longer than 20 words.",
        ),
        (
            Summary(None, 20, 3, 30, Decimal("8.25"), in_words=False),
            "Reading level of the sheet: 8.2 characters to a sentence. "
            "3 of 20 sentences are longer than 30 characters.",
        ),
        (Summary(None, 20, 0, None, Decimal("8.26")), "Reading level of the sheet: 8.3 words to a sentence."),
    ],
)
def test_the_line_on_the_clinicians_page(summary: Summary, expected: str) -> None:
    (found,) = entry(TEXT).protocols
    page = localise(compose_clinician(found, CLINIC, (), Options(reading=summary)), found.scope, CLINIC, "en").value
    assert page is not None and expected in page.masthead.lines
    without = localise(compose_clinician(found, CLINIC, (), Options()), found.scope, CLINIC, "en").value
    assert without is not None and "Reading level" not in shown(without)
