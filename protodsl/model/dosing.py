"""Doses laid over one another: one order of layers, decided in one place."""

from __future__ import annotations

from collections.abc import Sequence

from protodsl.model.dose import NO_DOSE, Dosage, Dose, WeekRow


def merge(over: Dose, under: Dose) -> Dose:
    """`over` laid over `under`: a group that `over` says replaces that group of `under` whole."""
    if over == NO_DOSE:
        return under
    if under == NO_DOSE:
        return over
    return Dose(
        volume=over.volume or under.volume,
        repetition=over.repetition or under.repetition,
        rest=over.rest or under.rest,
        sides=over.sides or under.sides,
        load=over.load or under.load,
        effort=over.effort or under.effort,
        frequency=over.frequency or under.frequency,
        supervised=under.supervised if over.supervised is None else over.supervised,
        lasting=over.lasting or under.lasting,
    )


def row_of(week: int, dosage: Dosage) -> WeekRow | None:
    """The week row of one layer that holds in `week` (counted from 1), the first as written; None where none does."""
    for row in dosage.weeks:
        if row.first <= week and (row.last is None or week <= row.last):
            return row
    return None


def dose_of(week: int, layers: Sequence[Dosage]) -> Dose:
    """The dose in `week` (counted from 1), given the layers from strongest to weakest.

    The order of layers: a give inside a level, its level, the give of the item, the progression, the exercise, the
    phase, the protocol. Inside one layer the row of the week lies over the common line.
    """
    dose = NO_DOSE
    for layer in layers:
        row = row_of(week, layer)
        dose = merge(dose, merge(row.dose, layer.common) if row else layer.common)
    return dose


def table_end(layers: Sequence[Dosage]) -> int | None:
    """The last week of the strongest layer that has week rows; None where no layer has any, or it runs on."""
    for layer in layers:
        if layer.weeks:
            ends = [row.last for row in layer.weeks]
            return None if None in ends else max(end for end in ends if end is not None)
    return None
