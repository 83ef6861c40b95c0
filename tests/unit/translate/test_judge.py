"""What is unlike between a text and its translation is found, and what only looks unlike is let pass."""

from __future__ import annotations

from dataclasses import replace
from datetime import date
from decimal import Decimal

import pytest
from babel.numbers import format_decimal

from protodsl.localise.catalogue import languages
from protodsl.translate.entries import Entry
from protodsl.translate.judge import judge
from protodsl.translate.judge.numbers import numbers_in, readings
from protodsl.translate.judge.words import languages_with_sides, sides_in
from protodsl.translate.review import Review, digest

KEY = "exercise/heel raise/do"


def found(text: str, translation: str, language: str = "es", key: str = KEY) -> list[str]:
    return [one.code.id for one in judge(Entry(key, (text,), (translation,)), language, "en")]


@pytest.mark.parametrize(
    ("text", "translation", "language"),
    [
        ("Hold for 10 seconds.", "Mantenga 10 segundos.", "es"),
        ("Add 2.5 kg.", "Añada 2,5 kg.", "es"),
        ("Add 2.5 kg.", "Añada 2.5 kg.", "es-MX"),
        ("Add 2.5 kg.", "أضف ٢٫٥ كغم.", "ar"),
        ("Walk 1,500 steps.", "Gehen Sie 1.500 Schritte.", "de"),
        ("Walk 1,500 steps.", "Faites 1 500 pas.", "fr"),
        ("Walk 1,500 steps.", "Faites 1\u202f500 pas.", "fr"),
        ("Rise 1/2 of the way.", "Suba 1/2 del recorrido.", "es"),
        ("Rise ½ of the way.", "Suba 1/2 del recorrido.", "es"),
        ("Keep it at 3 out of 10, never over 5.", "Nunca más de 5; manténgalo en 3 de 10.", "es"),
        ("Rise for 3, hold for 3.", "Suba en 3, mantenga 3.", "es"),
        ("Count to three.", "Cuente hasta tres.", "es"),
        ("The first week", "第一周", "zh-Hans"),
    ],
)
def test_the_same_numbers_in_other_digits(text: str, translation: str, language: str) -> None:
    assert "G111" not in found(text, translation, language)


@pytest.mark.parametrize(
    ("text", "translation", "language"),
    [
        ("Hold for 10 seconds.", "Mantenga 20 segundos.", "es"),
        ("Hold for 10 seconds.", "Mantenga unos segundos.", "es"),
        ("Hold for some seconds.", "Mantenga 10 segundos.", "es"),
        ("Add 2.5 kg.", "Añada 25 kg.", "es"),
        ("Add 2.5 kg.", "أضف ٢٥ كغم.", "ar"),
        ("Rise for 3, hold for 3.", "Suba y mantenga 3.", "es"),
        ("3 to 5 times", "de 3 a 4 veces", "es"),
        ("Walk 1,500 steps.", "Gehen Sie 15.000 Schritte.", "de"),
        ("Rise 1/2 of the way.", "Suba 1/3 del recorrido.", "es"),
    ],
)
def test_another_number_is_an_error(text: str, translation: str, language: str) -> None:
    assert "G111" in found(text, translation, language)


WRITTEN_IN = ("en", "es", "de", "fr", "ar", "fa", "hi", "bn", "ru", "pl", "zh", "ja", "tr", "pt")


@pytest.mark.parametrize("language", WRITTEN_IN)
@pytest.mark.parametrize("value", ["0", "7", "2.5", "0.25", "12", "100", "999", "1000", "1500", "12345", "1234567.5"])
def test_a_number_is_read_as_cldr_writes_it(language: str, value: str) -> None:
    """Unicode CLDR's own spelling of a number, by Babel, is read as that number in every language and digit."""
    for system in ("default", "latn"):
        written = format_decimal(Decimal(value), format="#,##0.###", locale=language, numbering_system=system)
        parts = numbers_in(written)
        if language == "hi" and len(value) > 6:
            continue  # groups of two, which no sheet needs
        assert len(parts) == 1 and Decimal(value) in readings(parts[0]), (written, parts)


@pytest.mark.parametrize(
    ("text", "translation", "language", "codes"),
    [
        ("Lift 5 kg.", "Levante 5 kilos.", "es", []),
        ("Lift 5 kg.", "Levante 5 libras.", "es", ["G112"]),
        ("Lift 5 kg.", "Levante 5 lb.", "es", ["G112"]),
        ("Hold for 30 seconds.", "Mantenga 30 minutos.", "es", ["G112"]),
        ("Hold for 30 seconds.", "اثبت ٣٠ دقيقة.", "ar", ["G112"]),
        ("Hold for 30 seconds.", "اثبت ٣٠ ثانية.", "ar", []),
        ("Hold 30 s, walk 30 min.", "Mantenga 30 s, camine 30 min.", "es", []),
        ("A step of 10 cm", "Eine Stufe von 10 Zoll", "de", ["G112"]),
        ("Bend to 90 degrees.", "Doble hasta 90 grados.", "es", []),
        ("at 70% of it", "al 70 % de ello", "es", []),
    ],
)
def test_units(text: str, translation: str, language: str, codes: list[str]) -> None:
    assert [one for one in found(text, translation, language) if one in ("G111", "G112")] == codes


