"""Whether one condition holds whenever another does, as far as their forms show it: False where they do not."""

from __future__ import annotations

from decimal import Decimal

from protodsl.model.condition import All, AnyOf, Compare, Condition, Constant, Fact, IsOneOf, Not, Side


def implied(condition: Condition, reason: Condition) -> bool:
    """Whether whoever meets `reason` meets `condition` too, whatever else is true of them."""
    if condition == reason:
        return True
    if isinstance(reason, AnyOf):
        return all(implied(condition, part) for part in reason.of)
    if isinstance(condition, All):
        return all(implied(part, reason) for part in condition.of)
    if isinstance(condition, AnyOf) and any(implied(part, reason) for part in condition.of):
        return True
    if isinstance(reason, All):
        return any(implied(condition, part) for part in reason.of)
    return _alike(condition, reason)


def _alike(condition: Condition, reason: Condition) -> bool:
    """Two conditions of one form about one finding."""
    if isinstance(condition, Not) and isinstance(reason, Not):
        return implied(reason.of, condition.of)
    if isinstance(condition, Fact) and isinstance(reason, Fact):
        return condition.finding == reason.finding and _side(condition.side, reason.side)
    if isinstance(condition, IsOneOf) and isinstance(reason, IsOneOf):
        wide, narrow = (reason, condition) if condition.negated else (condition, reason)
        same = (condition.finding, condition.negated) == (reason.finding, reason.negated)
        return same and _side(condition.side, reason.side) and set(narrow.values) <= set(wide.values)
    if isinstance(condition, Compare) and isinstance(reason, Compare):
        return condition.left == reason.left and _side(condition.side, reason.side) and _number(condition, reason)
    return False


def _side(condition: Side | None, reason: Side | None) -> bool:
    """What is so on each side is so on any, and what is so on any side is so on at least one."""
    if condition is None or reason is None:
        return condition is reason
    return condition is reason or reason is Side.EACH or condition is Side.EITHER


def _number(condition: Compare, reason: Compare) -> bool:
    """Two comparisons of one term: whether every value that passes the one passes the other."""
    limit, known = _value(condition), _value(reason)
    if limit is None or known is None:
        return False
    if reason.op == "=":
        return _passes(known, condition.op, limit)
    up, down = (">", ">="), ("<", "<=")
    if condition.op in up and reason.op in up:
        return known > limit or (known == limit and (condition.op == ">=" or reason.op == ">"))
    if condition.op in down and reason.op in down:
        return known < limit or (known == limit and (condition.op == "<=" or reason.op == "<"))
    return False


def _passes(value: Decimal, op: str, limit: Decimal) -> bool:
    return {">": value > limit, ">=": value >= limit, "<": value < limit, "<=": value <= limit}.get(op, value == limit)


def _value(compare: Compare) -> Decimal | None:
    """The number on the right in the base of its dimension; None where it is another measure."""
    if not isinstance(compare.right, Constant):
        return None
    quantity = compare.right.quantity
    return quantity.value * quantity.unit.factor if quantity.unit else quantity.value
