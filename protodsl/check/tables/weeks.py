"""The weeks of a dose table begin with the first and join without gap or overlap."""

from __future__ import annotations

from collections.abc import Iterator
from itertools import pairwise

from protodsl.check.context import Context
from protodsl.diagnostics import tables as say
from protodsl.diagnostics.diagnostic import Diagnostic
from protodsl.model.dose import WeekRow
from protodsl.model.protocol import Entry


def weeks(entry: Entry, context: Context) -> Iterator[Diagnostic]:
    """Gaps, overlaps and a late start of the week rows of each layer."""
    for dosage in context.dosages:
        if dosage.weeks:
            rows = sorted(dosage.weeks, key=lambda row: row.first)
            if rows[0].first > 1:
                yield say.weeks_late(rows[0].first, rows[0].span)
            for before, after in pairwise(rows):
                yield from _joined(before, after)


def _joined(before: WeekRow, after: WeekRow) -> Iterator[Diagnostic]:
    if before.last is not None and after.first > before.last + 1:
        yield say.weeks_gap(before.last + 1, after.first - 1, before.span, after.span)
    elif before.last is None or after.first <= before.last:
        ends = [end for end in (before.last, after.last) if end is not None]
        yield say.weeks_overlap(after.first, min(ends) if ends else None, before.span, after.span)
