"""The load of a dose: a weight, a share of a finding or of nRM, nRM, a band, body weight."""

from __future__ import annotations

import re

from protodsl.diagnostics import kinds as say
from protodsl.model.dose import Load
from protodsl.model.finding import Kind
from protodsl.resolve.names import Names
from protodsl.resolve.quantities import counted, quantity_in
from protodsl.syntax import tree
from protodsl.units import Quantity, plain

BODY_WEIGHT = "body weight"
ONE_RM = "1RM"
_MAXIMUM = re.compile(r"[1-9]\d*RM")


def load(part: tree.Load, names: Names) -> Load | None:
    """A load; None where it is wrong, and it is said why."""
    up_to = weight(part.up_to, names) if part.up_to else None
    if part.up_to and up_to is None:
        return None
    if part.percent is not None:
        return _share(part, up_to, names)
    if part.maximum is not None:
        written = f"{part.maximum}RM"
        if not counted(part.maximum, 1, written, "a load is lifted at least once", part, names):
            return None
        return Load(maximum=part.maximum, up_to=up_to)
    added = weight(part.amount, names) if part.amount else None
    if part.amount and added is None:
        return None
    if part.name is None:
        return Load(weight=added, up_to=up_to)
    if part.name.text != BODY_WEIGHT and names.known("equipment", part.name) is None:
        return None
    return Load(name=part.name.text, weight=added, up_to=up_to)


def weight(amount: tree.Amount, names: Names) -> Quantity | None:
    """A weight, not below nothing; None where it is none, and it is said why."""
    found = quantity_in(amount, ("mass",), "a load", "a weight", "load 5 kg", names)
    if found is not None and found.value < 0:
        why = "a load is at least 0"
        names.say(say.impossible_number(str(found), why, "write the weight without the minus", amount.span))
        return None
    return found


def _share(part: tree.Load, up_to: Quantity | None, names: Names) -> Load | None:
    assert part.percent is not None
    if part.percent <= 0:
        why = "a share is more than 0 %"
        names.say(say.impossible_number(f"{plain(part.percent)} %", why, "write the share that is meant", part.span))
        return None
    of = part.of
    if of is not None and not _MAXIMUM.fullmatch(of.text):
        symbol = names.finding(of)
        if symbol is None:
            return None
        answer = symbol.answer
        if answer is not None and answer.kind is not Kind.MEASURE:
            names.say(say.needs_number(symbol.name, "a share of a load", of.span, symbol.span))
            return None
        if answer is not None and answer.unit is not None and answer.unit.dimension != "mass":
            dimension = answer.unit.dimension
            names.say(say.wrong_unit(symbol.name, dimension, "a load", "a weight", "load 70 % of 1RM", of.span))
            return None
    return Load(percent=part.percent, of=of.text if of else ONE_RM, up_to=up_to)
