"""A dose as a few plain sentences for a card, and in short for a table: every part that was written, none left out."""

from __future__ import annotations

from collections.abc import Callable
from decimal import Decimal

from protodsl.localise import escape, numbers
from protodsl.localise.clause import measure
from protodsl.localise.voice import Voice
from protodsl.model import named
from protodsl.model.dose import (
    Dose,
    Effort,
    Frequency,
    Intervals,
    Load,
    Range,
    Repetition,
    Rest,
    Sets,
    SetsOf,
    Volume,
)
from protodsl.units import UNITS, Quantity

_ONE = Range(Decimal(1), Decimal(1))
_DAYS = Decimal(7)
_ONE_REP_MAX = "1RM"
_BRIEF = ("volume", "load")


def sentences(voice: Voice, dose: Dose, side: str | None = None) -> str:
    """The whole dose in sentences, in one order: volume, rest, tempo, sides, load, effort, frequency, how long."""
    voice = voice.about(side)
    said: list[str] = [_volume(voice, dose.volume, dose.rest)]
    if dose.repetition is not None:
        said.append(voice.say("dose.tempo", parts=_tempo(voice, dose.repetition)))
    if dose.sides is not None:
        said.append(voice.say(f"dose.sides.{voice.which(dose.sides)}"))
    if dose.load is not None:
        said.append(_load(voice, dose.load, "dose"))
    if dose.effort is not None:
        said.append(_effort(voice, dose.effort, "dose"))
    if dose.frequency is not None:
        said.append(voice.say("dose.frequency", often=_frequency(voice, dose.frequency)))
    if dose.lasting is not None:
        said.append(voice.say("dose.lasting", time=voice.quantity(dose.lasting)))
    if dose.supervised is not None:
        said.append(voice.say("dose.supervised", Decimal(dose.supervised)))
    return joined(voice, [one for one in said if one])


def short(voice: Voice, dose: Dose, group: str, side: str | None = None) -> str:
    """One group in short (`short`: all in one line, `brief`: volume and load); empty where the dose does not say it."""
    voice = voice.about(side)
    if group in _CELLS:
        return _CELLS[group](voice, dose)
    if group not in ("short", "brief"):
        return _SHORT[group](voice, dose)
    said = [form(voice, dose) for name, form in _SHORT.items() if group == "short" or name in _BRIEF]
    return commas(voice, [one for one in said if one])


def joined(voice: Voice, parts: list[str]) -> str:
    """Sentences one after the other."""
    return _folded(voice, "list.sentences", parts)


def commas(voice: Voice, parts: list[str]) -> str:
    """Short forms one after the other."""
    return _folded(voice, "list.commas", parts)


def then(voice: Voice, parts: list[str]) -> str:
    """Things done in turn: `12, then 10, then 8`."""
    return _folded(voice, "list.then", parts)


def later(voice: Voice, parts: list[str]) -> str:
    """Things of which only one is done at a time: `6, later 7, later 8`."""
    return _folded(voice, "list.later", parts)


def _folded(voice: Voice, key: str, parts: list[str]) -> str:
    text = parts[0] if parts else ""
    for part in parts[1:]:
        text = voice.say(key, first=text, second=part)
    return text


def _volume(voice: Voice, volume: Volume | None, rest: Rest | None) -> str:
    """How many rounds of what, with the rest between them; where nothing is said of rounds, the rest by itself."""
    if isinstance(volume, Sets) and volume.sets != _ONE:
        return _rounds(voice, volume, rest)
    where = "rounds" if volume is None else "between"
    pause = "" if rest is None else voice.say(f"dose.rest.{where}.{_rest_kind(rest)}", rest=_rest(voice, rest))
    return joined(voice, [one for one in (_once(voice, volume) if volume else "", pause) if one])


def _once(voice: Voice, volume: Volume) -> str:
    """What is done, as one sentence."""
    if isinstance(volume, SetsOf):
        counts = then(voice, [voice.number(Decimal(count)) for count in volume.counts])
        return voice.say("dose.do.each", Decimal(volume.counts[-1]), counts=counts)
    if isinstance(volume, Intervals):
        return _legs(voice, volume, "dose")
    if volume.amount is None:
        return voice.say("dose.do.tired")
    return voice.say(f"dose.do.{_kind(volume.unit)}", amount=voice.amount(volume.amount, UNITS[volume.unit]))


