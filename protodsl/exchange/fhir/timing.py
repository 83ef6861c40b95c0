"""When an exercise is done, as Timing (hl7.org/fhir/R5/datatypes.html#Timing)."""

from __future__ import annotations

from decimal import Decimal

from protodsl.dose.totals import days_a_week
from protodsl.dose.weekdays import WEEK
from protodsl.exchange.doses import Stretch
from protodsl.exchange.fhir.amounts import number, quantity
from protodsl.exchange.fhir.release import Json
from protodsl.exchange.speech import Speech
from protodsl.handout.dosage import Stretch as Weeks
from protodsl.handout.phrase import DoseInWords
from protodsl.model.dose import Dose, Frequency, Range

_DAYS = ("mon", "tue", "wed", "thu", "fri", "sat", "sun")
_ONE = Range(Decimal(1), Decimal(1))
_NONE = Frequency()


def planned(stretch: Stretch, days: tuple[int, ...], speech: Speech) -> Json:
    """The timing of one dose of a plan: its dates as bounds and weekdays, how often on each, for how long.

    The minutes are those of a whole day, so they are a `duration` only where it is done once a day.
    """
    often = stretch.dose.frequency or _NONE
    repeat: Json = {"boundsPeriod": {"start": stretch.first.isoformat(), "end": stretch.last.isoformat()}}
    times = often.times_a_day or _ONE
    once = often.every_hours is None and times == _ONE
    if often.every_hours is None and times.low == times.high and stretch.dates:
        repeat["count"] = len(stretch.dates) * int(times.low)
    if once and stretch.minutes:
        repeat |= {"duration": number(stretch.minutes), "durationUnit": "min"}
    repeat |= _often_a_day(often)
    if 0 < len(days) < WEEK:
        repeat["dayOfWeek"] = [_DAYS[day] for day in days]
    return {"repeat": repeat, **_words(stretch.dose, speech)}


def defined(weeks: Weeks, speech: Speech) -> Json:
    """The timing of one dose of a protocol, where no date is known; nothing where it says nothing of time.

    `3 times a day, 3 days a week` is 9 times a week here: FHIR counts in one period only. The words say it whole.
    """
    repeat: Json = {}
    lasting = weeks.dose.lasting
    if weeks.last is not None:
        repeat["boundsDuration"] = quantity(Decimal(weeks.last - weeks.first + 1), "weeks", "wk")
    elif lasting is not None and lasting.unit is not None:
        repeat["boundsDuration"] = quantity(lasting.value, lasting.unit.name, lasting.unit.ucum)
    if weeks.dose.frequency is not None:
        repeat |= _often(weeks.dose.frequency)
    return {"repeat": repeat, **_words(weeks.dose, speech)} if repeat else {}


def _often(often: Frequency) -> Json:
    """How often, in the shortest period that holds it whole."""
    if often.every_hours is not None:
        return _often_a_day(often)
    times = often.times_a_day or _ONE
    if often.every_other_day:
        return {**_frequency(times), "period": 2, "periodUnit": "d"}
    days = days_a_week(often)
    if days.low == WEEK:
        return _often_a_day(often)
    week = Range(times.low * days.low, times.high * days.high)
    return {**_frequency(week), "period": 1, "periodUnit": "wk"}


def _often_a_day(often: Frequency) -> Json:
    if often.every_hours is not None:
        return {"frequency": 1, "period": often.every_hours, "periodUnit": "h"}
    return {**_frequency(often.times_a_day or _ONE), "period": 1, "periodUnit": "d"}


def _frequency(times: Range) -> Json:
    return {"frequency": int(times.low), **({"frequencyMax": int(times.high)} if times.high > times.low else {})}


def _words(dose: Dose, speech: Speech) -> Json:
    said = speech.words(DoseInWords(dose, "frequency"))
    return {"code": {"text": said}} if said else {}
