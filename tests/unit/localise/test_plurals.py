"""Every shipped catalogue says a count in the form that Unicode CLDR has for it."""

from __future__ import annotations

from decimal import Decimal

import pytest

from protodsl.localise.catalogue import Catalogue, Pattern, catalogue, languages
from protodsl.localise.numbers import number
from protodsl.translate.plurals import categories
from protodsl.translate.product import product_texts
from tests.evidence.rows import table

# CLDR's category of a number, on which three libraries agree (10_plurals, status ran-here); fractions too.
ROWS = [row for row in table("10_plurals").values() if row["status"] == "ran-here"]
PLURALS = tuple(text.key for text in product_texts() if len(text.forms) > 1)


def _shipped(language: str) -> Catalogue:
    found = catalogue(language)
    assert found is not None
    return found


@pytest.mark.parametrize("language", languages())
def test_the_form_said_is_that_of_the_category(language: str) -> None:
    """Each message with a plural, for every number there is evidence of: forms stand in the order of the categories."""
    spoken = _shipped(language)
    names = categories(spoken.locale)
    rows = [row for row in ROWS if row["lang"] == language.split("-")[0]]
    assert len(rows) > 20 and {row["category"] for row in rows} <= set(names)
    said = 0
    for key in PLURALS:
        forms = spoken.messages[key]
        if key in spoken.missing or language == "en":
            continue
        assert len(forms) == len(names), key
        # A form that says which it is, in the place of the words.
        marked = Catalogue(language, spoken.locale, {key: tuple(Pattern((name,)) for name in names)})
        for row in rows:
            assert marked.say(key, {}, Decimal(row["n"])) == row["category"], (key, row)
            said += 1
    assert said > 1000 or language == "en"


# What a speaker says, from grammars: Polish and Ukrainian take a singular, a plural of 2 to 4 and one of 5 and more, a
# fraction takes the genitive singular; Arabic has a plural of 3 to 10, and the singular from 11 on and after hundreds.
# Common knowledge of the languages, no source; the words are the catalogues' own.
SAID = {
    "pl": {"1": "powtórzenie", "2": "powtórzenia", "5": "powtórzeń", "22": "powtórzenia", "1.5": "powtórzenia"},
    "uk": {"1": "повторення", "2": "повторення", "5": "повторень", "22": "повторення", "11": "повторень"},
    "es": {"1": "repetición", "2": "repeticiones", "1.5": "repeticiones"},
    "de": {"1": "Wiederholung", "2": "Wiederholungen"},
    "fr": {"1": "répétition", "2": "répétitions", "1.5": "répétition"},
    "zh-Hans": {"1": "次", "2": "次"},
    "ar": {"3": "تكرارات", "11": "تكرار", "100": "تكرار"},
}


@pytest.mark.parametrize("language", SAID)
def test_repetitions_as_they_are_said(language: str) -> None:
    spoken = _shipped(language)
    for count, word in SAID[language].items():
        value = Decimal(count)
        text = spoken.say("unit.reps", {"count": number(spoken, value)}, value)
        assert word in text.split() or word in text, (count, text)
        assert "{" not in text


@pytest.mark.parametrize("language", [one for one in languages() if one != "en"])
def test_a_form_without_the_number_is_for_one_number_alone(language: str) -> None:
    """`تكراران` says two by itself; where a form serves many numbers (21 in Polish's `few`), it must show which."""
    spoken = _shipped(language)
    names = categories(spoken.locale)
    counts = {name: {row["n"] for row in _whole(language) if row["category"] == name} for name in names}
    for key in PLURALS:
        forms = spoken.messages[key]
        if key in spoken.missing or "count" not in forms[-1].names:
            continue
        for name, form in zip(names, forms, strict=True):
            if len(counts[name]) > 1:
                assert "count" in form.names, (key, name, form)


def _whole(language: str) -> list[dict[str, str]]:
    """The whole numbers from 1 on that there is evidence of: a sheet counts none of nothing."""
    return [row for row in ROWS if row["lang"] == language.split("-")[0] and row["n"].isdigit() and row["n"] != "0"]
