"""A dose line: its parts sorted into groups, each group said once."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass, field
from decimal import Decimal
from typing import Any

from protodsl.diagnostics import kinds as say
from protodsl.model import dose as model
from protodsl.resolve.loads import load
from protodsl.resolve.names import Names
from protodsl.resolve.quantities import counted, ordered, quantity
from protodsl.source import Span
from protodsl.syntax import tree
from protodsl.units import plain

HOURS = ("hour", "hours")
_SECONDS = {"s": Decimal(1), "min": Decimal(60)}
_ONE, _ZERO = Decimal(1), Decimal(0)


@dataclass(slots=True)
class _Parts:
    """The groups found so far, and where each thing was said."""

    groups: dict[str, Any] = field(default_factory=dict)
    repetition: dict[str, Any] = field(default_factory=dict)
    frequency: dict[str, Any] = field(default_factory=dict)
    places: dict[str, Span] = field(default_factory=dict)

    def first(self, key: str, words: str, span: Span, names: Names) -> bool:
        """Whether nothing of this kind stands before; else it is said where."""
        before = self.places.setdefault(key, span)
        if before is not span:
            names.say(say.part_twice(words, span, before))
        return before is span


def dose(parts: tuple[tree.DosePart, ...], names: Names) -> model.Dose:
    """The parts of one dose line as groups; a part that is wrong is left out, and it is said why."""
    found = _Parts()
    for part in parts:
        _PARTS[type(part)](part, found, names)
    if found.repetition:
        found.groups["repetition"] = model.Repetition(**found.repetition)
    if found.frequency:
        found.groups["frequency"] = model.Frequency(**found.frequency)
    return model.Dose(**found.groups)


def _volume(part: tree.Sets | tree.SetsOf | tree.Intervals, found: _Parts, names: Names) -> None:
    if found.first("volume", "how much", part.span, names):
        found.groups["volume"] = volume(part, names)


def volume(part: tree.Sets | tree.SetsOf | tree.Intervals, names: Names) -> model.Volume | None:
    """How much: sets, or one amount, or intervals; None where it is wrong, and it is said why."""
    if isinstance(part, tree.Sets):
        return _sets(part, names)
    if isinstance(part, tree.SetsOf):
        written = " then ".join(str(count) for count in part.counts)
        if not counted(min(part.counts), 1, written, "a set has at least 1 repetition", part, names):
            return None
        return model.SetsOf(part.counts)
    rounds = ordered(part.rounds, names, what="the number of rounds")
    legs = [_leg(leg, names) for leg in part.legs]
    if rounds is None or None in legs:
        return None
    return model.Intervals(rounds, tuple([leg for leg in legs if leg is not None]))


def _sets(part: tree.Sets, names: Names) -> model.Sets | None:
    sets = model.Range(_ONE, _ONE) if part.sets is None else ordered(part.sets, names, what="the number of sets")
    amount, unit = None, part.unit or "reps"
    if part.amount is not None:
        amount = ordered(part.amount, names, _ZERO, "an amount")
        if amount is None or not positive(amount.low, part, names):
            return None
        if unit in HOURS:
            amount, unit = model.Range(amount.low * 60, amount.high * 60), "min"
    return None if sets is None else model.Sets(sets, amount, unit, part.sets is None)


def _leg(leg: tree.Leg, names: Names) -> model.Leg | None:
    if not positive(leg.amount.value, leg, names):
        return None
    return model.Leg(quantity(leg.amount), leg.activity.text, span=leg.activity.span)


def _timing(part: tree.Timing, found: _Parts, names: Names) -> None:
    if not found.first(part.phase, f"`{part.phase}`", part.span, names):
        return
    if part.seconds is None:
        found.repetition["settled"] = (*found.repetition.get("settled", ()), part.phase)
        return
    seconds = ordered(part.seconds, names, _ZERO, f"`{part.phase}`")
    if seconds is not None:
        found.repetition[part.phase] = seconds


def _rest(part: tree.Rest, found: _Parts, names: Names) -> None:
    if not found.first("rest", "the rest", part.span, names):
        return
    if part.amount is None:
        found.groups["rest"] = model.Rest(None)
        return
    amount = ordered(part.amount, names, _ZERO, "a rest")
    if amount is None:
        return
    factor = _SECONDS.get(part.unit or "")
    if factor is None:  # the parser has said so
        return
    found.groups["rest"] = model.Rest(model.Range(amount.low * factor, amount.high * factor))


def _sides(part: tree.Sides, found: _Parts, names: Names) -> None:
    if found.first("sides", "the side", part.span, names):
        found.groups["sides"] = part.which


def _load(part: tree.Load, found: _Parts, names: Names) -> None:
    if found.first("load", "the load", part.span, names):
        found.groups["load"] = load(part, names)


def _effort(part: tree.Effort, found: _Parts, names: Names) -> None:
    if not found.first("effort", "the effort", part.span, names):
        return
    amount = ordered(part.amount, names, _ZERO, "the effort")
    if amount is None:
        return
    reserve = part.form == "reserve"
    if not reserve and amount.high > 10:
        why = "effort goes from 0 to 10"
        names.say(say.impossible_number(plain(amount.high), why, "write a number from 0 to 10", part.span))
        return
    found.groups["effort"] = model.Effort(amount, reserve)


def _often(part: tree.Often, found: _Parts, names: Names) -> None:
    key, words = _OFTEN[part.form]
    if not found.first(key, words, part.span, names):
        return
    if part.amount is None:
        found.frequency.update(_PLAIN[part.form])
        return
    amount = ordered(part.amount, names, what="how often")
    if amount is None:
        return
    if part.form == "days a week" and amount.high > 7:
        why = "a week has 7 days"
        names.say(say.impossible_number(plain(amount.high), why, "write a number from 1 to 7", part.span))
        return
    if part.form == "every hours":
        found.frequency["every_hours"] = int(amount.low)
    else:
        found.frequency["days_a_week" if part.form == "days a week" else "times_a_day"] = amount


_PLAIN: dict[str, dict[str, Any]] = {
    "daily": {"days_a_week": model.Range(Decimal(7), Decimal(7))},
    "hourly": {"every_hours": 1},
    "every other day": {"every_other_day": True},
    "rest day between": {"rest_day_between": True},
}

# What each form speaks of: two forms under one key contradict each other in one line.
_OFTEN: dict[str, tuple[str, str]] = {
    "daily": ("days", "on which days"),
    "days a week": ("days", "on which days"),
    "every other day": ("days", "on which days"),
    "times a day": ("times", "how often a day"),
    "hourly": ("times", "how often a day"),
    "every hours": ("times", "how often a day"),
    "rest day between": ("rest day", "`rest day between`"),
}


def _supervised(part: tree.Supervised, found: _Parts, names: Names) -> None:
    if not found.first("supervised", "how many are supervised", part.span, names):
        return
    if counted(part.count, 1, f"{part.count} supervised", "at least one is supervised", part, names):
        found.groups["supervised"] = part.count


def _lasting(part: tree.Lasting, found: _Parts, names: Names) -> None:
    if not found.first("lasting", "for how long", part.span, names):
        return
    if positive(part.amount.value, part, names):
        found.groups["lasting"] = quantity(part.amount)


def positive(amount: Decimal, node: tree.Node, names: Names) -> bool:
    """Whether an amount is more than nothing; else it is said."""
    if amount > 0:
        return True
    why = "it has to be more than 0"
    names.say(say.impossible_number(plain(amount), why, "write the number that is meant", node.span))
    return False


_PARTS: dict[type, Callable[[Any, _Parts, Names], None]] = {
    tree.Sets: _volume,
    tree.SetsOf: _volume,
    tree.Intervals: _volume,
    tree.Timing: _timing,
    tree.Rest: _rest,
    tree.Sides: _sides,
    tree.Load: _load,
    tree.Effort: _effort,
    tree.Often: _often,
    tree.Supervised: _supervised,
    tree.Lasting: _lasting,
}
