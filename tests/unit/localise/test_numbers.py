"""Numbers, quantities, dates and lists in words, in any language, never rounded and never with a unit's bare name."""

from __future__ import annotations

from datetime import date
from decimal import Decimal

import pytest
from babel import Locale

from protodsl.localise import numbers
from protodsl.localise.catalogue import Catalogue, Pattern, catalogue
from protodsl.model.dose import Range
from protodsl.units import UNITS, Quantity
from tests.evidence.rows import table

_LANGUAGES = ("en_GB", "es", "de", "fr", "pl", "ar", "uk", "zh", "ja", "fa", "he", "tr", "vi", "th", "it", "pt", "nl")
_OWN = ("reps", "steps", "breaths", "bpm", "count")


def _english() -> Catalogue:
    spoken = catalogue("en")
    assert spoken is not None
    return spoken


def _bare(language: str) -> Catalogue:
    """A language with the one message that numbers need."""
    return Catalogue(language, Locale.parse(language), {"number.range": (Pattern(("", "low", "–", "high", "")),)})


@pytest.mark.parametrize(
    ("value", "unit", "words"),
    [
        ("30", "s", "30 seconds"),
        ("1", "min", "1 minute"),
        ("2.5", "kg", "2.5 kg"),
        ("20", "deg", "20 degrees"),
        ("1", "deg", "1 degree"),
        ("-10", "deg", "-10 degrees"),
        ("90", "%", "90%"),
        ("12.5", "%", "12.5%"),
        ("400", "m", "400 metres"),
        ("1260", "reps", "1,260 repetitions"),
        ("1", "reps", "1 repetition"),
        ("6", "weeks", "6 weeks"),
        ("15", "count", "15"),
        ("6", None, "6"),
        ("120", "bpm", "120 beats a minute"),
        ("5.5", "km/h", "5.5 km/h"),
        ("0.12345", "kg", "0.12345 kg"),
    ],
)
def test_quantities(value: str, unit: str | None, words: str) -> None:
    """A quantity in British English, exact."""
    one = Quantity(Decimal(value), UNITS[unit] if unit else None)
    assert numbers.quantity(_english(), one) == words


@pytest.mark.parametrize(
    ("low", "high", "unit", "words"),
    [
        ("8", "12", "reps", "8 to 12 repetitions"),
        ("30", "60", "s", "30 to 60 seconds"),
        ("0", "1", "min", "0 to 1 minute"),
        ("5", "5", "kg", "5 kg"),
        ("70", "80", "%", "70 to 80%"),
    ],
)
def test_ranges(low: str, high: str, unit: str, words: str) -> None:
    """A range has its unit once, in the form of its upper end, and `to` in words, which no direction of text turns."""
    of = Range(Decimal(low), Decimal(high))
    assert numbers.amount(_english(), of, UNITS[unit]) == words


@pytest.mark.parametrize(
    ("value", "unit", "lengths", "words"),
    [
        ("10", "cm", "cm", "10 cm"),
        ("2", "in", "cm", "2 inches (5.08 cm)"),
        ("25.4", "mm", "in", "25.4 mm (1 inch)"),
        ("10", "cm", "in", "10 cm"),
        ("5", "m", "in", "5 metres"),
    ],
)
def test_lengths_in_the_clinics_unit(value: str, unit: str, lengths: str, words: str) -> None:
    """1 in is 2.54 cm exactly (international yard and pound agreement, 1959); what is not exact is not converted."""
    assert numbers.quantity(_english(), Quantity(Decimal(value), UNITS[unit]), lengths) == words


@pytest.mark.parametrize("language", _LANGUAGES)
@pytest.mark.parametrize("unit", [name for name in UNITS if name not in _OWN])
def test_no_language_prints_the_bare_name_of_a_unit(language: str, unit: str) -> None:
    """CLDR leaves out forms of some units in some languages; what is printed there is another form, never its key."""
    for digits in ("0", "1", "2", "3", "5", "11", "100", "1.5"):
        value = Decimal(digits)
        words = numbers.amount(_bare(language), Range(value, value), UNITS[unit])
        assert not any(key in words for key in ("duration-", "length-", "mass-", "angle-", "force-", "power-")), words
        words = numbers.amount(_bare(language), Range(value, value + 1), UNITS[unit])
        assert "–" in words, words


@pytest.mark.parametrize(
    ("language", "unit", "value", "words"),
    [
        (row["lang"], row["unit"], row["n"], row["icu"])
        for row in table("10_units").values()
        if row["unit"] in ("week", "day", "second") and row["equal"] == "1" and row["lang"] in ("en", *_LANGUAGES)
    ],
)
def test_units_of_time_agree_with_icu(language: str, unit: str, value: str, words: str) -> None:
    """The words for weeks, days and seconds are those of ICU 78.2 (Unicode CLDR), the rows being its own output."""
    name = {"week": "weeks", "day": "days", "second": "s"}[unit]
    one = Range(Decimal(value), Decimal(value))
    assert numbers.amount(_bare(language), one, UNITS[name]) == words


def test_dates_days_and_lists() -> None:
    """Dates, days of the week and lists in British English (Unicode CLDR for en-GB)."""
    spoken = _english()
    assert numbers.day(spoken, date(2026, 11, 26)) == "26 November 2026"
    assert [numbers.weekday(spoken, at, short=True) for at in range(7)] == [
        "Mon",
        "Tue",
        "Wed",
        "Thu",
        "Fri",
        "Sat",
        "Sun",
    ]
    assert numbers.weekday(spoken, 0, short=False) == "Monday"
    assert numbers.listed(spoken, ["1"]) == "1"
    assert numbers.listed(spoken, ["1", "2", "5"]) == "1, 2 and 5"
    assert numbers.listed(spoken, ["a step", "a stair"], "or") == "a step or a stair"
