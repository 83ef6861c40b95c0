"""The limits that count where a clinic says nothing, each with the reason for it."""

from __future__ import annotations

from collections.abc import Mapping
from decimal import Decimal
from typing import NamedTuple

from protodsl.readability.measures import Kind, measures, primary


class Usual(NamedTuple):
    """A limit of a kind, at most or (of an ease) at least, and why just that."""

    kind: Kind
    limit: Decimal
    reason: str


_GRADE_8 = "school grade 8 is the upper end of what NIH (6 to 8) and NHMRC (8) recommend for what patients read"
_INFLESZ = "from 55 on a text is of ordinary difficulty on the scale INFLESZ (Barrio-Cantalejo et al. 2008)"
_GULPEASE = "below 60 a text is hard with lower secondary schooling (Lucisano and Piemontese 1988)"
_FLESCH = "60 is ordinary difficulty on the scale of Flesch; taken over for {}, no source"
_USUAL: Mapping[str, Usual] = {
    "en": Usual(Kind.GRADE, Decimal(8), _GRADE_8),
    "de": Usual(Kind.GRADE, Decimal(8), f"{_GRADE_8}; taken over for German, no source"),
    "es": Usual(Kind.EASE, Decimal(55), _INFLESZ),
    "it": Usual(Kind.EASE, Decimal(60), _GULPEASE),
    "fr": Usual(Kind.EASE, Decimal(60), _FLESCH.format("French")),
    "nl": Usual(Kind.EASE, Decimal(60), _FLESCH.format("Dutch")),
}
_LIX = Usual(Kind.LIX, Decimal(50), "above 50 a text counts as hard in the usual bands of LIX, made for Swedish")


def usual(language: str) -> Usual | None:
    """The limit for a language; None where there is no formula to hold it against."""
    return _USUAL.get(primary(language), _LIX) if measures(language) else None
