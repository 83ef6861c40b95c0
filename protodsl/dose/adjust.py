"""Load adjusted set by set from the repetitions reached, and the counts a table forgets or names twice.

The form follows the daily adjustable table (Knight KL. Am J Sports Med 1979;7:336-337).
"""

from __future__ import annotations

from decimal import Decimal
from itertools import pairwise

from protodsl.model.dose import Adjust, AdjustRow


def row_for(adjust: Adjust, repetitions: int) -> AdjustRow | None:
    """The row that holds this count of repetitions, or None where the table has a gap there."""
    for row in adjust.rows:
        if row.low <= repetitions and (row.high is None or repetitions <= row.high):
            return row
    return None


def adjusted(adjust: Adjust, repetitions: int, load: Decimal) -> Decimal | None:
    """The load after the row for `repetitions` is applied, in the unit of the load, never below 0; None in a gap."""
    row = row_for(adjust, repetitions)
    if row is None:
        return None
    return max(Decimal(0), load + (row.change.value if row.change else Decimal(0)))


def gaps(adjust: Adjust) -> tuple[tuple[int, int | None], ...]:
    """Runs of counts from 0 that no row holds, as (first, last), last None where the table has no end."""
    found: list[tuple[int, int | None]] = []
    next_count = 0
    for row in sorted(adjust.rows, key=lambda row: row.low):
        if row.low > next_count:
            found.append((next_count, row.low - 1))
        if row.high is None:
            return tuple(found)
        next_count = max(next_count, row.high + 1)
    return (*found, (next_count, None))


def overlaps(adjust: Adjust) -> tuple[tuple[AdjustRow, AdjustRow], ...]:
    """Pairs of rows that hold a count in common."""
    rows = sorted(adjust.rows, key=lambda row: row.low)
    return tuple((before, after) for before, after in pairwise(rows) if before.high is None or after.low <= before.high)
