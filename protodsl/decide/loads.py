"""Loads in kilograms, and doses with the steps made so far."""

from __future__ import annotations

import re
from collections.abc import Sequence
from dataclasses import replace
from decimal import Decimal

from protodsl.decide.context import Context
from protodsl.decide.plan import Evidence, PlannedLoad
from protodsl.decide.state import Lift, Part, State, Steps
from protodsl.decide.terms import base, read_value
from protodsl.dose.one_rep_max import MOST_REPETITIONS, load_for, one_rep_max, to_available
from protodsl.model.clinic import Clinic
from protodsl.model.dose import Dosage, Dose, Load, LoadStep, Range, SetRow, Sets, SetsOf
from protodsl.model.dosing import dose_of
from protodsl.model.protocol import Limit, Phase
from protodsl.units import UNITS, Quantity

_MAXIMUM = re.compile(r"([1-9]\d*)RM")
_NOTHING = Decimal(0)
_DIGITS = 12
BODY_WEIGHT = "body weight"


def steps_in(layers: Sequence[Dosage]) -> tuple[LoadStep, ...]:
    """The steps of the strongest layer that has any."""
    return next((layer.steps for layer in layers if layer.steps), ())


def dose_due(part: Part, week: int, steps: Steps | None) -> Dose:
    """The dose of a part in a week, with the steps of volume made so far."""
    dose = dose_of(week, part.layers)
    if steps is None or not steps.sums or not isinstance(dose.volume, Sets) or dose.volume.amount is None:
        return dose
    unit = UNITS[dose.volume.unit]
    more = steps.sums.get(unit.dimension, _NOTHING) / unit.factor
    if not more:
        return dose
    amount = dose.volume.amount
    low, high = max(_NOTHING, amount.low + more), max(_NOTHING, amount.high + more)
    return replace(dose, volume=replace(dose.volume, amount=Range(low, high)))


def working_load(part: Part, dose: Dose) -> Load | None:
    """The load that steps move: that of the dose, else the heaviest that the lines of single sets say in kg."""
    if dose.load is not None:
        return dose.load
    loads = [row.dose.load for row in _sets(part) if row.dose.load is not None and _is_weight(row.dose.load)]
    return max(loads, key=lambda load: base(load.weight) if load.weight else _NOTHING, default=None)


def planned_sets(part: Part, dose: Dose, load: PlannedLoad | None, clinic: Clinic) -> tuple[SetRow, ...]:
    """The lines of single sets, each with its load as it is to be lifted: no line stays behind where the load moved."""
    rows = _sets(part)
    if load is None or load.kilograms is None:
        return rows
    heaviest = load.kilograms
    found = []
    for row in rows:
        said = row.dose.load
        if said is not None and dose.load is not None and _same(said, dose.load):
            found.append(_with(row, heaviest, said))
        elif said is not None and said.weight is not None and dose.load is None and _is_weight(said):
            moved = heaviest if said == load.written else max(_NOTHING, base(said.weight) + load.steps)
            rounded = to_available(moved, clinic.weights) if load.steps else moved
            found.append(_with(row, min(rounded, heaviest), said))
        else:
            found.append(row)
    return tuple(found)


def _sets(part: Part) -> tuple[SetRow, ...]:
    return next((layer.sets for layer in part.layers if layer.sets), ())


def _is_weight(load: Load) -> bool:
    return load.weight is not None and load.percent is None and load.maximum is None and load.name is None


def _same(said: Load, stated: Load) -> bool:
    """Whether a set line says again what the dose says; where the two end does not matter."""
    return replace(said, up_to=None) == replace(stated, up_to=None)


def _with(row: SetRow, kilograms: Decimal, said: Load) -> SetRow:
    load = Load(weight=Quantity(kilograms, UNITS["kg"]), name=said.name)
    return replace(row, dose=replace(row.dose, load=load))


def amount_of(dimension: str, part: Part, dose: Dose, state: State, context: Context, clinic: Clinic) -> Decimal | None:
    """What a step is added to, in base units without the steps so far; None where nobody knows it."""
    if dimension == "mass":
        written = working_load(part, dose)
        return _NOTHING if written is None else _kilograms(written, part, state, context, clinic)[0]
    volume = dose.volume
    if isinstance(volume, Sets) and volume.amount is not None and UNITS[volume.unit].dimension == dimension:
        return volume.amount.high * UNITS[volume.unit].factor
    return None