@pytest.mark.parametrize(
    ("text", "translation", "codes"),
    [
        ("Stand on the [affected side].", "Apóyese en el [affected side].", []),
        ("Stand on the [affected side].", "Apóyese en el [lado afectado].", ["G113"]),
        ("Stand on the [affected side].", "Apóyese.", ["G113"]),
        ("Stand.", "Apóyese en el [other side].", ["G113"]),
        ("Stand on the [affected side].", "Stehen Sie [on the affected side].", []),
        ("Stand on the [affected side].", "Stehen Sie [on the other side].", ["G113"]),
        ("For [weeks in brace] weeks", "Durante [weeks  in brace] semanas", []),
    ],
)
def test_placeholders(text: str, translation: str, codes: list[str]) -> None:
    assert found(text, translation) == codes


def test_a_value_with_a_capital_is_the_same_value() -> None:
    assert found("{Clause}, or so.", "O bien {clause}.", key="card.out.if") == []
    assert found("{clause}, or so.", "O bien {otra}.", key="card.out.if") == ["G113"]


def test_plural_forms_may_leave_out_what_the_last_has() -> None:
    """Arabic's dual says two with the word itself; a number that the text has not is wrong in every form."""
    forms = ("{count} x", "تكرار واحد", "تكراران", "{count} تكرارات", "{count} تكرارًا", "{count} تكرار")
    entry = Entry("unit.reps", ("{count} repetition", "{count} repetitions"), forms)
    assert list(judge(entry, "ar", "en")) == []
    wrong = replace(entry, target=(*forms[:2], "3 x", *forms[3:]))
    assert [one.code.id for one in judge(wrong, "ar", "en")] == ["G111"]
    lost = replace(entry, target=(*forms[:5], "تكرار"))
    assert [one.code.id for one in judge(lost, "ar", "en")] == ["G113"]


@pytest.mark.parametrize(
    ("text", "translation", "language", "codes"),
    [
        ("the left knee", "la rodilla izquierda", "es", []),
        ("the left knee", "la rodilla derecha", "es", ["G114"]),
        ("the left knee", "الركبة اليمنى", "ar", ["G114"]),
        ("the left knee", "الركبة اليسرى", "ar", []),
        ("the right hand", "左手", "zh-Hans", ["G114"]),
        ("the right hand", "右手", "zh-Hans", []),
        ("the left knee", "das rechte Knie", "de", ["G114"]),
        ("the left knee", "le genou droit", "fr", ["G114"]),
        ("the left knee", "la rodilla", "es", ["G115"]),
        ("the knee", "la rodilla izquierda", "es", ["G115"]),
        ("Stand up right away.", "Levántese enseguida.", "es", []),
        ("Keep your back straight.", "Tenez le dos droit.", "fr", []),
        ("left hand, right knee", "mano izquierda, rodilla derecha", "es", []),
        ("left hand, right knee", "rodilla derecha, mano izquierda", "es", ["G116"]),
    ],
)
def test_sides(text: str, translation: str, language: str, codes: list[str]) -> None:
    """Words for left and right are dictionary words: common practice, no source."""
    assert [one for one in found(text, translation, language) if one in ("G114", "G115", "G116")] == codes


def test_every_shipped_language_has_words_for_left_and_right() -> None:
    assert {one.split("-")[0] for one in languages()} <= set(languages_with_sides())
    for language in languages_with_sides():
        assert sides_in("", language) == ()


@pytest.mark.parametrize(
    ("text", "translation", "codes"),
    [
        ("Rise **slowly**.", "Suba **despacio**.", []),
        ("Rise **slowly**.", "Suba despacio.", ["G117"]),
        ("Rise *slowly*.", "Suba **despacio**.", ["G117"]),
        ("Rise **slowly**.", "Suba **despacio.", ["G117"]),
        ("Rise slowly.", "Suba *despacio*.", ["G117"]),
        ("3 * 10", "3 * 10", []),
    ],
)
def test_emphasis(text: str, translation: str, codes: list[str]) -> None:
    assert found(text, translation) == codes


@pytest.mark.parametrize(
    ("text", "codes"),
    [
        *[(text, ["G118"]) for text in ("Rise slowly now.", "Step-up")],
        *[(text, []) for text in ("Plank", "3 x 12", "112", "**5** / 10")],
    ],
)
def test_a_translation_that_is_the_text(text: str, codes: list[str]) -> None:
    assert found(text, text) == codes


def test_a_review_settles_a_warning_and_no_error() -> None:
    def reviewed(text: str, translation: str) -> list[str]:
        mark = Review(date(2026, 10, 5), "physiotherapist", digest(KEY, (text,), (translation,)))
        return [one.code.id for one in judge(Entry(KEY, (text,), (translation,), review=mark), "es", "en")]

    assert reviewed("the left knee", "la rodilla") == []
    assert reviewed("the left knee", "la rodilla derecha") == ["G114"]
    assert reviewed("Hold for 10 seconds.", "Mantenga 20 segundos.") == ["G111"]


def test_nothing_is_said_of_what_is_not_translated_or_outdated() -> None:
    assert list(judge(Entry(KEY, ("5 kg",), ()), "es", "en")) == []
    assert list(judge(Entry(KEY, ("5 kg",), ("6 lb",), fuzzy=True), "es", "en")) == []
