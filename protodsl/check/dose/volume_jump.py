"""The work of a week rises from week to week, and from level to level, by no more than the clinic allows."""

from __future__ import annotations

from collections.abc import Iterator
from decimal import Decimal

from protodsl.check.context import Context
from protodsl.check.dose.rises import rises
from protodsl.diagnostics import dose as say
from protodsl.diagnostics.diagnostic import Diagnostic
from protodsl.dose.totals import week as week_of
from protodsl.model.dose import Dose
from protodsl.model.protocol import Entry


def volume_jump(entry: Entry, context: Context) -> Iterator[Diagnostic]:
    """A rise of a week's repetitions, or time under load, past `volume-rise-percent`."""
    most = context.clinic.limits.volume_rise_percent
    if most is not None:
        for rise in rises(entry, context, _work):
            if rise.percent > most:
                yield say.volume_jump(rise.exercise, rise.when, rise.percent, most, rise.at, rise.before)


def _work(before: Dose, after: Dose) -> tuple[Decimal, Decimal] | None:
    """A week's repetitions at their upper end; its time under load where there are none to count."""
    first, second = week_of(before), week_of(after)
    if first.repetitions and second.repetitions:
        return first.repetitions.high, second.repetitions.high
    if first.repetitions or second.repetitions or not first.tension or not second.tension:
        return None
    return first.tension.high, second.tension.high
