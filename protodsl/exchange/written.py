"""Conditions and parts of a dose in the one spelling of the language, from what they mean."""

from __future__ import annotations

from protodsl.model.condition import (
    All,
    AnyOf,
    AtLeast,
    Change,
    Compare,
    Condition,
    Constant,
    Difference,
    Elapsed,
    Fact,
    IsOneOf,
    Measured,
    Not,
    Side,
    Symmetry,
    Term,
)
from protodsl.model.dose import Intervals, Load, Range, SetsOf, Volume
from protodsl.units import Quantity, plain

_BARE_SIDES = (Side.EACH, Side.EITHER)


def condition_text(condition: Condition, streak: int = 1, unless: bool = False) -> str:
    """A condition as it is written behind `if`, with `N sessions in a row`; behind `unless` it is turned round."""
    text = _condition(Not(condition) if unless else condition)
    return text if streak == 1 else f"{text}, {streak} sessions in a row"


def volume_text(volume: Volume) -> str:
    """How much: `3 x 12`, `20 min`, `12 then 10 then 8`, `5 x (4 min walk + 1 min run)`."""
    if isinstance(volume, SetsOf):
        return " then ".join(map(str, volume.counts))
    if isinstance(volume, Intervals):
        return f"{range_text(volume.rounds)} x ({legs_text(volume)})"
    times = "" if volume.bare else f"{range_text(volume.sets)} x "
    if volume.amount is None:
        return f"{times}to fatigue"
    unit = "" if volume.unit == "reps" and not volume.bare else f" {volume.unit}"
    return times + range_text(volume.amount) + unit


def legs_text(volume: Intervals) -> str:
    """The stretches of an interval: `4 min walk + 1 min run`."""
    return " + ".join(f"{leg.amount} {leg.activity}" for leg in volume.legs)


def load_text(load: Load) -> str:
    """What is lifted: `5 kg`, `70 % of 1RM`, `8RM`, `medium band up to 5 kg`."""
    if load.percent is not None:
        what = f"{plain(load.percent)} % of {load.of or '1RM'}"
    elif load.maximum is not None:
        what = f"{load.maximum}RM"
    elif load.name is not None:
        what = load.name + (_added(load.weight) if load.weight else "")
    else:
        what = str(load.weight) if load.weight else ""
    return what + (f" up to {load.up_to}" if load.up_to else "")


def range_text(amount: Range) -> str:
    """One number, or `low to high`."""
    return plain(amount.low) if amount.low == amount.high else f"{plain(amount.low)} to {plain(amount.high)}"


def _condition(node: Condition) -> str:
    match node:
        case Fact():
            return node.finding + _side(node.side)
        case Not(of=Fact() as fact):
            return f"not {_condition(fact)}"
        case Not():
            return f"not ({_condition(node.of)})"
        case All():
            return " and ".join(map(_bracketed, node.of))
        case AnyOf():
            return " or ".join(map(_bracketed, node.of))
        case AtLeast():
            return f"at least {node.count} of ({', '.join(map(_condition, node.of))})"
        case IsOneOf(values=(value,)):
            return f"{node.finding} is {'not ' if node.negated else ''}{value}{_side(node.side)}"
        case IsOneOf():
            text = f"{node.finding} is one of ({', '.join(node.values)}){_side(node.side)}"
            return f"not ({text})" if node.negated else text
        case Compare(left=Elapsed() as gone, right=Constant() as right):
            return f"{_term(gone)} {node.op} {_gone(gone, right.quantity)}"
        case Compare():
            return f"{_term(node.left)} {node.op} {_term(node.right)}{_side(node.side)}"


def _bracketed(node: Condition) -> str:
    text = _condition(node)
    return f"({text})" if isinstance(node, (All, AnyOf)) else text


def _term(term: Term) -> str:
    match term:
        case Measured():
            return term.finding + (_added(term.plus) if term.plus else "")
        case Constant():
            # The offset of a setting is already in its value: it is the value that is written then.
            return _quantity(term.quantity)
        case Symmetry():
            return f"symmetry of {term.finding}"
        case Difference():
            return f"difference of {term.finding}"
        case Change():
            return f"change of {term.finding} since {'start' if term.since == 'start' else 'last time'}"
        case Elapsed():
            return f"{'weeks' if term.unit.startswith('week') else 'days'} since {term.since}"


def _gone(term: Elapsed, amount: Quantity) -> str:
    """Weeks or days that have gone by, bare where they are counted in that unit."""
    same = amount.unit is None or amount.unit.name.rstrip("s") == term.unit.rstrip("s")
    return plain(amount.value) if same else str(amount)


def _quantity(amount: Quantity) -> str:
    """A quantity; a count is written bare."""
    return plain(amount.value) if amount.unit is None or amount.unit.name == "count" else str(amount)


def _added(amount: Quantity) -> str:
    sign = "-" if amount.value < 0 else "+"
    return f" {sign} {_quantity(Quantity(abs(amount.value), amount.unit))}"


def _side(side: Side | None) -> str:
    if side is None:
        return ""
    return f" on {side.value} side" if side in _BARE_SIDES else f" on the {side.value} side"


