"""Every dose says how often."""

from __future__ import annotations

from collections.abc import Iterator

from protodsl.check.context import Context
from protodsl.diagnostics import dose as say
from protodsl.diagnostics.diagnostic import Diagnostic
from protodsl.model.protocol import Entry


def often(entry: Entry, context: Context) -> Iterator[Diagnostic]:
    """A dose without days and times; what is done in the clinic only is left to the clinician."""
    for one in context.given:
        if one.supervised:
            continue
        for week in one.weeks:
            dose = one.dose(week)
            if dose.volume is not None and dose.frequency is None and dose.supervised is None:
                yield say.how_often(one.exercise.name, one.place(week))
                break
