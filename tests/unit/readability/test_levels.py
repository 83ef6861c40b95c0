"""Which formula speaks for which language, and which limit counts."""

from __future__ import annotations

from decimal import Decimal

import pytest

from protodsl.check.words.limits import limits_for, too_hard
from protodsl.clinic_file import read_clinic
from protodsl.model.clinic import Limits, ReadingLimits
from protodsl.readability import NOTHING_COUNTED, Counts, Kind, Line, hardest, levels, longest_words, measures, usual
from protodsl.source import Source

HELP = '[emergency]\ntext = "Call"\nphone = "112"\n[contact]\ntext = "Ask"\nphone = "01632 960 142"\n'
# Two sentences of ten words, six of them long and of four syllables: hard by every formula.
HARD = Counts(20, 2, syllables=60, polysyllables=12, monosyllables=2, letters=140, long=12, characters=140)


@pytest.mark.parametrize(
    ("language", "first", "kind"),
    [
        ("en", "Flesch-Kincaid", Kind.GRADE),
        ("en-GB", "Flesch-Kincaid", Kind.GRADE),
        ("de", "Wiener Sachtextformel 1", Kind.GRADE),
        ("es-MX", "Szigriszt-Pazos", Kind.EASE),
        ("fr", "Kandel-Moles", Kind.EASE),
        ("it", "Gulpease", Kind.EASE),
        ("nl", "Flesch-Douma", Kind.EASE),
        ("pl", "LIX", Kind.LIX),
        ("uk", "LIX", Kind.LIX),
        ("sv", "LIX", Kind.LIX),
    ],
)
def test_the_first_formula_of_a_language(language: str, first: str, kind: Kind) -> None:
    assert (measures(language)[0].name, measures(language)[0].kind) == (first, kind)
    assert usual(language) is not None and usual(language)[0] is kind  # type: ignore[index]


@pytest.mark.parametrize("language", ["ar", "he", "fa", "hi", "ko", "zh-Hans", "ja", "th"])
def test_languages_of_which_only_the_length_is_said(language: str) -> None:
    """No formula was found for them that is published and confirmed, so none is made up."""
    assert measures(language) == () == levels(HARD, language)
    assert usual(language) is None and too_hard(HARD, Limits(lix=Decimal(1)), language) is None


def test_nothing_has_no_value() -> None:
    assert levels(NOTHING_COUNTED, "en") == ()
    assert too_hard(NOTHING_COUNTED, Limits(), "en") is None


@pytest.mark.parametrize("language", ["en", "de", "es", "fr", "it", "nl", "pl"])
def test_where_the_clinic_says_nothing_the_usual_limit_counts(language: str) -> None:
    found = too_hard(HARD, Limits(), language)
    assert found is not None and found.reason
    assert (found.level.measure.kind, found.limit) == usual(language)[:2]  # type: ignore[index]


def test_the_limit_of_the_clinic_takes_its_place() -> None:
    """Grades and LIX are at most, an ease at least; what a language has no formula for is passed over."""
    assert [one.limit for one in limits_for(Limits(reading_grade=Decimal(30)), "en")] == [30]
    assert too_hard(HARD, Limits(reading_grade=Decimal(30)), "en") is None
    (usual_one,) = limits_for(Limits(reading_grade=Decimal(30)), "es")
    assert usual_one.reason
    assert too_hard(HARD, Limits(reading_ease=Decimal("-200")), "es") is None
    found = too_hard(HARD, Limits(lix=Decimal(60)), "es")
    assert found is not None and (found.level.measure.name, found.reason) == ("LIX", "")


def test_a_value_that_is_the_limit_is_within_it() -> None:
    """LIX of it is 10 + 60."""
    assert too_hard(HARD, Limits(lix=Decimal(70)), "pl") is None
    assert too_hard(HARD, Limits(lix=Decimal("69.9")), "pl") is not None


def test_limits_of_one_language() -> None:
    languages = (("es", ReadingLimits(15, lix=Decimal(40))), ("zh", ReadingLimits(None, 30)))
    limits = Limits(lix=Decimal(50), languages=languages)
    assert limits.reading("es-MX") == ReadingLimits(15, None, None, None, Decimal(40))
    assert limits.reading("ES").lix == 40
    assert limits.reading("zh-Hans") == ReadingLimits(20, 30, None, None, Decimal(50))
    assert limits.reading("en") == ReadingLimits(20, None, None, None, Decimal(50))


def test_limits_in_the_clinic_file() -> None:
    of_all = "[limits]\nreading-ease = 60\nlix = 45\n"
    of_one = "[limits.zh-Hans]\ncharacters-in-a-sentence = 30\n[limits.de]\nreading-grade = 7\n"
    outcome = read_clinic(Source("clinic.toml", HELP + of_all + of_one))
    assert outcome.diagnostics == () and outcome.value is not None
    limits = outcome.value.limits
    assert (limits.reading_ease, limits.lix, limits.words_in_a_sentence) == (Decimal(60), Decimal(45), 20)
    assert limits.reading("zh-Hans").characters_in_a_sentence == 30
    assert limits.reading("de").reading_grade == 7 and limits.reading("de").lix == 45


@pytest.mark.parametrize(
    ("lines", "code", "line"),
    [
        ("[limits.german]\nlix = 4", "P903", 7),
        ("[limits.de]\nlixx = 4", "P903", 8),
        ("[limits.de]\nload-rise-percent = 4", "P903", 8),
        ("[limits.de]\nreading-ease = 0", "P904", 8),
        ("[limits.de]\nwords-in-a-sentence = 2.5", "P904", 8),
        ("[limits.lix]\nde = 4", "P904", 7),
        ('[limits]\nde = { lix = "4" }', "P904", 8),
        ("[limits]\nde = 4", "P903", 8),
    ],
)
def test_a_mistake_in_the_limits_of_a_language(lines: str, code: str, line: int) -> None:
    source = Source("clinic.toml", f"{HELP}{lines}\n")
    found = [(one.code.id, source.position(one.primary.span.start)[0]) for one in read_clinic(source).diagnostics]
    assert found == [(code, line)]


def test_the_hardest_sentences() -> None:
    """By the formula, in the order of hardness, each words once; a line of a word or two is a name."""
    lines = [
        Line("Sit down on a chair. Continuously maintaining stability necessitates concentration throughout."),
        Line("Dorsiflexion exercise"),
        Line("Sit down on a chair. Slowly raise one foot from the floor."),
    ]
    found = hardest(lines, "en", 5)
    assert [one.text.split()[0] for one in found] == ["Continuously", "Slowly", "Sit"]
    assert found[0].start == 21 and found[0].longest == ("concentration", "continuously", "necessitates")
    assert found[1].longest == ()


def test_longest_words_by_letters_where_no_syllables_are_counted() -> None:
    assert longest_words(["Bezpośrednio po zakończeniu unieść kolano."], "pl") == ("bezpośrednio", "zakończeniu")
    assert longest_words(["慢慢抬脚"], "zh-Hans") == ()