def _rounds(voice: Voice, volume: Sets, rest: Rest | None) -> str:
    """`Do 3 rounds of 15 repetitions, with 1 minute of rest in between.`"""
    count = numbers.range_of(voice.catalogue, volume.sets)
    pause = "none" if rest is None else _rest_kind(rest)
    values = {"count": count, "rest": _rest(voice, rest) if rest else ""}
    if volume.amount is None:
        return voice.say(f"dose.rounds.tired.{pause}", volume.sets.high, **values)
    amount = voice.amount(volume.amount, UNITS[volume.unit])
    return voice.say(f"dose.rounds.{pause}", volume.sets.high, amount=amount, **values)


def _legs(voice: Voice, volume: Intervals, form: str) -> str:
    """`5 times: walk for 4 minutes, then run for 1 minute`; as a sentence (`dose`) or in a cell (`cell`)."""
    legs = _turns(voice, volume)
    if form == "dose" and volume.rounds == _ONE:
        return voice.say("dose.do.legs", legs=legs)
    count = numbers.range_of(voice.catalogue, volume.rounds)
    return voice.say(f"{form}.times.legs", volume.rounds.high, count=count, legs=legs)


def _turns(voice: Voice, volume: Intervals) -> str:
    """What is done in turn: `walk for 4 minutes, then run for 1 minute`."""
    return then(
        voice,
        [
            voice.say("dose.leg", amount=voice.quantity(leg.amount), activity=voice.prose(named.activity(leg)))
            for leg in volume.legs
        ],
    )


def _tempo(voice: Voice, repetition: Repetition) -> str:
    """The parts of a repetition in the order they are done."""
    times = (("lift", repetition.lift), ("hold", repetition.hold), ("lower", repetition.lower))
    parts = []
    for name, time in times:
        if name in repetition.settled:
            parts.append(voice.say(f"dose.{name}.settled"))
        elif time is not None:
            parts.append(voice.say(f"dose.{name}", time=voice.amount(time, UNITS["s"])))
    return commas(voice, parts)


def _rest_kind(rest: Rest) -> str:
    return "settled" if rest.seconds is None else "timed"


def _rest(voice: Voice, rest: Rest) -> str:
    return "" if rest.seconds is None else duration(voice, rest.seconds)


def duration(voice: Voice, seconds: Range) -> str:
    """A time, in minutes where both ends are whole minutes: `30 seconds`, `2 minutes`, `1 to 2 minutes`."""
    minute = UNITS["min"].factor
    if seconds.low >= minute and seconds.low % minute == 0 and seconds.high % minute == 0:
        return voice.amount(Range(seconds.low / minute, seconds.high / minute), UNITS["min"])
    return voice.amount(seconds, UNITS["s"])


def _load(voice: Voice, load: Load, form: str) -> str:
    """The load, as a sentence (`dose`) or in short (`short`), with its bound."""
    text = _bare_load(voice, load, form)
    if load.up_to is None:
        return text
    return voice.say(f"{form}.load.bound", load=text, most=voice.quantity(load.up_to))


def _bare_load(voice: Voice, load: Load, form: str) -> str:
    if load.maximum is not None:
        return voice.say(f"{form}.load.maximum", Decimal(load.maximum))
    if load.percent is not None:
        percent = voice.quantity(Quantity(load.percent, UNITS["%"]))
        if load.of is None or load.of == _ONE_REP_MAX:
            return voice.say(f"{form}.load.percent.once", percent=percent)
        if load.of not in voice.scope.findings:
            times = Decimal(load.of.removesuffix("RM"))
            return voice.say(f"{form}.load.percent.maximum", times, percent=percent)
        return voice.say(f"{form}.load.percent", percent=percent, of=measure(voice, load.of).text)
    weight = "" if load.weight is None else voice.quantity(load.weight)
    if load.name is None:
        return voice.say(f"{form}.load.weight", weight=weight)
    if load.name == "body weight":
        return voice.say(f"{form}.load.body.plus" if weight else f"{form}.load.body", weight=weight)
    thing = voice.scope.equipment.get(load.name)
    name = escape.literal(load.name) if thing is None else voice.prose(thing.words)
    return voice.say(f"{form}.load.thing.plus" if weight else f"{form}.load.thing", thing=name, weight=weight)


def _effort(voice: Voice, effort: Effort, form: str) -> str:
    amount = numbers.range_of(voice.catalogue, effort.amount)
    if effort.reserve:
        return voice.say(f"{form}.reserve", effort.amount.high, count=amount)
    return voice.say(f"{form}.effort", amount=amount)


