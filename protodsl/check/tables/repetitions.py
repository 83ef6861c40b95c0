"""A table that adjusts the load by repetitions holds every count once."""

from __future__ import annotations

from collections.abc import Iterator

from protodsl.check.context import Context
from protodsl.diagnostics import tables as say
from protodsl.diagnostics.diagnostic import Diagnostic
from protodsl.dose.adjust import gaps, overlaps
from protodsl.model.dose import Adjust
from protodsl.model.protocol import Entry
from protodsl.source import Span


def repetitions(entry: Entry, context: Context) -> Iterator[Diagnostic]:
    """Counts from 0 on that no row of an `adjust` holds, or two do."""
    for dosage in context.dosages:
        for adjust in dosage.adjusts:
            for first, last in gaps(adjust):
                yield say.adjust_gap(first, last, adjust.span, _near(adjust, first))
            for before, after in overlaps(adjust):
                ends = [end for end in (before.high, after.high) if end is not None]
                yield say.adjust_overlap(after.low, min(ends) if ends else None, before.span, after.span)


def _near(adjust: Adjust, first: int) -> Span:
    """The row below a gap, or the first one where the gap is at the beginning."""
    rows = sorted(adjust.rows, key=lambda row: row.low)
    below = [row for row in rows if row.low < first]
    return (below[-1] if below else rows[0]).span if rows else adjust.span
