"""Rest days between training days have room in the week."""

from __future__ import annotations

from collections.abc import Iterator

from protodsl.check.context import Context
from protodsl.diagnostics import dose as say
from protodsl.diagnostics.diagnostic import Diagnostic
from protodsl.model.dose import Dosage, Dose
from protodsl.model.protocol import Entry
from protodsl.source import Span

# Of the seven days of a week that goes round no four are all apart.
_MOST_DAYS = 3


def no_room_for_rest(entry: Entry, context: Context) -> Iterator[Diagnostic]:
    """`rest day between` with more days a week than can be kept apart."""
    for dosage in context.dosages:
        for dose, span in _written(dosage):
            often = dose.frequency
            if often and often.rest_day_between and often.days_a_week and often.days_a_week.high > _MOST_DAYS:
                yield say.no_room_for_rest(often.days_a_week.high, span)


def _written(dosage: Dosage) -> Iterator[tuple[Dose, Span]]:
    yield dosage.common, dosage.span
    yield from ((row.dose, row.span) for row in dosage.weeks)
    yield from ((row.dose, row.span) for row in dosage.sets)
