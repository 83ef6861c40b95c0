"""Under a limit on the load every exercise that a phase reaches stays within it, and can be known to."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from typing import NamedTuple

from protodsl.check.context import Context, InPhase
from protodsl.check.safety.way import way
from protodsl.check.weeks import turning_weeks
from protodsl.diagnostics import safety as say
from protodsl.diagnostics.diagnostic import Diagnostic
from protodsl.model.dose import Dosage, Load
from protodsl.model.dosing import row_of
from protodsl.model.protocol import Entry, Limit
from protodsl.source import Span
from protodsl.units import Quantity


class _Bound(NamedTuple):
    """The most that a line can come to, None where nobody knows it; `what` names the load, `span` the line."""

    most: Quantity | None
    what: str
    span: Span


def load_limit(entry: Entry, context: Context) -> Iterator[Diagnostic]:
    """A load over `limit load`, or one that nobody knows beforehand and that no `up to` bounds."""
    for found in context.in_phases(entry):
        for limit in found.phase.limits:
            if not limit.joint:
                for bound in _bounds(found):
                    yield from _judged(found, limit, bound)


def _judged(found: InPhase, limit: Limit, bound: _Bound) -> Iterator[Diagnostic]:
    allowed = say.at_most(limit.op, str(limit.most))
    if bound.most is None:
        yield say.load_not_known(
            found.exercise.name, bound.what, allowed, found.phase.name, way(found.reached), bound.span, limit.span
        )
        return
    most = bound.most.to(limit.most.unit).value
    if most > limit.most.value or (limit.op == "<" and most == limit.most.value):
        yield say.load_past_limit(
            found.exercise.name, str(bound.most), allowed, found.phase.name, way(found.reached), bound.span, limit.span
        )


def _bounds(found: InPhase) -> Iterator[_Bound]:
    """The most that each line can come to, on every way the phase gives the exercise."""
    yield from dict.fromkeys(bound for layers in _ways(found) for bound in _of_layers(layers))


def _ways(found: InPhase) -> list[Sequence[Dosage]]:
    """The layers of dose wherever the exercise is given; its own where it only stands in for another."""
    given: list[Sequence[Dosage]] = [item.layers for item in found.items if item.exercise == found.exercise.name]
    return given or [(found.exercise.dosage, found.phase.dosage, found.protocol.dosage)]


def _of_layers(layers: Sequence[Dosage]) -> Iterator[_Bound]:
    """What holds once stronger layers lie over weaker ones: the load of each week, each set, each step."""
    loads = [found for week in turning_weeks(layers) if (found := _load_of(week, layers)) is not None]
    sets = next((layer.sets for layer in layers if layer.sets), ())
    loads += [(row.dose.load, row.span) for row in sets if row.dose.load is not None]
    for load, span in loads:
        yield _Bound(*_most(load), span)
    for step in next((layer.steps for layer in layers if layer.steps), ()):
        if step.change.dimension == "mass" and step.change.value > 0:
            yield _Bound(step.bound, f"`add {step.change}` has no end", step.span)
    for adjust in next((layer.adjusts for layer in layers if layer.adjusts), ()):
        rises = any(row.change is not None and row.change.value > 0 for row in adjust.rows)
        if rises and not any(load.up_to for load, _ in loads):
            yield _Bound(None, "`adjust load` adds to it without an end", adjust.span)


def _load_of(week: int, layers: Sequence[Dosage]) -> tuple[Load, Span] | None:
    for layer in layers:
        row = row_of(week, layer)
        if row is not None and row.dose.load is not None:
            return row.dose.load, row.span
        if layer.common.load is not None:
            return layer.common.load, layer.span
    return None


def _most(load: Load) -> tuple[Quantity | None, str]:
    if load.up_to is not None:
        return load.up_to, ""
    if load.name is not None:
        return None, f"`{load.name}` is no weight"
    if load.maximum is not None:
        return None, f"`{load.maximum}RM` is another weight for everybody"
    if load.percent is not None:
        return None, f"a share of `{load.of}` is another weight for everybody"
    return load.weight, ""
