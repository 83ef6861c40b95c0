"""Whether a session was done as asked: as given, or with at least the sets, repetitions and load that were due."""

from __future__ import annotations

from decimal import Decimal

from protodsl.decide.terms import base
from protodsl.model.case import Affected, Done, Session
from protodsl.model.dose import Dose, Intervals, Range, Sets, SetsOf, Volume
from protodsl.units import UNITS


def as_asked(session: Session, dose: Dose, kilograms: Decimal | None, side: Affected) -> bool:
    """Whether it counts for going further; `kilograms` is the load due, None where it is not known in kg."""
    if session.outcome == "as given":
        return True
    if session.outcome != "done" or not session.done:
        return False
    return _lifted(session, kilograms) and all(_on_side(session.done, one, dose) for one in _sides(dose, side))


def _lifted(session: Session, kilograms: Decimal | None) -> bool:
    """A load that was due and not written down is not known to have been lifted."""
    if not kilograms:
        return True
    return session.load is not None and base(session.load) >= kilograms


def _sides(dose: Dose, side: Affected) -> tuple[str | None, ...]:
    """The sides that had to be done; None: nothing was said on sides."""
    if dose.sides == "each":
        return ("left", "right")
    if dose.sides == "affected":
        return (side.worse,)
    return (None,)


def _on_side(done: tuple[Done, ...], side: str | None, dose: Dose) -> bool:
    if side is None:
        return all(_enough(one.volume, dose.volume) for one in done)
    mine = [one for one in done if one.side in (None, side)]
    return bool(mine) and all(_enough(one.volume, dose.volume) for one in mine)


def _enough(done: Volume, due: Volume | None) -> bool:
    if due is None:
        return True
    if isinstance(due, Intervals):
        return isinstance(done, Intervals) and done.rounds.low >= due.rounds.low and done.legs == due.legs
    if isinstance(done, Intervals):
        return False
    if isinstance(done, SetsOf):
        return _counts_enough(done.counts, due)
    if isinstance(due, SetsOf):
        least = Sets(Range(Decimal(len(due.counts)), Decimal(0)), Range(Decimal(max(due.counts)), Decimal(0)))
        return _sets_enough(done, least)
    return _sets_enough(done, due)


def _counts_enough(counts: tuple[int, ...], due: Sets | SetsOf) -> bool:
    """Counts reached set by set against what was due."""
    if isinstance(due, SetsOf):
        return len(counts) >= len(due.counts) and all(
            had >= wanted for had, wanted in zip(counts, due.counts, strict=False)
        )
    if due.unit != "reps":
        return False
    enough = [count for count in counts if due.amount is None or count >= due.amount.low]
    return len(enough) >= due.sets.low


def _sets_enough(done: Sets, due: Sets) -> bool:
    if done.sets.low < due.sets.low:
        return False
    if due.amount is None:
        return True
    if done.amount is None or _dimension(done.unit) != _dimension(due.unit):
        return False
    return done.amount.low * UNITS[done.unit].factor >= due.amount.low * UNITS[due.unit].factor


def _dimension(unit: str) -> str:
    return UNITS[unit].dimension
