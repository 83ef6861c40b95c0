"""Everything that is given says how much."""

from __future__ import annotations

from collections.abc import Iterator

from protodsl.check.context import Context
from protodsl.check.dose.given import given
from protodsl.diagnostics import dose as say
from protodsl.diagnostics.diagnostic import Diagnostic
from protodsl.model.protocol import Entry


def no_volume(entry: Entry, context: Context) -> Iterator[Diagnostic]:
    """An exercise without an amount in any week, or in one of its weeks."""
    for one in given(entry, context):
        without = [week for week in one.weeks if one.dose(week).volume is None]
        if without:
            everywhere = len(without) == len(one.weeks)
            yield say.no_volume(one.exercise.name, None if everywhere else without[0], one.place(without[0]))
