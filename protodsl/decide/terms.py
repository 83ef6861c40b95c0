"""The ends of a comparison as exact amounts, and the values of findings they are made from.

An amount is a fraction of decimals in the base unit of its dimension, so that nothing is rounded before it is compared.
"""

from __future__ import annotations

import datetime
from collections.abc import Callable, Mapping
from dataclasses import dataclass, field, replace
from decimal import Decimal
from typing import Any, Generic, NamedTuple, TypeVar

from protodsl.decide.plan import Evidence
from protodsl.decide.values import Entry, Key, Known, Values, is_fresh
from protodsl.model.case import Affected
from protodsl.model.condition import Change, Constant, Difference, Elapsed, Measured, Side, Symmetry, Term
from protodsl.model.finding import Finding
from protodsl.units import UNITS, Quantity

T = TypeVar("T")

_ONE = Decimal(1)
_DAYS = {"weeks": 7, "days": 1}


@dataclass(slots=True)
class Moment:
    """When a condition is decided, and for whom.

    `own` are the values of the session line (or of the day's answers) that the condition is looked at in. With `bound`
    findings that are fresh for one session count from there alone. With `rising` the values of sessions that were not
    done as asked are doubtful.
    """

    date: datetime.date
    started: datetime.date
    phase_start: datetime.date
    side: Affected
    findings: Mapping[str, Finding]
    values: Values
    own: Mapping[Key, list[Known]] = field(default_factory=dict)
    bound: bool = False
    rising: bool = False


class Amount(NamedTuple):
    """`over` / `under` in the base unit, `under` above 0, with the values it was made from."""

    over: Decimal
    under: Decimal
    evidence: tuple[Evidence, ...] = ()
    doubtful: bool = False


@dataclass(frozen=True, slots=True)
class Read(Generic[T]):
    """All that stands for something: what is known (usually one), and what is not."""

    known: list[T]
    unknown: tuple[Evidence, ...] = ()


class Sides(NamedTuple):
    """The sides a condition speaks of, and whether it has to hold on every one of them."""

    names: tuple[str | None, ...]
    every: bool = True


_BOTH = ("left", "right")
_UNSIDED = Sides((None,))


def other(side: str) -> str:
    """The opposite side."""
    return "right" if side == "left" else "left"


def sides_of(side: Side | None, moment: Moment) -> Sides | None:
    """The sides meant for this person; None where there is no affected side."""
    if side is None:
        return _UNSIDED
    if side is Side.EACH:
        return Sides(_BOTH)
    if side is Side.EITHER:
        return Sides(_BOTH, False)
    if side in (Side.LEFT, Side.RIGHT):
        return Sides((side.value,))
    worse = moment.side.worse
    if worse is None:
        return None
    return Sides((worse if side is Side.AFFECTED else other(worse),))


def read_value(name: str, side: str | None, moment: Moment) -> Read[Known]:
    """What counts for a finding and side at that moment."""
    finding = moment.findings.get(name)
    if finding is None:
        return _nobody_said(name, side)
    if not finding.answer.sided:
        side = None
    own = moment.own.get((name, side))
    if own is not None:
        return _said(own)
    if moment.bound and finding.one_session:
        return _nobody_said(name, side)
    entry = moment.values.latest(name, side)
    if entry is None:
        return _nobody_said(name, side)
    if not is_fresh(finding, entry.date, moment.date):
        return Read([], (replace(entry.values[-1].evidence, stale=True),))
    return _said(entry.values)


def _nobody_said(name: str, side: str | None) -> Read[Known]:
    return Read([], (Evidence(name, side, None, None),))


def _said(values: list[Known]) -> Read[Known]:
    unknown = tuple([one.evidence for one in values if one.value is None])
    return Read([one for one in values if one.value is not None], unknown) if unknown else Read(values)


def names_in(term: Term) -> list[str]:
    """The findings a term looks at."""
    if isinstance(term, Constant):
        return []
    if isinstance(term, Elapsed):
        return [] if term.since in ("start", "phase start") else [term.since]
    return [term.finding]


def amounts(term: Term, side: str | None, moment: Moment) -> Read[Amount]:
    """Every amount that a term may stand for on a side (None: no side was said)."""
    return _TERMS[type(term)](term, side, moment)


def base(quantity: Quantity) -> Decimal:
    """The number in the base unit of its dimension."""
    return quantity.value * quantity.unit.factor if quantity.unit else quantity.value


def _measured(term: Measured, side: str | None, moment: Moment) -> Read[Amount]:
    read = read_value(term.finding, side, moment)
    plus = base(term.plus) if term.plus else Decimal(0)
    return Read(
        [Amount(base(one.value) + plus, _ONE, (one.evidence,), one.doubtful) for one in read.known], read.unknown
    )


