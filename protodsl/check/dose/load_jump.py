"""The load rises from week to week, and from level to level, by no more than the clinic allows."""

from __future__ import annotations

from collections.abc import Iterator
from decimal import Decimal

from protodsl.check.context import Context
from protodsl.check.dose.rises import rises
from protodsl.diagnostics import dose as say
from protodsl.diagnostics.diagnostic import Diagnostic
from protodsl.dose.one_rep_max import MOST_REPETITIONS, load_for
from protodsl.model.dose import Dose, Load
from protodsl.model.protocol import Entry
from protodsl.units import UNITS


def load_jump(entry: Entry, context: Context) -> Iterator[Diagnostic]:
    """A rise of the load past `load-rise-percent`; loads of different kinds are not compared."""
    most = context.clinic.limits.load_rise_percent
    if most is not None:
        equation = context.clinic.one_rep_max
        for rise in rises(entry, context, lambda before, after: _loads(before, after, equation)):
            if rise.percent > most:
                yield say.load_jump(rise.exercise, rise.when, rise.percent, most, rise.at, rise.before)


def _loads(before: Dose, after: Dose, equation: str) -> tuple[Decimal, Decimal] | None:
    first, second = before.load, after.load
    if first is None or second is None or first.name != second.name:
        return None
    if first.weight and second.weight and first.name is None:
        kilograms = UNITS["kg"]
        return first.weight.to(kilograms).value, second.weight.to(kilograms).value
    shares = _share(first, equation), _share(second, equation)
    if shares[0] is None or shares[1] is None or _of(first) != _of(second):
        return None
    return shares[0], shares[1]


def _of(load: Load) -> str | None:
    """What a load is a share of; nRM is one of 1RM."""
    return "1RM" if load.maximum is not None else load.of


def _share(load: Load, equation: str) -> Decimal | None:
    """A load as a share of 1RM, in percent; past the equations' range None."""
    if load.percent is not None:
        return load.percent
    if load.maximum is not None and load.maximum <= MOST_REPETITIONS:
        return load_for(equation, Decimal(100), load.maximum)
    return None
