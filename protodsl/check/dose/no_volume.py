"""Everything that is given says how much."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from protodsl.check.context import Context
from protodsl.diagnostics import dose as say
from protodsl.diagnostics.diagnostic import Diagnostic
from protodsl.model.dose import Dosage
from protodsl.model.dosing import row_of
from protodsl.model.protocol import Entry


def no_volume(entry: Entry, context: Context) -> Iterator[Diagnostic]:
    """An exercise without an amount in any week, or in one of its weeks."""
    for one in context.given:
        without = [week for week in one.weeks if one.dose(week).volume is None and not _in_a_gap(one.layers, week)]
        if without:
            everywhere = len(without) == len(one.weeks)
            yield say.no_volume(one.exercise.name, None if everywhere else without[0], one.place(without[0]))


def _in_a_gap(layers: Sequence[Dosage], week: int) -> bool:
    """Whether a table has no row for the week, which is said of the table."""
    return any(layer.weeks and row_of(week, layer) is None for layer in layers)