def _frequency(voice: Voice, often: Frequency) -> str:
    """How often, as phrases with commas: `3 times a day, 3 days a week, with a rest day between`."""
    parts = []
    if often.every_hours is not None:
        parts.append(voice.say("often.hours", Decimal(often.every_hours)))
    if often.times_a_day is not None:
        count = numbers.range_of(voice.catalogue, often.times_a_day)
        parts.append(voice.say("often.times", often.times_a_day.high, count=count))
    if often.days_a_week is not None:
        parts.append(_days(voice, often.days_a_week))
    if often.every_other_day:
        parts.append(voice.say("often.other"))
    if often.rest_day_between:
        parts.append(voice.say("often.between"))
    return commas(voice, parts)


def _days(voice: Voice, days: Range) -> str:
    if days.low == _DAYS:
        return voice.say("often.daily")
    return voice.say("often.days", days.high, count=numbers.range_of(voice.catalogue, days))


def _volume_of_rounds(voice: Voice, dose: Dose) -> str:
    """`3 rounds of 12`, for a table that somebody at home reads."""
    volume = dose.volume
    if isinstance(volume, Intervals):
        return _legs(voice, volume, "cell")
    if not isinstance(volume, Sets) or volume.bare or volume.amount is None:
        return _short_volume(voice, dose)
    amount = voice.amount(volume.amount, None if volume.unit == "reps" else UNITS[volume.unit])
    rounds = numbers.range_of(voice.catalogue, volume.sets)
    return voice.say("short.rounds", volume.sets.high, count=rounds, amount=amount)


def _short_volume(voice: Voice, dose: Dose) -> str:
    volume = dose.volume
    if volume is None:
        return ""
    if isinstance(volume, SetsOf):
        return then(voice, [voice.number(Decimal(count)) for count in volume.counts])
    if isinstance(volume, Intervals):
        rounds = numbers.range_of(voice.catalogue, volume.rounds)
        return voice.say("short.intervals", rounds=rounds, legs=_turns(voice, volume))
    if volume.amount is None:
        amount = voice.say("short.tired")
    elif volume.unit == "reps" and not volume.bare:
        amount = numbers.range_of(voice.catalogue, volume.amount)
    else:
        amount = voice.amount(volume.amount, UNITS[volume.unit])
    if volume.bare:
        return amount
    return voice.say("short.sets", rounds=numbers.range_of(voice.catalogue, volume.sets), amount=amount)


def _short_rest(voice: Voice, dose: Dose) -> str:
    if dose.rest is None:
        return ""
    return voice.say(f"short.rest.{_rest_kind(dose.rest)}", rest=_rest(voice, dose.rest))


def _kind(unit: str) -> str:
    """The family of sentences for a unit of volume."""
    dimension = UNITS[unit].dimension
    return {"count": "reps", "time": "time", "length": "distance"}.get(dimension, dimension)


def _cell_rest(voice: Voice, dose: Dose) -> str:
    """The rest alone: its column says what it is."""
    if dose.rest is None:
        return ""
    return voice.say("cell.rest.settled") if dose.rest.seconds is None else _rest(voice, dose.rest)


# What a cell of a table says where its column head already says a part of it.
_CELLS: dict[str, Callable[[Voice, Dose], str]] = {"volume": _volume_of_rounds, "rest": _cell_rest}

_SHORT: dict[str, Callable[[Voice, Dose], str]] = {
    "volume": _short_volume,
    "repetition": lambda voice, dose: _tempo(voice, dose.repetition) if dose.repetition else "",
    "rest": _short_rest,
    "sides": lambda voice, dose: voice.say(f"short.sides.{voice.which(dose.sides)}") if dose.sides else "",
    "load": lambda voice, dose: _load(voice, dose.load, "short") if dose.load else "",
    "effort": lambda voice, dose: _effort(voice, dose.effort, "short") if dose.effort else "",
    "frequency": lambda voice, dose: _frequency(voice, dose.frequency) if dose.frequency else "",
    "lasting": lambda voice, dose: (
        voice.say("short.lasting", time=voice.quantity(dose.lasting)) if dose.lasting else ""
    ),
    "supervised": lambda voice, dose: (
        voice.say("dose.supervised", Decimal(dose.supervised)) if dose.supervised is not None else ""
    ),
}
