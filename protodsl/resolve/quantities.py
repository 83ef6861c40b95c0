"""Amounts with their units: what a line wants, and what was written."""

from __future__ import annotations

from collections.abc import Collection
from decimal import Decimal

from protodsl.diagnostics import kinds as say
from protodsl.model.dose import Range
from protodsl.resolve.names import Names
from protodsl.syntax import tree
from protodsl.units import UNITS, Quantity, Unit, plain


def quantity(amount: tree.Amount) -> Quantity:
    """The quantity as written."""
    return Quantity(amount.value, UNITS[amount.unit] if amount.unit else None)


def quantity_in(
    amount: tree.Amount, dimensions: Collection[str], what: str, needs: str, example: str, names: Names
) -> Quantity | None:
    """The quantity where it is of one of the dimensions; else None, and why.

    `what` and `needs` finish the sentence "... is a length, but WHAT is NEEDS"; `example` ends in the likely unit.
    """
    found = quantity(amount)
    if found.dimension in dimensions:
        return found
    if found.unit is None:
        names.say(say.missing_unit(plain(amount.value), example.rsplit(" ", 1)[-1], amount.span, what))
    else:
        names.say(say.wrong_unit(str(found), found.dimension, what, needs, example, amount.span))
    return None


def fits(amount: tree.Amount, unit: Unit | None, what: str, names: Names) -> Quantity | None:
    """The amount as something that can be compared with a value in `unit` (None: a point on a scale); else None.

    A bare number counts where the value is a count.
    """
    found = quantity(amount)
    if found.dimension == (unit.dimension if unit else "number"):
        return found
    if unit is not None and found.unit is None:
        if unit.dimension == "count":
            return Quantity(found.value, unit)
        names.say(say.missing_unit(plain(amount.value), unit.name, amount.span, f"`{what}`"))
        return None
    wanted = unit.dimension if unit else "scale"
    names.say(say.different_dimensions(what, wanted, str(found), found.dimension, amount.span, ()))
    return None


def ordered(written: tree.Range, names: Names, least: Decimal = Decimal(1), what: str = "") -> Range | None:
    """A range that is at least `least`, else None, and why; one that runs backwards has been reported by the parser."""
    if written.low > written.high:
        return None
    if written.low < least:
        why = f"{what or 'this'} is at least {plain(least)}"
        names.say(say.impossible_number(plain(written.low), why, "write the number that is meant", written.span))
        return None
    return Range(written.low, written.high)


def counted(number: int, least: int, written: str, why: str, node: tree.Node, names: Names) -> bool:
    """Whether a count is at least `least`; else it is said why not."""
    if number >= least:
        return True
    names.say(say.impossible_number(written, why, "write the number that is meant", node.span))
    return False
