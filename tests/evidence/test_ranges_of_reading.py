"""How hard a text is to read: published formulas from given counts, and the counts of texts counted by hand."""

from __future__ import annotations

import math
import re
from collections.abc import Callable
from dataclasses import replace
from decimal import Decimal

import pytest

from protodsl.model.clinic import Limits
from protodsl.readability import Counts, counted, formulas, level_of, levels, measures, syllables, usual, words
from protodsl.readability.measures import Kind
from tests.evidence.rows import oracle, table

Formula = Callable[[Counts], Decimal]

# The metric of a worked row, by language where one name stands for the formula of each.
METRICS: dict[str, Formula | dict[str, Formula]] = {
    "ASL": lambda of: of.words_a_sentence,
    "ASW": lambda of: of.syllables_a_word,
    "LIX": formulas.lix,
    "SMOG": formulas.smog,
    "SMOG_short": formulas.smog_short,
    "FK": formulas.flesch_kincaid,
    "FRE": {"en": formulas.flesch, "es": formulas.fernandez_huerta, "de": formulas.amstad, "it": formulas.flesch_vacca},
    "SP": formulas.szigriszt_pazos,
    "GP": formulas.gutierrez_de_polini,
    "W1": formulas.wiener_1,
    "W2": formulas.wiener_2,
    "W3": formulas.wiener_3,
    "W4": formulas.wiener_4,
    "GULPEASE": formulas.gulpease,
}
# The formula of Gunning (1952) has no confirmed row, only the output of a library, and is not in the product.
NOT_IN_THE_PRODUCT = {"FOG"}
PUBLISHED: dict[str, Formula] = {
    "fre": formulas.flesch,
    "fk": formulas.flesch_kincaid,
    "smog": formulas.smog,
    "lix": formulas.lix,
    "amstad": formulas.amstad,
    "wstf1": formulas.wiener_1,
    "wstf2": formulas.wiener_2,
    "wstf3": formulas.wiener_3,
    "wstf4": formulas.wiener_4,
    "fh": formulas.fernandez_huerta,
    "sp": formulas.szigriszt_pazos,
    "gp": formulas.gutierrez_de_polini,
    "km": formulas.kandel_moles,
    "fv": formulas.flesch_vacca,
    "gul": formulas.gulpease,
    "douma": formulas.douma,
}
WORKED = [id for id, row in table("08_readability_worked").items() if row["metric"] not in NOT_IN_THE_PRODUCT]
# The texts that were counted by hand (English: by the CMU Pronouncing Dictionary).
COUNTED = ("en1", "es1", "de1", "it1")


def counts(row: dict[str, str]) -> Counts:
    """The counts that a row gives."""
    names = ("words", "sentences", "syllables", "polysyllables", "monosyllables", "letters", "long7")
    return Counts(*(int(row[name]) for name in names))


@pytest.mark.parametrize("id", WORKED)
def test_worked_values(id: str) -> None:
    """Every value worked out from given counts, so that only the formula is tested; four decimals are given."""
    row = table("08_readability_worked")[id]
    formula = METRICS[row["metric"]]
    formula = formula[row["lang"]] if isinstance(formula, dict) else formula
    assert abs(formula(counts(row)) - Decimal(oracle("08_readability_worked", id))) <= Decimal("0.00005")


def test_every_worked_row_is_used() -> None:
    """42 of 47: the five that are left are of the one formula that is not in the product."""
    left = [row for id, row in table("08_readability_worked").items() if id not in WORKED]
    assert {row["metric"] for row in left} == NOT_IN_THE_PRODUCT
    assert (len(WORKED), len(left)) == (42, 5)


@pytest.mark.parametrize("id", PUBLISHED)
@pytest.mark.parametrize("text", ("en_syn_ASL", "es1_ASL", "de1_ASL", "it1_ASL"))
def test_published_constants(id: str, text: str) -> None:
    """Each formula as it was read, term by term, on counts of four texts; its publication stands in its row."""
    of = counts(table("08_readability_worked")[text])
    names = {
        "ASL": of.words / of.sentences,
        "SL": of.words / of.sentences,
        "ASW": of.syllables / of.words,
        "MS": 100 * of.polysyllables / of.words,
        "IW": 100 * of.long / of.words,
        "ES": 100 * of.monosyllables / of.words,
        "poly": of.polysyllables,
        "sent": of.sentences,
        "sentences": of.sentences,
        "long": of.long,
        "letters": of.letters,
        "words": of.words,
        "sqrt": math.sqrt,
    }
    expected = eval(oracle("08_readability_formulas", id), {"__builtins__": {}}, names)
    assert float(PUBLISHED[id](of)) == pytest.approx(expected, abs=1e-9)


