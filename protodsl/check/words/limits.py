"""Whether a text is harder to read than the clinic wants, or where it says nothing, than is usual."""

from __future__ import annotations

from decimal import Decimal
from typing import NamedTuple

from protodsl.model.clinic import Limits
from protodsl.readability import Counts, Kind, Level, level_of, measures, usual


class TooHard(NamedTuple):
    """A value past its limit; `reason` is why that limit counts where the clinic set none ("": it did)."""

    level: Level
    limit: Decimal
    reason: str


class Limit(NamedTuple):
    """A limit of a kind, at most or (of an ease) at least."""

    kind: Kind
    limit: Decimal
    reason: str = ""


def limits_for(limits: Limits, language: str) -> tuple[Limit, ...]:
    """What counts for a language: every limit of the clinic that there is a formula for, else the usual one."""
    said = limits.reading(language)
    kinds = {one.kind for one in measures(language)}
    values = ((Kind.GRADE, said.reading_grade), (Kind.EASE, said.reading_ease), (Kind.LIX, said.lix))
    own = tuple(Limit(kind, value) for kind, value in values if value is not None and kind in kinds)
    found = usual(language)
    return own or ((Limit(*found),) if found else ())


def too_hard(of: Counts, limits: Limits, language: str) -> TooHard | None:
    """The first limit that a text is past."""
    for kind, limit, reason in limits_for(limits, language):
        level = level_of(of, language, kind)
        if level is not None and (level.value < limit if kind is Kind.EASE else level.value > limit):
            return TooHard(level, limit, reason)
    return None
