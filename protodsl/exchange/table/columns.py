"""The columns of a dose: a lowest and a highest number with its UCUM unit for each measure, words for the rest."""

from __future__ import annotations

from decimal import Decimal

from protodsl.exchange.measures import NAMES, Measure, measures
from protodsl.model.dose import Dose
from protodsl.units import plain

# What is said in words; every other measure is numbers, with a column for its unit where it can have several.
_WORDS = frozenset((
    "repetitions-by-set", "until-tired", "stretches", "until-settled", "rest-until-settled", "sides",
    "load-percent-of", "load-thing", "every-other-day", "rest-day-between",
))  # fmt: skip
_WITH_UNIT = frozenset(("time", "distance", "load", "load-limit", "for"))
_IN_SECONDS = frozenset(("lift", "hold", "lower", "rest"))


def dose_header() -> tuple[str, ...]:
    """The names of the columns."""
    return tuple(column for name in NAMES for column in _columns(name))


def dose_cells(dose: Dose, side: str | None = None) -> tuple[str, ...]:
    """The cells of one dose, empty where it says nothing."""
    said = {one.name: one for one in measures(dose, side)}
    return tuple(text for name in NAMES for text in _cells(name, said.get(name)))


def _columns(name: str) -> tuple[str, ...]:
    column = name.replace("-", "_")
    if name in _WORDS:
        return (column,)
    numbered = f"{column}_seconds" if name in _IN_SECONDS else column
    return (f"{numbered}_low", f"{numbered}_high", *((f"{column}_unit",) if name in _WITH_UNIT else ()))


def _cells(name: str, one: Measure | None) -> tuple[str, ...]:
    if one is None:
        return ("",) * len(_columns(name))
    if name in _WORDS:
        return (one.text,)
    numbers = (_number(one.low), _number(one.high))
    return (*numbers, *((one.ucum,) if name in _WITH_UNIT else ()))


def _number(value: Decimal | None) -> str:
    return "" if value is None else plain(value)
