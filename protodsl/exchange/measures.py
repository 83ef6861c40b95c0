"""A dose as named measures with UCUM units: what a table has columns for and a record has parameters for.

UCUM is the Unified Code for Units of Measure (ucum.org); what has no unit there is an annotation in braces, as
`{repetition}`, which counts as the number one.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from decimal import Decimal

from protodsl.exchange.written import legs_text
from protodsl.model.dose import Dose, Frequency, Intervals, Load, Range, Repetition, Rest, Sets, SetsOf, Volume
from protodsl.units import UNITS

_OTHER = {"left": "right", "right": "left"}


@dataclass(frozen=True, slots=True)
class Measure:
    """One part of a dose: `low` to `high` of `unit` with its UCUM code, or (both None) `text`, in no language."""

    name: str
    low: Decimal | None = None
    high: Decimal | None = None
    unit: str = ""
    ucum: str = ""
    text: str = ""


# Every name that a measure can have, in the order in which `measures` gives them.
NAMES: tuple[str, ...] = (
    "sets", "repetitions", "repetitions-by-set", "time", "distance", "steps", "breaths", "until-tired", "stretches",
    "lift", "hold", "lower", "until-settled", "rest", "rest-until-settled", "sides",
    "load", "load-percent", "load-percent-of", "load-repetition-maximum", "load-thing", "load-limit",
    "effort", "repetitions-in-reserve", "times-a-day", "days-a-week", "every-hours", "every-other-day",
    "rest-day-between", "for", "supervised-sessions",
)  # fmt: skip
_BY_UNIT = {"reps": "repetitions", "s": "time", "min": "time", "steps": "steps", "breaths": "breaths"}


def measures(dose: Dose, side: str | None = None) -> tuple[Measure, ...]:
    """The parts of a dose in one order; `side` (left or right) is the affected side where it is known."""
    return tuple(_all(dose, side))


def _all(dose: Dose, side: str | None) -> Iterator[Measure]:
    if dose.volume is not None:
        yield from _volume(dose.volume)
    if dose.repetition is not None:
        yield from _repetition(dose.repetition)
    if dose.rest is not None:
        yield _rest(dose.rest)
    if dose.sides is not None:
        yield Measure("sides", text=_which(dose.sides, side))
    if dose.load is not None:
        yield from _load(dose.load)
    if dose.effort is not None:
        name, unit = ("repetitions-in-reserve", "reps") if dose.effort.reserve else ("effort", "")
        yield _amount(name, dose.effort.amount, unit, "" if dose.effort.reserve else "{score}")
    if dose.frequency is not None:
        yield from _frequency(dose.frequency)
    if dose.lasting is not None:
        value = dose.lasting.value
        yield _amount("for", Range(value, value), dose.lasting.unit.name if dose.lasting.unit else "")
    if dose.supervised is not None:
        count = Decimal(dose.supervised)
        yield _amount("supervised-sessions", Range(count, count), "", "{session}")


def _volume(volume: Volume) -> Iterator[Measure]:
    if isinstance(volume, SetsOf):
        count = Decimal(len(volume.counts))
        yield _amount("sets", Range(count, count), "", "{set}")
        yield Measure("repetitions-by-set", text=" then ".join(map(str, volume.counts)))
        return
    if isinstance(volume, Intervals):
        yield _amount("sets", volume.rounds, "", "{set}")
        yield Measure("stretches", text=legs_text(volume))
        return
    yield from _sets(volume)


def _sets(volume: Sets) -> Iterator[Measure]:
    yield _amount("sets", volume.sets, "", "{set}")
    if volume.amount is None:
        yield Measure("until-tired", text="yes")
    else:
        yield _amount(_BY_UNIT.get(volume.unit, "distance"), volume.amount, volume.unit)


def _repetition(repetition: Repetition) -> Iterator[Measure]:
    for name, seconds in (("lift", repetition.lift), ("hold", repetition.hold), ("lower", repetition.lower)):
        if seconds is not None:
            yield _amount(name, seconds, "s")
    if repetition.settled:
        yield Measure("until-settled", text=", ".join(repetition.settled))


def _rest(rest: Rest) -> Measure:
    return Measure("rest-until-settled", text="yes") if rest.seconds is None else _amount("rest", rest.seconds, "s")


def _load(load: Load) -> Iterator[Measure]:
    if load.weight is not None:
        value = load.weight.value
        yield _amount("load", Range(value, value), load.weight.unit.name if load.weight.unit else "")
    if load.percent is not None:
        yield _amount("load-percent", Range(load.percent, load.percent), "%")
        yield Measure("load-percent-of", text=load.of or "1RM")
    if load.maximum is not None:
        count = Decimal(load.maximum)
        yield _amount("load-repetition-maximum", Range(count, count), "reps")
    if load.name is not None:
        yield Measure("load-thing", text=load.name)
    if load.up_to is not None:
        value = load.up_to.value
        yield _amount("load-limit", Range(value, value), load.up_to.unit.name if load.up_to.unit else "")


def _frequency(often: Frequency) -> Iterator[Measure]:
    if often.times_a_day is not None:
        yield _amount("times-a-day", often.times_a_day, "", "/d")
    if often.days_a_week is not None:
        yield _amount("days-a-week", often.days_a_week, "", "d/wk")
    if often.every_hours is not None:
        hours = Decimal(often.every_hours)
        yield _amount("every-hours", Range(hours, hours), "hours")
    if often.every_other_day:
        yield Measure("every-other-day", text="yes")
    if often.rest_day_between:
        yield Measure("rest-day-between", text="yes")


def _amount(name: str, amount: Range, unit: str, ucum: str = "") -> Measure:
    return Measure(name, amount.low, amount.high, unit, ucum or (UNITS[unit].ucum if unit else "1"))


def _which(sides: str, side: str | None) -> str:
    """`affected` and `other` by name where the affected side is known."""
    if side not in _OTHER or sides not in ("affected", "other"):
        return sides
    return side if sides == "affected" else _OTHER[side]


