"""Numbers, quantities, ranges, dates and lists in the words and digits of a language, never rounded."""

from __future__ import annotations

from collections.abc import Sequence
from datetime import date
from decimal import Decimal
from functools import lru_cache

from babel import Locale
from babel.dates import format_date, format_skeleton, get_day_names
from babel.lists import format_list
from babel.numbers import format_decimal, format_percent
from babel.units import format_unit

from protodsl.localise.catalogue import Catalogue, raised
from protodsl.model.dose import Range
from protodsl.units import UNITS, Quantity, Unit, plain

# Units of CLDR by the unit as it is written; every other unit is a message of the product's own, `unit.NAME`.
_CLDR: dict[str, tuple[str, str]] = {
    "deg": ("angle-degree", "long"),
    "mm": ("length-millimeter", "short"),
    "cm": ("length-centimeter", "short"),
    "m": ("length-meter", "long"),
    "km": ("length-kilometer", "short"),
    "in": ("length-inch", "long"),
    "ft": ("length-foot", "long"),
    "g": ("mass-gram", "short"),
    "kg": ("mass-kilogram", "short"),
    "lb": ("mass-pound", "short"),
    "s": ("duration-second", "long"),
    "min": ("duration-minute", "long"),
    "hour": ("duration-hour", "long"),
    "hours": ("duration-hour", "long"),
    "day": ("duration-day", "long"),
    "days": ("duration-day", "long"),
    "week": ("duration-week", "long"),
    "weeks": ("duration-week", "long"),
    "month": ("duration-month", "long"),
    "months": ("duration-month", "long"),
    "year": ("duration-year", "long"),
    "years": ("duration-year", "long"),
    "km/h": ("speed-kilometer-per-hour", "short"),
    "W": ("power-watt", "short"),
    "N": ("force-newton", "short"),
    "mmHg": ("pressure-millimeter-ofhg", "short"),
}
# A number that has no pattern of its own with a numeral in it (a dual, a singular) borrows the pattern of one of these.
_WITH_A_NUMERAL = (Decimal(3), Decimal(11), Decimal(100), Decimal("1.5"))
_MOST_DECIMALS = 2


def number(catalogue: Catalogue, value: Decimal) -> str:
    """A number in the digits of the language, exact."""
    return _number(catalogue.locale, value)


def span(catalogue: Catalogue, low: str, high: str) -> str:
    """Two numbers as a range, in words: `8 to 12`; one number where they are the same."""
    return low if low == high else catalogue.say("number.range", {"low": low, "high": high})


def range_of(catalogue: Catalogue, numbers: Range) -> str:
    """A range of bare numbers."""
    return span(catalogue, number(catalogue, numbers.low), number(catalogue, numbers.high))


def amount(catalogue: Catalogue, numbers: Range, unit: Unit | None) -> str:
    """A range with its unit in words: `8 to 12 repetitions`, `30 seconds`, `90%`."""
    return with_unit(catalogue, range_of(catalogue, numbers), numbers.high, unit)


def quantity(catalogue: Catalogue, one: Quantity, lengths: str = "") -> str:
    """A quantity in words; a length is written again in brackets in the clinic's unit where that is exact."""
    words = amount(catalogue, Range(one.value, one.value), one.unit)
    other = _in_other_unit(one, lengths)
    if other is None:
        return words
    again = amount(catalogue, Range(other.value, other.value), other.unit)
    return catalogue.say("number.twice", {"written": words, "again": again})


def with_unit(catalogue: Catalogue, digits: str, value: Decimal, unit: Unit | None) -> str:
    """Digits already in words (a number or a range that ends at `value`) with the unit around them."""
    if unit is None or unit.name == "count":
        return digits
    if unit.name == "%":
        return _percent(catalogue, digits)
    if unit.name in _CLDR:
        return _cldr(catalogue, digits, value, *_CLDR[unit.name])
    return catalogue.say(f"unit.{unit.name}", {"count": digits}, value)


def day(catalogue: Catalogue, one: date, short: bool = False) -> str:
    """A date written out: 26 November 2026; short, its day and month: 26 Nov."""
    if short:
        return str(format_skeleton("MMMd", one, locale=catalogue.locale))
    return str(format_date(one, format="long", locale=catalogue.locale))


def weekday(catalogue: Catalogue, which: int, short: bool, alone: bool = True) -> str:
    """A day of the week, 0 Monday to 6 Sunday, as it stands alone or within words."""
    names = get_day_names("abbreviated" if short else "wide", context="stand-alone", locale=catalogue.locale)
    return raised(str(names[which])) if alone else str(names[which])


def listed(catalogue: Catalogue, items: Sequence[str], by: str = "and") -> str:
    """Items as a list in a sentence, by `and` or by `or`."""
    style = "or" if by == "or" else "standard"
    return str(format_list(list(items), style=style, locale=catalogue.locale))  # type: ignore[arg-type]


@lru_cache(maxsize=1024)
def _number(locale: Locale, value: Decimal) -> str:
    return str(format_decimal(value, format=_format(value), locale=locale))


def _format(value: Decimal) -> str:
    """A number format that keeps every decimal there is."""
    digits = len(plain(value).partition(".")[2])
    return "#,##0." + "#" * digits if digits else "#,##0"


def _cldr(catalogue: Catalogue, digits: str, value: Decimal, name: str, length: str) -> str:
    """The pattern of CLDR with the digits put in; where a form is missing there, a shorter one: never the bare name."""
    own = number(catalogue, value)
    for width in (length, "short", "narrow"):
        for borrowed in (value, *_WITH_A_NUMERAL):
            text = _unit(catalogue, borrowed, name, width)
            if name in text:
                break
            if borrowed == value and digits == own:
                return text
            numeral = number(catalogue, borrowed)
            if numeral in text:
                return text.replace(numeral, digits, 1)
    raise KeyError(name)


def _unit(catalogue: Catalogue, value: Decimal, name: str, length: str) -> str:
    return str(format_unit(value, name, length=length, format=_format(value), locale=catalogue.locale))  # type: ignore[arg-type]


def _percent(catalogue: Catalogue, digits: str) -> str:
    sample = str(format_percent(Decimal(1), locale=catalogue.locale))
    return sample.replace(str(format_decimal(Decimal(100), locale=catalogue.locale)), digits, 1)


def _in_other_unit(one: Quantity, lengths: str) -> Quantity | None:
    """A length in the clinic's unit where few decimals hold it exactly, else None."""
    if lengths not in ("cm", "in") or one.unit is None or one.unit.name not in ("mm", "cm", "in"):
        return None
    if (one.unit.name == "in") == (lengths == "in"):
        return None
    other = one.to(UNITS[lengths])
    few = Decimal(plain(other.value.quantize(Decimal(1).scaleb(-_MOST_DECIMALS))))
    exact = few * UNITS[lengths].factor == one.value * one.unit.factor
    return Quantity(few, other.unit) if exact else None
