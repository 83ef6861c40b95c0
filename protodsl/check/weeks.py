"""The weeks at which a dose changes: what holds in them holds in every week."""

from __future__ import annotations

from collections.abc import Sequence

from protodsl.model.dose import Dosage
from protodsl.model.dosing import table_end


def turning_weeks(layers: Sequence[Dosage]) -> tuple[int, ...]:
    """The first week of every stretch with one dose, from week 1 to the end of the table."""
    end = table_end(layers)
    found = {1}
    for layer in layers:
        for row in layer.weeks:
            found.add(row.first)
            if row.last is not None:
                found.add(row.last + 1)
    return tuple(sorted(week for week in found if end is None or week <= end))
