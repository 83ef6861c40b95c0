"""How hard a text is to read: the published formula, and syllables against a published dictionary."""

from __future__ import annotations

from decimal import Decimal

import pytest

from protodsl.check.words.readability import grade, syllables
from protodsl.check.words.sentences import sentences, words
from tests.evidence.rows import oracle, table

WORKED = [id for id, row in table("08_readability_worked").items() if row["metric"] == "FK"]


@pytest.mark.parametrize("id", WORKED)
def test_grade_from_given_counts(id: str) -> None:
    """Kincaid JP et al. Research Branch Report 8-75, 1975; counts given, so that only the formula is tested."""
    row = table("08_readability_worked")[id]
    found = grade(int(row["words"]), int(row["sentences"]), int(row["syllables"]))
    assert abs(found - Decimal(oracle("08_readability_worked", id))) < Decimal("0.0001")


def test_counts_of_a_text() -> None:
    """A text of the project's own, counted by hand, its syllables by the CMU Pronouncing Dictionary."""
    text = table("08_sample_texts")["en1"]["text"]
    counts = table("08_readability_worked")["en1_FK"]
    found = words(text)
    assert len(found) == int(counts["words"])
    assert len(sentences(text)) == int(counts["sentences"])
    assert sum(map(syllables, found)) == int(counts["syllables"])


def test_syllables_of_the_words_that_protocols_use() -> None:
    """CMU Pronouncing Dictionary 0.7b: of the words it has, 98 in 100 are counted alike, and the sum within 1 %."""
    known = {word: [int(count) for count in row["value"].split()] for word, row in table("cmudict_syllables").items()}
    wrong = {word for word, counts in known.items() if syllables(word) not in counts}
    assert len(wrong) * 50 <= len(known), sorted(wrong)
    total = sum(counts[0] for counts in known.values())
    assert abs(sum(map(syllables, known)) - total) * 100 <= total


@pytest.mark.parametrize(
    ("text", "expected"),
    [
        ("Lift 2.5 kg. Then rest.", ["Lift 2.5 kg.", "Then rest."]),
        ("Rise slowly! Is it sore? Stop.", ["Rise slowly!", "Is it sore?", "Stop."]),
        ("No full stop at the end", ["No full stop at the end"]),
        ("Up to **3 out of 10.** Then stop.", ["Up to **3 out of 10.", "Then stop."]),
    ],
)
def test_where_sentences_end(text: str, expected: list[str]) -> None:
    """A full stop ends a sentence where a blank follows; not inside a number."""
    assert [sentence for _, sentence in sentences(text)] == expected