def planned_load(
    part: Part, dose: Dose, steps: Steps | None, phase: Phase | None, state: State, context: Context, clinic: Clinic
) -> PlannedLoad | None:
    """The load to lift; None where the dose has none."""
    more = steps.sums.get("mass", _NOTHING) if steps is not None else _NOTHING
    written = working_load(part, dose)
    if written is None and not more:
        return None
    written = written or Load()
    exact, evidence = _kilograms(written, part, state, context, clinic)
    computed = written.maximum is not None or written.percent is not None
    equation = clinic.one_rep_max if computed and _by_equation(written) and exact is not None else None
    if exact is None:
        return PlannedLoad(written, None, None, more, None, None, evidence)
    exact = max(_NOTHING, exact + more)
    if written.up_to is not None:
        exact = min(exact, base(written.up_to))
    limits = load_limits(phase)
    past = [one for one in limits if not _within(exact, one)]
    if not past:
        kilograms = to_available(exact, clinic.weights) if computed or more else exact
        return PlannedLoad(written, kilograms, exact, more, equation, None, evidence)
    strictest = min(past, key=lambda one: (base(one.most), one.op == "<="))
    there = [one for one in (*clinic.weights, _NOTHING) if all(_within(one, limit) for limit in limits)]
    if not clinic.weights and _within(base(strictest.most), strictest):
        there.append(base(strictest.most))
    return PlannedLoad(written, max(there, default=_NOTHING), exact, more, equation, strictest.span, evidence)


def _within(load: Decimal, limit: Limit) -> bool:
    return load < base(limit.most) or (limit.op == "<=" and load == base(limit.most))


def load_limits(phase: Phase | None) -> tuple[Limit, ...]:
    """The limits of a phase on the load."""
    return tuple(limit for limit in phase.limits if not limit.joint) if phase is not None else ()


def unbounded(part: Part, dose: Dose, load: PlannedLoad | None, phase: Phase | None) -> Limit | None:
    """The `limit load` under which this load may not be lifted, since nobody can say how heavy it is."""
    limits = load_limits(phase)
    if not limits or load is None or load.kilograms is not None:
        return None
    bound = load.written.up_to
    return next((one for one in limits if bound is None or not _within(base(bound), one)), None)


def _by_equation(written: Load) -> bool:
    return written.maximum is not None or (written.of is not None and _MAXIMUM.fullmatch(written.of) is not None)


def _kilograms(
    written: Load, part: Part, state: State, context: Context, clinic: Clinic
) -> tuple[Decimal | None, tuple[Evidence, ...]]:
    """The load in kg as written, without steps; None where nobody knows it, with what would have to be known."""
    if written.percent is not None:
        share = written.percent / 100
        match = _MAXIMUM.fullmatch(written.of or "1RM")
        if match is None:
            whole, evidence = _measured(written.of or "", context)
            return (None if whole is None else whole * share), evidence
        return _maximum(int(match[1]), share, part, state, clinic)
    if written.maximum is not None:
        return _maximum(written.maximum, Decimal(1), part, state, clinic)
    if written.name is not None and written.name != BODY_WEIGHT:
        return None, ()
    return (base(written.weight) if written.weight else _NOTHING), ()


def _maximum(
    repetitions: int, share: Decimal, part: Part, state: State, clinic: Clinic
) -> tuple[Decimal | None, tuple[Evidence, ...]]:
    """A share of nRM from the last sets until tired of the same exercise, by the clinic's published equation.

    The last digits of the divisions are dropped: 10 kg lifted eight times are its 8RM, and not a hair less.
    """
    lift: Lift | None = state.lifts.get(part.exercise.name) if part.exercise is not None else None
    if lift is None or not 1 <= lift.repetitions <= MOST_REPETITIONS or repetitions > MOST_REPETITIONS:
        return None, ()
    most = one_rep_max(clinic.one_rep_max, lift.kilograms, lift.repetitions)
    load = share * load_for(clinic.one_rep_max, most, repetitions)
    return round(load, _DIGITS), (lift.evidence,)


def _measured(name: str, context: Context) -> tuple[Decimal | None, tuple[Evidence, ...]]:
    """A weight that was measured; of two sides, or of two values, the lower one."""
    finding = context.protocol.scope.findings.get(name)
    if finding is None:
        return None, ()
    sides = ("left", "right") if finding.answer.sided else (None,)
    reads = [read_value(name, side, context.moment()) for side in sides]
    unknown = tuple(one for read in reads for one in read.unknown)
    if unknown or not all(read.known for read in reads):
        return None, unknown
    known = [one for read in reads for one in read.known]
    return min(base(one.value) for one in known), tuple(one.evidence for one in known)


def reached(volumes: Sequence[object]) -> int | None:
    """Repetitions reached in the first set until tired; None where no counts were written down."""
    return next((one.counts[0] for one in volumes if isinstance(one, SetsOf)), None)