def _constant(term: Constant, side: str | None, moment: Moment) -> Read[Amount]:
    return Read([Amount(base(term.quantity), _ONE)])


def _two_sides(name: str, side: str | None, moment: Moment) -> tuple[Read[Amount], Read[Amount]] | None:
    """The amounts of this side and of its opposite; without a side, of the affected and the other one."""
    here = side or moment.side.worse
    if here is None:
        return None
    measured = Measured(name)
    return _measured(measured, here, moment), _measured(measured, other(here), moment)


def _pairs(
    name: str, side: str | None, moment: Moment, make: Callable[[Amount, Amount, bool], Amount | None]
) -> Read[Amount]:
    both = _two_sides(name, side, moment)
    if both is None:
        return Read([], (Evidence(name, None, None, None),))
    finding = moment.findings.get(name)
    lower = finding is not None and finding.better == "lower"
    made = [make(a, b, lower) for a in both[0].known for b in both[1].known]
    unknown = both[0].unknown + both[1].unknown
    known = [one for one in made if one is not None]
    if len(known) < len(made):
        evidence = [each for one in (*both[0].known, *both[1].known) for each in one.evidence]
        unknown += tuple(dict.fromkeys(evidence))
    return Read(known, unknown)


def _symmetry(term: Symmetry, side: str | None, moment: Moment) -> Read[Amount]:
    return _pairs(term.finding, side, moment, _ratio)


def _ratio(here: Amount, there: Amount, lower: bool) -> Amount | None:
    """This side as a share of the other in percent (turned round where lower is better); None where that is 0."""
    over, under = (there.over, here.over) if lower else (here.over, there.over)
    if under == 0:
        return None
    if under < 0:
        over, under = -over, -under
    return Amount(over * 100, under, here.evidence + there.evidence, here.doubtful or there.doubtful)


def _difference(term: Difference, side: str | None, moment: Moment) -> Read[Amount]:
    return _pairs(term.finding, side, moment, _gap)


def _gap(here: Amount, there: Amount, lower: bool) -> Amount:
    gap = here.over - there.over if lower else there.over - here.over
    return Amount(gap, _ONE, here.evidence + there.evidence, here.doubtful or there.doubtful)


def _change(term: Change, side: str | None, moment: Moment) -> Read[Amount]:
    read = read_value(term.finding, side, moment)
    if not read.known:
        return Read([], read.unknown)
    finding = moment.findings[term.finding]
    history = moment.values.history(term.finding, side if finding.answer.sided else None)
    now = max(one.evidence.date for one in read.known if one.evidence.date)
    before = _before(term.since, history, now, read.known)
    if not before:
        return Read([], (*read.unknown, Evidence(term.finding, side, None, None)))
    known = [
        Amount(
            base(one.value) - base(was.value),
            _ONE,
            tuple(dict.fromkeys((one.evidence, was.evidence))),
            one.doubtful,
        )
        for one in read.known
        for was in before
    ]
    return Read(known, read.unknown)


def _before(since: str, history: list[Entry], now: datetime.date, current: list[Known]) -> list[Known]:
    """The values that a change is counted from: the first ever, or those of the date before; empty: there are none."""
    dated = [entry for entry in history if entry.date < now and any(one.value is not None for one in entry.values)]
    if not dated:
        return current if since == "start" else []
    entry = dated[0] if since == "start" else dated[-1]
    return [one for one in entry.values if one.value is not None]


def _elapsed(term: Elapsed, side: str | None, moment: Moment) -> Read[Amount]:
    days = _DAYS[term.unit]
    if term.since in ("start", "phase start"):
        start = moment.started if term.since == "start" else moment.phase_start
        return Read([_since(start, days, term, None, moment)])
    read = read_value(term.since, side, moment)
    return Read([_since(one.value, days, term, one, moment) for one in read.known], read.unknown)


def _since(start: datetime.date, days: int, term: Elapsed, seen: Known | None, moment: Moment) -> Amount:
    """Completed weeks or days; as a value it is as new as the day on which so many were completed."""
    count = (moment.date - start).days // days
    reached = start + datetime.timedelta(days=count * days)
    unit = UNITS[term.unit]
    passed = Evidence(term.since, None, Quantity(Decimal(count), unit), reached)
    evidence = (passed,) if seen is None else (passed, seen.evidence)
    return Amount(count * unit.factor, _ONE, evidence, seen is not None and seen.doubtful)


_TERMS: dict[type, Callable[[Any, str | None, Moment], Read[Amount]]] = {
    Measured: _measured,
    Constant: _constant,
    Symmetry: _symmetry,
    Difference: _difference,
    Change: _change,
    Elapsed: _elapsed,
}
