"""The protocol as it stands for one person today: what may change stays, what belongs to other phases is gone.

The parts of the general sheet are made from it, so that a line is worded alike on both sheets.
"""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import replace

from protodsl.decide.plan import Guarded, Plan, PlannedItem, PlannedLoad
from protodsl.dose.plan import Item as Given
from protodsl.dose.totals import sets_of
from protodsl.handout.draft import Draft, Use
from protodsl.handout.options import Options
from protodsl.model.clinic import Clinic
from protodsl.model.dose import NO_DOSE, Dosage, Dose, Load, SetRow
from protodsl.model.exercise import Avoid, Caution, Exercise, Need
from protodsl.model.protocol import Protocol
from protodsl.units import UNITS, Quantity


def drafted(plan: Plan, clinic: Clinic, options: Options) -> Draft:
    """The draft of a person's sheet: what is printed today, numbered in the order of the plan."""
    numbers = {item.exercise.name: at for at, item in enumerate(plan.items, 1)}
    uses = {item.exercise.name: (_use(item),) for item in plan.items}
    return Draft(_today(plan), clinic, options, numbers, uses)


def printed_dose(item: PlannedItem) -> Dose:
    """The dose of today with its load as it is to be lifted, kilograms where they are known.

    A load that only the lines of single sets say is said there alone.
    """
    if item.dose.load is None and any(row.dose.load is not None for row in item.sets):
        return item.dose
    return with_load(item.dose, item.load)


def with_load(dose: Dose, load: PlannedLoad | None) -> Dose:
    """A dose with what was decided on its load."""
    return dose if load is None else replace(dose, load=lifted(load))


def lifted(load: PlannedLoad) -> Load:
    """The load in kilograms as the clinic has it; as it was written where nobody knows the kilograms."""
    if load.kilograms is None:
        return load.written
    return Load(weight=Quantity(load.kilograms, UNITS["kg"]), name=load.written.name)


def _today(plan: Plan) -> Protocol:
    """Without phases: what the present one says stands beside what the whole protocol says."""
    protocol, phase = plan.protocol, plan.phase
    scope = protocol.scope
    there = frozenset(item.exercise.name for item in plan.items)
    exercises = {**scope.exercises, **{item.exercise.name: _exercise(item, there) for item in plan.items}}
    return replace(
        protocol,
        scope=replace(scope, exercises=exercises),
        calls=(*protocol.calls, *(phase.calls if phase else ())),
        cautions=_cautions(plan.cautions),
        advice=(*protocol.advice, *(phase.advice if phase else ())),
        stop=(*protocol.stop, *(phase.stop if phase else ())),
        may=(*protocol.may, *(phase.may if phase else ())),
        not_yet=(*protocol.not_yet, *(phase.not_yet if phase else ())),
        contents=(),
        phases=(),
    )


def _set_lines(item: PlannedItem, dose: Dose) -> tuple[SetRow, ...]:
    """Lines of single sets; a load that the dose says for all sets is not said again for some of them."""
    if len(item.sets) >= sets_of(dose).high or dose.load is None:
        return item.sets
    rows = (
        replace(row, dose=replace(row.dose, load=None)) if row.dose.load == dose.load else row for row in item.sets
    )
    return tuple(row for row in rows if row.dose != NO_DOSE)


def _exercise(item: PlannedItem, there: frozenset[str]) -> Exercise:
    """The exercise with the lines that stay, and what it needs where nobody knows what the person has.

    An `instead` that is not `there` on the sheet is not named: nobody is to do an exercise that is not shown.
    """
    avoid = tuple(one.line for one in item.avoids if one.stays and isinstance(one.line, Avoid))
    return replace(
        item.exercise,
        avoid=tuple(one if one.instead in there else replace(one, instead=None) for one in avoid),
        caution=_cautions(item.cautions),
        needs=tuple(Need(options) for options in item.equipment),
        focus=None,
        supervised=item.supervised,
    )


def _cautions(guarded: Iterable[Guarded]) -> tuple[Caution, ...]:
    return tuple(one.line for one in guarded if one.stays and isinstance(one.line, Caution))


def _use(item: PlannedItem) -> Use:
    """The one way the exercise is used today, with today's dose alone; rules that change it stay in their layers."""
    rules = tuple(
        Dosage(adjusts=layer.adjusts, steps=layer.steps) for layer in item.dosage if layer.adjusts or layer.steps
    )
    dose = printed_dose(item)
    layers = (Dosage(dose, sets=_set_lines(item, dose)), *rules)
    level = item.level
    given = Given(
        item.exercise.name,
        replace(item.give, condition=None, unless=False, focus=None, supervised=False),
        layers,
        item.exercise.works,
        level.progression if level else None,
        level.printed if level else None,
    )
    return Use(None, layers, given)
