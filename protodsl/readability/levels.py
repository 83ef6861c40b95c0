"""The values of a text by every formula of its language."""

from __future__ import annotations

from decimal import ROUND_HALF_EVEN, Decimal
from typing import NamedTuple

from protodsl.readability.counts import Counts
from protodsl.readability.measures import Kind, Measure, measures

_TENTH = Decimal("0.1")


class Level(NamedTuple):
    """The value of a text by a formula."""

    measure: Measure
    value: Decimal

    @property
    def shown(self) -> Decimal:
        """The value to a tenth: no formula is more exact."""
        return self.value.quantize(_TENTH, ROUND_HALF_EVEN)


def levels(of: Counts, language: str) -> tuple[Level, ...]:
    """Every value there is; none of a text without words, and of a short one those alone that are valid for it."""
    if not of.words:
        return ()
    return tuple(Level(one, one.formula(of)) for one in measures(language) if of.sentences >= one.fewest)


def level_of(of: Counts, language: str, kind: Kind) -> Level | None:
    """The value of a kind that limits are held against: the first of the language."""
    return next((one for one in levels(of, language) if one.measure.kind is kind), None)
