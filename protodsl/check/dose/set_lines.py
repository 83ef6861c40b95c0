"""What is said set by set agrees with the dose that is in force beside it."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from decimal import Decimal

from protodsl.check.context import Context
from protodsl.check.given import Given
from protodsl.diagnostics import dose as say
from protodsl.diagnostics.diagnostic import Diagnostic
from protodsl.dose.totals import sets_of
from protodsl.model.dose import Adjust, Dose, Load, Range, SetRow, Sets, SetsOf, Volume
from protodsl.model.dosing import row_of
from protodsl.model.protocol import Entry
from protodsl.source import Span


def set_lines(entry: Entry, context: Context) -> Iterator[Diagnostic]:
    """A line for a set that the dose has not, or that says otherwise; `adjust` by or for a set that is not there.

    One exercise is named once, since its lines are mended together. A dose that was written anew leaves the set lines
    of the one before it standing, and the sheet would print both.
    """
    for given in context.given:
        rows = next((layer.sets for layer in given.layers if layer.sets), ())
        adjusts = next((layer.adjusts for layer in given.layers if layer.adjusts), ())
        if not rows and not adjusts:
            continue
        found = [one for week in given.weeks for row in rows if (one := _disagreeing(given, week, row))]
        found = found or [one for week in given.weeks for line in adjusts if (one := _missing(given, week, line, rows))]
        if found:
            worst = next((one for one in found if "most" in one.args), found[0])
            places = dict.fromkeys(one.primary.span for one in found)
            yield say.and_sets(worst, [place for place in places if place != worst.primary.span])


def _disagreeing(given: Given, week: int, row: SetRow) -> Diagnostic | None:
    """The first thing in which a set line and the dose of a week contradict each other."""
    dose, name = given.dose(week), given.exercise.name
    if dose.volume is not None:
        place = _line(given, week, _has_volume)
        most = int(sets_of(dose).high)
        if row.number > most:
            return say.set_beyond(name, row.number, most, row.span, place)
        if row.dose.volume is not None and not _same_amount(row.number, row.dose.volume, dose.volume):
            return say.set_differs(name, row.number, "amount", row.span, place)
    if dose.load is not None and row.dose.load is not None and not _same_load(row.dose.load, dose.load):
        return say.set_differs(name, row.number, "load", row.span, _line(given, week, _has_load))
    return None


def _missing(given: Given, week: int, adjust: Adjust, rows: tuple[SetRow, ...]) -> Diagnostic | None:
    """A set that `adjust` names and that neither the dose nor a set line has."""
    dose = given.dose(week)
    stated = dose.volume is not None
    most = int(sets_of(dose).high) if stated else max((row.number for row in rows), default=0)
    place = _line(given, week, _has_volume) if stated else (rows[-1].span if rows else given.exercise.span)
    for number in (adjust.by_set, adjust.for_set):
        if number is not None and number > most:
            return say.adjust_beyond(given.exercise.name, number, most, adjust.span, place)
    return None


def _same_amount(number: int, said: Volume, stated: Volume) -> bool:
    """Whether a set line says what the dose says of that set, or a part of what it leaves open.

    `4 x to fatigue` leaves every set open: so a table that adjusts the load begins (Knight 1979).
    """
    if isinstance(stated, SetsOf):
        count = Decimal(stated.counts[number - 1])
        return isinstance(said, Sets) and said.unit == "reps" and said.amount == Range(count, count)
    if not isinstance(stated, Sets) or not isinstance(said, Sets):
        return said == stated
    if stated.amount is None:
        return True
    if said.amount is None:
        return False
    inside = stated.amount.low <= said.amount.low and said.amount.high <= stated.amount.high
    return said.unit == stated.unit and inside


def _same_load(said: Load, stated: Load) -> bool:
    """Whether two loads are one; where they end does not matter."""
    return (said.weight, said.percent, said.of, said.maximum, said.name) == (
        stated.weight, stated.percent, stated.of, stated.maximum, stated.name,
    )  # fmt: skip


def _has_volume(dose: Dose) -> bool:
    return dose.volume is not None


def _has_load(dose: Dose) -> bool:
    return dose.load is not None


def _line(given: Given, week: int, says: Callable[[Dose], bool]) -> Span:
    """The line that says something of the dose in a week: that of the strongest layer that does."""
    for layer in given.layers:
        row = row_of(week, layer)
        if row is not None and says(row.dose):
            return row.span
        if says(layer.common):
            return layer.span
    return given.exercise.span