def test_no_formula_without_a_published_one() -> None:
    """What is shipped for any language has a confirmed row."""
    confirmed = {PUBLISHED[id] for id in PUBLISHED if oracle("08_readability_formulas", id)} | {formulas.smog_short}
    tags = ("en", "de", "es", "fr", "it", "nl", "pl", "uk", "ar", "zh")
    shipped = {one.formula for tag in tags for one in measures(tag)}
    assert shipped == confirmed


@pytest.mark.parametrize("id", COUNTED)
def test_counts_of_a_text(id: str) -> None:
    """Texts of the project's own, counted by hand: words, sentences, letters and syllables come out alike."""
    row = table("08_sample_texts")[id]
    assert counted(row["text"], row["lang"]) == _with_characters(counts(table("08_readability_worked")[f"{id}_ASL"]))


@pytest.mark.parametrize("id", (*COUNTED, "fr1"))
def test_lix_as_another_library_has_it(id: str) -> None:
    """LIX needs no syllables, so whole texts can be held against textstat 0.7.13 (its output, not a publication)."""
    row = table("08_sample_texts")[id]
    outputs = [one for one in table("08_library_behaviour").values() if one["text"] == id]
    (said,) = [one for one in outputs if "textstat 0.7.13" in one["library"]]
    match = re.search(r"LIX ([\d.]+)", said["value"])
    level = level_of(counted(row["text"], row["lang"]), row["lang"], Kind.LIX)
    assert match and level and abs(level.value - Decimal(match[1])) <= Decimal("0.00005")


def test_syllables_of_the_words_that_protocols_use() -> None:
    """CMU Pronouncing Dictionary 0.7b: of the words it has, 98 in 100 are counted alike, and the sum within 1 %."""
    known = {word: [int(count) for count in row["value"].split()] for word, row in table("cmudict_syllables").items()}
    wrong = {word for word, found in known.items() if syllables(word, "en") not in found}
    assert len(wrong) * 50 <= len(known), sorted(wrong)
    total = sum(found[0] for found in known.values())
    assert abs(sum(syllables(word, "en") for word in known) - total) * 100 <= total


@pytest.mark.parametrize("id", COUNTED)
def test_why_syllables_are_counted_as_they_are(id: str) -> None:
    """Hyphenation as it comes leaves out 1 to 3 syllables of each text, up to 6 points of reading ease."""
    pyphen = pytest.importorskip("pyphen")
    row = table("08_sample_texts")[id]
    dictionary = pyphen.Pyphen(lang={"en": "en_US", "es": "es", "de": "de_DE", "it": "it_IT"}[row["lang"]])
    found = sum(len(dictionary.positions(word)) + 1 for word in words(row["text"]))
    given = int(table("08_readability_worked")[f"{id}_ASL"]["syllables"])
    assert found < given == counted(row["text"], row["lang"]).syllables


def test_the_usual_limits_are_those_recommended() -> None:
    """NIH, grades 6 to 8, and NHMRC, grade 8; Lucisano and Piemontese 1988 for the Italian 60."""
    english, italian = usual("en"), usual("it")
    assert english and italian
    assert oracle("08_readability_formulas", "t_nih").endswith(f"-{english.limit}")
    assert oracle("08_readability_formulas", "t_nhmrc") == f"grade {english.limit}"
    assert oracle("08_readability_formulas", "gul")
    assert f"<{italian.limit} lower secondary" in table("08_readability_formulas")["gul"]["note"]


def test_a_sentence_of_the_recommended_length() -> None:
    """ACSQH as read in 10.1186/s13063-022-06712-z, table 4: under 20 words; the default allows 20."""
    assert oracle("08_readability_formulas", "t_acsqh").startswith(f"<{Limits().words_in_a_sentence} words/sentence")


def test_a_short_text_has_no_smog() -> None:
    """McLaughlin 1969 measures thirty sentences."""
    row = counts(table("08_readability_worked")["en1_ASL"])
    assert "SMOG" not in {one.measure.name for one in levels(row, "en")}


def _with_characters(of: Counts) -> Counts:
    """Where a text has no digits, its characters are its letters."""
    return replace(of, characters=of.letters)
