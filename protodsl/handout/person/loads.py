"""The loads of today: what was written, what it came to, and what the clinic has."""

from __future__ import annotations

from collections.abc import Iterator
from decimal import Decimal

from protodsl.decide.plan import Plan, PlannedItem, PlannedLoad
from protodsl.handout.blocks import Cell, Section, Table
from protodsl.handout.draft import Draft
from protodsl.handout.person.evidence import all_known
from protodsl.handout.phrase import DoseInWords, Literal, Measure, Phrase, Written
from protodsl.handout.places import places
from protodsl.handout.words import number, one_after_the_other, say
from protodsl.model.dose import Dose
from protodsl.units import UNITS, Quantity

_WIDTHS = (26, 24, 12, 38)


def loads(plan: Plan, on: Draft) -> Section[Phrase] | None:
    """A row for each exercise whose load was to be worked out: in kilograms, or of what a person can lift."""
    rows = tuple(_row(on, item, item.load) for item in plan.items if item.load is not None and _worked_out(item.load))
    if not rows:
        return None
    heads = (say("case.on.exercise"), say("case.loads.written"), say("case.loads.today"), say("case.loads.how"))
    return Section("loads", say("case.loads.head"), (Table(None, heads, rows, kind="rules", widths=_WIDTHS),))


def _worked_out(load: PlannedLoad) -> bool:
    return load.kilograms is not None or load.written.maximum is not None or load.written.percent is not None


def _row(on: Draft, item: PlannedItem, load: PlannedLoad) -> tuple[Cell[Phrase], ...]:
    name = say("chains.detail", number=number(on.numbers[item.exercise.name]), dose=Written(item.exercise.title))
    today = say("case.value.unknown") if load.kilograms is None else _kilograms(load.kilograms)
    how = tuple(_how(on, load))
    return (
        Cell(name),
        Cell(DoseInWords(Dose(load=load.written), "load")),
        Cell(today),
        Cell(one_after_the_other(*how) if how else say("dose.none")),
    )


def _how(on: Draft, load: PlannedLoad) -> Iterator[Phrase]:
    if load.equation is not None:
        yield say("case.loads.equation", name=Literal(load.equation))
    if load.steps:
        yield say("case.loads.steps", amount=_kilograms(load.steps))
    if load.exact is not None and load.exact != load.kilograms:
        yield say("case.loads.exact", amount=_kilograms(load.exact))
    if load.capped_by is not None:
        yield say("case.loads.capped", lines=places(on, (load.capped_by,)))
    if load.evidence:
        yield say("case.deciding", known=all_known(on, load.evidence))


def _kilograms(amount: Decimal) -> Phrase:
    return Measure(Quantity(amount, UNITS["kg"]))
