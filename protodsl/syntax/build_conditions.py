"""Nodes of conditions and quantities, one function for each form in grammar/conditions.lark."""

from __future__ import annotations

from decimal import Decimal

from protodsl.syntax import tree
from protodsl.syntax.building import Building, whole
from protodsl.syntax.tree import Condition, Name


def condition_text(b: Building, start: int, end: int, condition: Condition, line_end: int) -> Condition:
    return condition


def all_of(b: Building, start: int, end: int, *facts: Condition) -> Condition:
    return tree.All(facts, span=b.span(start, end))


def any_of(b: Building, start: int, end: int, *facts: Condition) -> Condition:
    return tree.AnyOf(facts, span=b.span(start, end))


def bracket(b: Building, start: int, end: int, condition: Condition) -> Condition:
    return condition


def named_fact(b: Building, start: int, end: int, name: Name, side: str | None) -> Condition:
    return tree.Fact(name, side, span=b.span(start, end))


def not_fact(b: Building, start: int, end: int, name: Name, side: str | None) -> Condition:
    fact = tree.Fact(name, side, span=b.span(name.span.start, end))
    return tree.Not(fact, span=b.span(start, end))


def not_group(b: Building, start: int, end: int, condition: Condition) -> Condition:
    return tree.Not(condition, span=b.span(start, end))


def comparison(
    b: Building, start: int, end: int, subject: tree.Subject, op: str, operand: tree.Operand, side: str | None
) -> Condition:
    return tree.Compare(subject, op, operand, side, span=b.span(start, end))


def is_value(b: Building, start: int, end: int, name: Name, value: Name, side: str | None) -> Condition:
    return tree.Is(name, (value,), False, side, span=b.span(start, end))


def is_not_value(b: Building, start: int, end: int, name: Name, value: Name, side: str | None) -> Condition:
    return tree.Is(name, (value,), True, side, span=b.span(start, end))


def is_one_of(b: Building, start: int, end: int, name: Name, *rest: Name | str | None) -> Condition:
    *values, side = rest
    assert side is None or isinstance(side, str)
    return tree.Is(name, tuple(v for v in values if isinstance(v, Name)), False, side, span=b.span(start, end))


def at_least(b: Building, start: int, end: int, count: Decimal, *facts: Condition) -> Condition:
    return tree.AtLeast(whole(b, count, start, end), facts, span=b.span(start, end))


def plain_subject(b: Building, start: int, end: int, name: Name) -> tree.Subject:
    return tree.Subject("value", name, span=name.span)


def derived_subject(b: Building, start: int, end: int, form: str, name: Name) -> tree.Subject:
    return tree.Subject(form.removesuffix(" of"), name, span=b.span(start, end))


def change_subject(b: Building, start: int, end: int, name: Name, since: str) -> tree.Subject:
    return tree.Subject(f"change {since}", name, span=b.span(start, end))


def since_start(b: Building, start: int, end: int, form: str, point: str) -> tree.Subject:
    return tree.Subject(form, Name(point, span=b.span(end - len(point), end)), span=b.span(start, end))


def amount_operand(b: Building, start: int, end: int, amount: tree.Amount) -> tree.Operand:
    return tree.Operand(None, amount, span=amount.span)


def name_operand(b: Building, start: int, end: int, name: Name) -> tree.Operand:
    return tree.Operand(name, None, span=name.span)


def sum_operand(b: Building, start: int, end: int, name: Name, sign: str, amount: tree.Amount) -> tree.Operand:
    return tree.Operand(name, signed(sign, amount), span=b.span(start, end))


def signed(sign: str, amount: tree.Amount) -> tree.Amount:
    """The amount, taken off where the sign is a minus."""
    return tree.Amount(-amount.value, amount.unit, span=amount.span) if sign == "-" else amount


def side(b: Building, start: int, end: int, words: str) -> str:
    return words.removeprefix("on ").removeprefix("the ").removesuffix(" side")


def quantity(b: Building, start: int, end: int, number: Decimal, unit: str | None) -> tree.Amount:
    return tree.Amount(number, unit, span=b.span(start, end))


def streak(b: Building, start: int, end: int, count: Decimal) -> int:
    return whole(b, count, start, end)
