"""What one dose comes to: repetitions, sets, time under tension and time with rests, in a session, a day and a week.

Published totals of repetitions use the upper end of a range (Cuthbert M, et al. Sports Med 2020;50:83-99, table 2), so
both ends are kept.
"""

from __future__ import annotations

from dataclasses import dataclass
from decimal import Decimal

from protodsl.model.dose import Dose, Frequency, Intervals, Range, Repetition, Sets, SetsOf
from protodsl.units import UNITS

# Used only where a protocol says no tempo: 1 to 2 s up and 1 to 2 s down is a moderate speed
# (American College of Sports Medicine. Med Sci Sports Exerc 2009;41:687-708), taken at its slow end.
SECONDS_A_REPETITION = Decimal(4)

_DAYS = Decimal(7)
_ZERO = Range(Decimal(0), Decimal(0))


@dataclass(frozen=True, slots=True)
class Totals:
    """What a dose comes to in a stretch of time.

    `repetitions` of one side, None where the dose has none (time, distance) or no end (until tired); `sets` of one
    side; `tension` seconds of one side under load, None where no tempo or time was written; `seconds` with rests and
    both sides, None where it cannot be timed. `assumed` is True where a speed of repetition had to be assumed.
    """

    repetitions: Range | None
    sets: Range
    tension: Range | None
    seconds: Range | None
    assumed: bool = False


def session(dose: Dose) -> Totals:
    """What one session of a dose comes to; between n sets there are n - 1 rests, and two sides are worked in turn."""
    sets = sets_of(dose)
    repetitions = repetitions_of(dose)
    work, assumed = _work(dose)
    tension = None if assumed else work
    seconds = work
    if seconds is not None and dose.sides == "each":
        seconds = _times(seconds, Range(Decimal(2), Decimal(2)))
    if seconds is not None and dose.rest is not None:
        pauses = Range(max(sets.low - 1, Decimal(0)), max(sets.high - 1, Decimal(0)))
        if dose.rest.seconds is not None:
            seconds = _plus(seconds, _times(dose.rest.seconds, pauses))
        elif pauses.high > 0:
            seconds = None
    return Totals(repetitions, sets, tension, seconds, assumed)


def day(dose: Dose) -> Totals:
    """What a training day comes to: the session as often as the dose says; by the hour it is not timed or counted."""
    one = session(dose)
    often = times_a_day(dose.frequency)
    if often is None:
        return Totals(None, one.sets, None, None, one.assumed)
    return _repeated(one, often)


def week(dose: Dose) -> Totals:
    """What a week comes to: a training day as often as the dose says."""
    return _repeated(day(dose), days_a_week(dose.frequency))


def times_a_day(frequency: Frequency | None) -> Range | None:
    """Sessions on a training day: 1 where nothing was said, None where it goes by the hour."""
    if frequency is None or (frequency.times_a_day is None and frequency.every_hours is None):
        return Range(Decimal(1), Decimal(1))
    return None if frequency.every_hours is not None else frequency.times_a_day


def days_a_week(frequency: Frequency | None) -> Range:
    """Training days in a week: 7 where nothing was said; every other day is 3 to 4, 3.5 in the long run."""
    if frequency is None:
        return Range(_DAYS, _DAYS)
    if frequency.days_a_week is not None:
        return frequency.days_a_week
    if frequency.every_other_day or frequency.rest_day_between:
        return Range(Decimal(3), Decimal(4))
    return Range(_DAYS, _DAYS)


def is_with_us(dose: Dose) -> bool:
    """Whether every session of the week is a supervised one, or no other was said: then none is left for home."""
    often = dose.frequency
    if dose.supervised is None or often is None:
        return dose.supervised is not None
    times = often.times_a_day.high if often.times_a_day is not None else 1
    return often.every_hours is None and days_a_week(often).high * times <= dose.supervised


def sets_of(dose: Dose) -> Range:
    """Sets of one side in a session; 0 where no volume was said."""
    volume = dose.volume
    if isinstance(volume, Sets):
        return volume.sets
    if isinstance(volume, SetsOf):
        return Range(Decimal(len(volume.counts)), Decimal(len(volume.counts)))
    return volume.rounds if isinstance(volume, Intervals) else _ZERO


def repetitions_of(dose: Dose) -> Range | None:
    """Repetitions of one side in a session; None for time, distance, intervals, and until tired."""
    volume = dose.volume
    if isinstance(volume, SetsOf):
        total = Decimal(sum(volume.counts))
        return Range(total, total)
    if isinstance(volume, Sets) and volume.unit == "reps" and volume.amount is not None:
        return _times(volume.sets, volume.amount)
    return None


def seconds_a_repetition(repetition: Repetition | None) -> Range | None:
    """Seconds of one repetition as written; None where no tempo was written or a part lasts until it settles."""
    if repetition is None or repetition.settled:
        return None
    parts = [part for part in (repetition.lift, repetition.hold, repetition.lower) if part is not None]
    total = _ZERO
    for part in parts:
        total = _plus(total, part)
    return total if parts else None


def volume_load(dose: Dose, kilograms: Decimal) -> Range | None:
    """Sets times repetitions times load, in kg, of one side in a session; None without repetitions."""
    repetitions = repetitions_of(dose)
    return None if repetitions is None else _times(repetitions, Range(kilograms, kilograms))


def _work(dose: Dose) -> tuple[Range | None, bool]:
    """Seconds of work of one side in a session, and whether a speed was assumed."""
    volume = dose.volume
    if isinstance(volume, Intervals):
        return _intervals(volume), False
    if isinstance(volume, Sets) and volume.unit in ("s", "min"):
        if volume.amount is None:
            return None, False
        factor = UNITS[volume.unit].factor
        return _times(_times(volume.sets, volume.amount), Range(factor, factor)), False
    repetitions = repetitions_of(dose)
    if repetitions is None or (dose.repetition is not None and dose.repetition.settled):
        return None, False
    tempo = seconds_a_repetition(dose.repetition)
    if tempo is None:
        return _times(repetitions, Range(SECONDS_A_REPETITION, SECONDS_A_REPETITION)), True
    return _times(repetitions, tempo), False


def _intervals(volume: Intervals) -> Range | None:
    """Seconds of all rounds; None where a leg is a distance."""
    total = Decimal(0)
    for leg in volume.legs:
        if leg.amount.dimension != "time" or leg.amount.unit is None:
            return None
        total += leg.amount.value * leg.amount.unit.factor
    return _times(volume.rounds, Range(total, total))


def _repeated(one: Totals, often: Range) -> Totals:
    return Totals(
        None if one.repetitions is None else _times(one.repetitions, often),
        _times(one.sets, often),
        None if one.tension is None else _times(one.tension, often),
        None if one.seconds is None else _times(one.seconds, often),
        one.assumed,
    )


def _times(left: Range, right: Range) -> Range:
    return Range(left.low * right.low, left.high * right.high)


def _plus(left: Range, right: Range) -> Range:
    return Range(left.low + right.low, left.high + right.high)
