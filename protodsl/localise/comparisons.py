"""Comparisons in words: a measure, symmetry, difference, change or time gone by, against a value or another measure."""

from __future__ import annotations

from protodsl.localise.clause import Clause, measure, side_words, turned
from protodsl.localise.voice import Voice
from protodsl.model.condition import (
    Change,
    Compare,
    Constant,
    Difference,
    Elapsed,
    Measured,
    Side,
    Symmetry,
    Term,
)
from protodsl.model.finding import Kind
from protodsl.units import UNITS, Quantity

# The message for each sign, and the sign of the opposite.
_NAMES = {">=": "ge", ">": "gt", "<=": "le", "<": "lt", "=": "eq", "!=": "ne"}
_OPPOSITE = {">=": "<", "<": ">=", ">": "<=", "<=": ">", "=": "!="}
_OTHER = {Side.AFFECTED: "other", Side.OTHER: "affected", Side.LEFT: "right", Side.RIGHT: "left"}


def compared(voice: Voice, node: Compare, negated: bool) -> Clause:
    """A comparison as a clause; negated, the sign and the quantity of sides turn round."""
    sign = _OPPOSITE[node.op] if negated else node.op
    side = turned(node.side, negated)
    if isinstance(node.left, Elapsed) and _counts(node.left, node.right):
        return _elapsed(voice, node.left, sign, node.right)
    if isinstance(node.left, Symmetry):
        return _symmetry(voice, node.left, sign, node.right, side or Side.AFFECTED)
    if isinstance(node.left, Change) and isinstance(node.right, Constant):
        moved = _moved(voice, node.left, sign, node.right.quantity, side)
        if moved is not None:
            return moved
    left = _term(voice, node.left, side)
    right = _term(voice, node.right, side)
    high = _scale_end(voice, node.left) if isinstance(node.right, Constant) else None
    kind = "measure" if not isinstance(node.right, Constant) else "value" if high is None else "scale"
    of_a_side = None if isinstance(node.left, Difference) else side
    return _framed(voice, f"compare.{_NAMES[sign]}.{kind}", left, right, of_a_side, high or "")


def _framed(voice: Voice, key: str, left: Clause, right: Clause, side: Side | None, high: str = "") -> Clause:
    """The frame of a comparison with its two terms, with the side where one is looked at, and the end of a scale."""
    joins = left.joins | right.joins
    if side is None:
        return Clause(voice.say(key, left=left.text, right=right.text, high=high), joins)
    words = side_words(voice, side)
    return Clause(voice.say(f"{key}.sided", left=left.text, right=right.text, side=words, high=high), joins)


def _term(voice: Voice, term: Term, side: Side | None) -> Clause:
    """A term as a noun."""
    if isinstance(term, Constant):
        return Clause(voice.quantity(term.quantity))
    if isinstance(term, Elapsed):
        event = _event(voice, term)
        return Clause(voice.say(f"elapsed.{_unit(term)}.count", event=event.text), event.joins)
    of = measure(voice, term.finding)
    if isinstance(term, Measured):
        if term.plus is None:
            return of
        key = "term.minus" if term.plus.value < 0 else "term.plus"
        by = voice.quantity(Quantity(abs(term.plus.value), term.plus.unit))
        return Clause(voice.say(key, measure=of.text, amount=by), of.joins)
    if isinstance(term, Change):
        return Clause(voice.say(f"term.change.{_since(term)}", measure=of.text), of.joins)
    if isinstance(term, Symmetry):
        return Clause(voice.say("term.symmetry", measure=of.text), of.joins)
    return Clause(_difference(voice, term, of.text, side or Side.AFFECTED), of.joins)


def _scale_end(voice: Voice, term: Term) -> str | None:
    """The end of the scale a term is a point on, for `7 out of 10`; None where the scale does not begin at 0."""
    finding = voice.scope.findings.get(term.finding) if isinstance(term, Measured) else None
    if finding is None or finding.answer.kind is not Kind.SCALE:
        return None
    low, high = finding.answer.low, finding.answer.high
    return None if low != 0 or high is None else voice.number(high)


def _symmetry(voice: Voice, term: Symmetry, sign: str, right: Term, side: Side) -> Clause:
    """One side as a share of its opposite: `... on the affected side is 90% or more of that on the other side`."""
    of = measure(voice, term.finding)
    share = _term(voice, right, side)
    key = f"compare.{_NAMES[sign]}.share"
    if side in (Side.EACH, Side.EITHER):
        first, second = voice.say(f"side.{side.value}.one"), voice.say("side.opposite")
    else:
        pair = (voice.which(side.value), voice.which(_OTHER[side]))
        upper, lower = pair[::-1] if _lower_is_better(voice, term.finding) else pair
        first, second = voice.say(f"side.{upper}"), voice.say(f"side.{lower}")
    text = voice.say(key, measure=of.text, first=first, second=second, right=share.text)
    return Clause(text, of.joins | share.joins)


def _difference(voice: Voice, term: Difference, of: str, side: Side) -> str:
    """Opposite side less this side, turned round where lower is better."""
    if side in (Side.EACH, Side.EITHER):
        return voice.say(f"term.difference.{side.value}", measure=of)
    pair = (voice.which(_OTHER[side]), voice.which(side.value))
    first, second = pair[::-1] if _lower_is_better(voice, term.finding) else pair
    return voice.say(
        "term.difference", measure=of, first=voice.say(f"prose.{first}"), second=voice.say(f"prose.{second}")
    )


def _moved(voice: Voice, term: Change, sign: str, by: Quantity, side: Side | None) -> Clause | None:
    """`has risen by 2 or more`, `has fallen by more than 3`: only where the sign and the threshold point one way."""
    if by.value > 0 and sign in (">=", ">"):
        way = "up"
    elif by.value < 0 and sign in ("<=", "<"):
        way = "down"
    else:
        return None
    of = measure(voice, term.finding)
    strict = "gt" if sign in (">", "<") else "ge"
    amount = voice.quantity(Quantity(abs(by.value), by.unit))
    return _framed(voice, f"moved.{way}.{_since(term)}.{strict}", of, Clause(amount), side)


def _elapsed(voice: Voice, term: Elapsed, sign: str, right: Term) -> Clause:
    """Completed weeks or days since an event, against a whole number of them."""
    assert isinstance(right, Constant)
    event = _event(voice, term)
    value = right.quantity.value
    text = voice.say(f"elapsed.{_unit(term)}.{_NAMES[sign]}", value, event=event.text)
    return Clause(text, event.joins)


def _event(voice: Voice, term: Elapsed) -> Clause:
    """The event that time is counted from, as a noun."""
    if term.since in ("start", "phase start"):
        return Clause(voice.say("event.start" if term.since == "start" else "event.phase"))
    return measure(voice, term.since)


def _counts(term: Elapsed, right: Term) -> bool:
    """Whether the other side is a number of the very unit that is counted."""
    if not isinstance(right, Constant):
        return False
    unit = right.quantity.unit
    if unit is None or unit.name == "count":
        return True
    return unit.dimension == "time" and unit.factor == UNITS[_unit(term)].factor


def _unit(term: Elapsed) -> str:
    """`weeks` or `days`, however it was written."""
    return "weeks" if term.unit.startswith("week") else "days"


def _since(term: Change) -> str:
    return "start" if term.since == "start" else "last"


def _lower_is_better(voice: Voice, name: str) -> bool:
    finding = voice.scope.findings.get(name)
    return finding is not None and finding.better == "lower"
