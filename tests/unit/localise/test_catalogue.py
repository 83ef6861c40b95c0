"""The catalogue of words: keys, placeholders, plural forms, and what may not stand in it."""

from __future__ import annotations

import re
from decimal import Decimal
from io import BytesIO
from pathlib import Path

import pytest
from babel import Locale
from babel.messages.pofile import read_po

from protodsl import resources
from protodsl.localise.catalogue import Catalogue, Pattern, catalogue, direction, languages, raised, read
from tests.evidence.rows import table

_CODE = [
    *Path(str(resources.path("protodsl.handout"))).rglob("*.py"),
    *Path(str(resources.path("protodsl.localise"))).glob("*.py"),
    *Path(str(resources.path("protodsl.exchange"))).rglob("*.py"),
    *Path(str(resources.path("protodsl.figure"))).glob("*.py"),
]
# Any quoted words that could be a key, with what is put into them at run time as a wildcard.
_KEY = re.compile(r'f?"((?:[a-z][a-z-]*|\{[^}"]*\}(?=\.[a-z]))(?:\.(?:[a-z0-9-]+|\{[^}"]*\}))*)"')
_LANGUAGES = ("en", "es", "de", "fr", "pl", "ar", "uk", "zh", "cy", "he", "cs", "sl", "ga", "lt")


def _english() -> Catalogue:
    spoken = catalogue("en")
    assert spoken is not None
    return spoken


def test_every_message_is_used() -> None:
    """A key that no line of the program can come to is left over."""
    patterns = set()
    for file in _CODE:
        for key in _KEY.findall(file.read_text(encoding="utf-8")):
            patterns.add(re.sub(r"\\\{[^}]*\\\}", r"[a-z0-9-]+(?:\.[a-z0-9-]+)*", re.escape(key)))
    known = re.compile("|".join(f"(?:{pattern})(?:\\.sided)?" for pattern in sorted(patterns)))
    assert [key for key in _english().messages if not known.fullmatch(key)] == []


@pytest.mark.parametrize("language", languages())
def test_every_language_is_whole(language: str) -> None:
    """Every language has every message, with the same placeholders in every form."""
    spoken = catalogue(language)
    assert spoken is not None
    english = _english()
    assert set(spoken.messages) == set(english.messages)
    for key, forms in spoken.messages.items():
        wanted = {name for form in english.messages[key] for name in form.names}
        assert {name for form in forms for name in form.names} == wanted, key


@pytest.mark.parametrize("language", languages())
def test_no_key_stands_twice_and_every_translation_is_of_todays_english(language: str) -> None:
    """A translation made of other English than today's is outdated; a doubled key would hide one of its messages."""
    po = resources.data("protodsl.localise", f"messages/{language}.po")
    english = {
        entry.context: entry.id for entry in read_po(BytesIO(resources.data("protodsl.localise", "messages/en.po")))
    }
    contexts = re.findall(rb'^msgctxt "(.*)"$', po, re.M)
    assert len(contexts) == len(set(contexts))
    for entry in read_po(BytesIO(po)):
        if entry.context:
            assert entry.id == english[entry.context], entry.context


def test_no_clinical_number_stands_in_a_message() -> None:
    """Numbers of doses, pain and time come from the protocol; the ends of a scale are its definition."""
    scale = {"pain.intro", "dose.effort", "short.effort"}
    # Part 1 is the first part by its number, and marks of lists are numbers too.
    scale |= {"plan.parts.how", "condition.marks.3"}
    for key, forms in _english().messages.items():
        text = "".join(piece for form in forms for piece in form.pieces[::2])
        assert key in scale or not re.search(r"\d", text), key


def test_placeholders_and_full_stops() -> None:
    """`{name}` and `{Name}` take one value; a sentence that ends already is not ended again."""
    pattern = Pattern(("", "Text", "."))
    assert pattern.names == ("text",)
    assert pattern.fill({"text": "run or jump"}) == "Run or jump."
    assert pattern.fill({"text": "Do not run."}) == "Do not run."
    assert pattern.fill({"text": "do you *run?*"}) == "Do you *run?*"
    with pytest.raises(KeyError):
        pattern.fill({})


@pytest.mark.parametrize(
    ("text", "wanted"),
    [
        ("you", "You"),
        ("*you*", "*You*"),
        ("“you”", "“You”"),
        ("2 weeks", "2 weeks"),
        ("éa", "Éa"),
        ("", ""),
        ("كتفك", "كتفك"),
    ],
)
def test_the_first_letter_is_raised(text: str, wanted: str) -> None:
    """Marks and quotes before the first letter are passed over; a number stays."""
    assert raised(text) == wanted


@pytest.mark.parametrize("language", _LANGUAGES)
def test_plural_forms_are_chosen_as_cldr_says(language: str) -> None:
    """Each number takes its category of Unicode CLDR, the rows being those on which three libraries agree."""
    locale = Locale.parse(language)
    order = [
        name for name in ("zero", "one", "two", "few", "many", "other") if name in locale.plural_form.tags | {"other"}
    ]
    spoken = Catalogue(language, locale, {"key": tuple(Pattern((name,)) for name in order)})
    rows = [row for row in table("10_plurals").values() if row["lang"] == language]
    assert rows
    for row in rows:
        assert spoken.say("key", count=Decimal(row["n"])) == row["category"], row


def test_a_catalogue_in_another_language() -> None:
    """A translation is chosen by its key; the header names the locale, and an empty translation is none."""
    po = """
msgid ""
msgstr ""
"Language: pl\\n"
"Plural-Forms: nplurals=4; plural=0;\\n"

msgctxt "unit.reps"
msgid "{count} repetition"
msgid_plural "{count} repetitions"
msgstr[0] "{count} powtórzenie"
msgstr[1] "{count} powtórzenia"
msgstr[2] "{count} powtórzeń"
msgstr[3] "{count} powtórzenia"

msgctxt "card.feel"
msgid "You should feel it here"
msgstr ""
"""
    polish = read("pl", po.encode())
    said = [polish.say("unit.reps", {"count": digits}, Decimal(digits)) for digits in ("1", "3", "5", "22", "1.5")]
    assert said == ["1 powtórzenie", "3 powtórzenia", "5 powtórzeń", "22 powtórzenia", "1.5 powtórzenia"]
    assert not polish.has("card.feel")


def test_a_tag_finds_its_language() -> None:
    """`en-GB` and `en` are English; a language without a catalogue is none."""
    assert catalogue("en-GB") is catalogue("en") or catalogue("en-GB") == catalogue("en")
    assert catalogue("tlh") is None
    assert direction("en") == "ltr"
