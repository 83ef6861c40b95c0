"""Which formulas there are for a language, the one that limits are held against first of its kind."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from decimal import Decimal
from enum import Enum
from functools import cache

from protodsl.readability import formulas
from protodsl.readability.counts import Counts


class Kind(Enum):
    """What a value means: years of schooling, ease (higher is easier), or the index LIX (higher is harder)."""

    GRADE = "grade"
    EASE = "ease"
    LIX = "lix"


@dataclass(frozen=True, slots=True)
class Measure:
    """A formula under the name it is known by, with its publication; valid from `fewest` sentences on."""

    name: str
    kind: Kind
    formula: Callable[[Counts], Decimal]
    published: str
    fewest: int = 1


LIX = Measure("LIX", Kind.LIX, formulas.lix, "Björnsson 1968")

_GRADE, _EASE = Kind.GRADE, Kind.EASE
_MEASURES: dict[str, tuple[Measure, ...]] = {
    "en": (
        Measure("Flesch-Kincaid", _GRADE, formulas.flesch_kincaid, "Kincaid et al. 1975"),
        Measure("Flesch", _EASE, formulas.flesch, "Flesch 1948"),
        Measure("SMOG", _GRADE, formulas.smog, "McLaughlin 1969", fewest=30),
        Measure("SMOG, short form", _GRADE, formulas.smog_short, "McLaughlin 1969", fewest=30),
        LIX,
    ),
    "de": (
        Measure("Wiener Sachtextformel 1", _GRADE, formulas.wiener_1, "Bamberger and Vanecek 1984"),
        Measure("Wiener Sachtextformel 2", _GRADE, formulas.wiener_2, "Bamberger and Vanecek 1984"),
        Measure("Wiener Sachtextformel 3", _GRADE, formulas.wiener_3, "Bamberger and Vanecek 1984"),
        Measure("Wiener Sachtextformel 4", _GRADE, formulas.wiener_4, "Bamberger and Vanecek 1984"),
        Measure("Amstad", _EASE, formulas.amstad, "Amstad 1978"),
        LIX,
    ),
    "es": (
        Measure("Szigriszt-Pazos", _EASE, formulas.szigriszt_pazos, "Szigriszt Pazos 1993"),
        Measure("Fernández Huerta", _EASE, formulas.fernandez_huerta, "Fernández Huerta 1959"),
        Measure("Gutiérrez de Polini", _EASE, formulas.gutierrez_de_polini, "Gutiérrez de Polini 1972"),
        LIX,
    ),
    "fr": (Measure("Kandel-Moles", _EASE, formulas.kandel_moles, "Kandel and Moles 1958"), LIX),
    "it": (
        Measure("Gulpease", _EASE, formulas.gulpease, "Lucisano and Piemontese 1988"),
        Measure("Flesch-Vacca", _EASE, formulas.flesch_vacca, "Vacca, after Flesch"),
        LIX,
    ),
    "nl": (Measure("Flesch-Douma", _EASE, formulas.douma, "Douma, after Flesch"), LIX),
}
# Without blanks between words nothing here can tell them apart: sentences are measured in characters.
_UNSPACED = frozenset(("zh", "yue", "ja", "th", "lo", "km", "my"))
# Letters that stand for consonants alone, or for syllables: seven of them are no long word, and no formula for these
# languages was found that is published and could be confirmed. Sentences are measured in words.
_LENGTH_ALONE = frozenset(
    ("ar", "fa", "ur", "ps", "ckb", "he", "yi", "am", "ti", "hi", "bn", "ta", "te", "ml", "kn", "gu", "pa", "mr", "ne",
     "si", "ko")
)  # fmt: skip


def measures(language: str) -> tuple[Measure, ...]:
    """The formulas for a language (a BCP 47 tag); none where there is only the length of sentences."""
    tag = primary(language)
    if tag in _UNSPACED or tag in _LENGTH_ALONE:
        return ()
    return _MEASURES.get(tag, (LIX,))


def is_spaced(language: str) -> bool:
    """Whether the script of a language puts blanks between words, so that they can be counted."""
    return primary(language) not in _UNSPACED


@cache
def primary(language: str) -> str:
    """The language of a tag without script and region: `es` of `es-MX`."""
    return language.replace("_", "-").partition("-")[0].lower()
