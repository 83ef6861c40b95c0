"""Stretches of a number in words, for whatever speaks of them."""

from __future__ import annotations

from protodsl.check.logic.regions import Number, Stretches
from protodsl.diagnostics import tables as say


def words(number: Number, stretches: Stretches) -> str:
    """`more than 0 and less than 10 cm`; several are alternatives."""
    unit = number.unit.name if number.unit and number.unit.name != "count" else ""
    return say.several(say.stretch(one.low, one.high, one.low_open, one.high_open, unit) for one in stretches)


def named(number: Number) -> str:
    """The number with its side."""
    return say.measured(number.term, number.name, number.side)
