"""Conditions: every name looked up, every fact of the right kind and on a side where it has sides."""

from __future__ import annotations

from collections.abc import Callable
from itertools import pairwise
from typing import Any

from protodsl.diagnostics import kinds as say
from protodsl.diagnostics.diagnostic import Diagnostic
from protodsl.diagnostics.suggest import nearest
from protodsl.model.condition import (
    All,
    AnyOf,
    AtLeast,
    Condition,
    Fact,
    IsOneOf,
    Not,
    Side,
)
from protodsl.model.finding import Kind
from protodsl.resolve.comparisons import compare
from protodsl.resolve.names import Missing, Names, Symbol
from protodsl.source import Span
from protodsl.syntax import tree

SIDES: dict[str, Side] = {side.value: side for side in Side}


def condition(node: tree.Condition, names: Names) -> Condition | None:
    """A condition that can be decided; None where something in it cannot, and each such thing is said."""
    return _FORMS[type(node)](node, names)


def _fact(node: tree.Fact, names: Names) -> Condition | None:
    symbol = names.finding(node.name)
    if symbol is None:
        return None
    answer = symbol.answer
    if answer is not None:
        if answer.kind is not Kind.YES_NO:
            names.say(_not_yes_no(symbol, node.name.span))
            return None
        if not side_fits(answer.sided, node.side, node.name, symbol, names):
            return None
    return Fact(symbol.name, SIDES[node.side] if node.side else None, span=node.span)


def _not_yes_no(symbol: Symbol, span: Span) -> Diagnostic:
    assert symbol.answer is not None
    if symbol.answer.kind is Kind.CHOICE:
        return say.choice_without_is(symbol.name, span, symbol.span, symbol.answer.choices)
    if symbol.answer.kind is Kind.DATE:
        return say.bare_date(symbol.name, span, symbol.span)
    return say.number_as_fact(symbol.name, span, symbol.span)


def side_fits(sided: bool, side: str | None, name: tree.Name, symbol: Symbol, names: Names) -> bool:
    """Whether a side is said where the finding has sides, and only there."""
    if sided and side is None:
        names.say(say.side_missing(symbol.name, name.span, symbol.span))
        return False
    if side is not None and not sided:
        names.say(say.side_without_sides(symbol.name, name.span, symbol.span))
        return False
    return True


def _not(node: tree.Not, names: Names) -> Condition | None:
    of = condition(node.of, names)
    return None if of is None else Not(of, span=node.span)


def _all(node: tree.All, names: Names) -> Condition | None:
    of = _each(node.of, "and", names)
    return None if of is None else All(of, span=node.span)


def _any(node: tree.AnyOf, names: Names) -> Condition | None:
    of = _each(node.of, "or", names)
    return None if of is None else AnyOf(of, span=node.span)


def _each(nodes: tuple[tree.Condition, ...], word: str, names: Names) -> tuple[Condition, ...] | None:
    before = len(names.missing)
    of = [condition(one, names) for one in nodes]
    if len(names.missing) > before:
        _pair_up(nodes, word, names)
    whole = tuple([one for one in of if one is not None])
    return whole if len(whole) == len(of) else None


def _pair_up(nodes: tuple[tree.Condition, ...], word: str, names: Names) -> None:
    """Two undeclared names side by side are reported as one: they may be halves of a name with a reserved word."""
    for first, second in pairwise(nodes):
        if not (isinstance(first, tree.Fact) and isinstance(second, tree.Fact) and first.side is None):
            continue
        left, right = first.name, second.name
        if left.text in names.tables["findings"] or right.text in names.tables["findings"]:
            continue
        span = left.span.join(right.span)
        names.missing[:] = [one for one in names.missing if one.name is not left and one.name is not right]
        names.missing.append(Missing(("findings",), left, (left.text, word, right.text, span)))


def _at_least(node: tree.AtLeast, names: Names) -> Condition | None:
    of = [condition(one, names) for one in node.of]
    written = f"at least {node.count} of"
    if not 1 <= node.count <= len(of):
        why = "at least 0 always holds" if node.count < 1 else f"{len(of)} facts are listed"
        names.say(say.impossible_number(written, why, f"write a number from 1 to {len(of)}", node.span))
        return None
    whole = tuple([one for one in of if one is not None])
    return AtLeast(node.count, whole, span=node.span) if len(whole) == len(of) else None


def _is(node: tree.Is, names: Names) -> Condition | None:
    symbol = names.finding(node.name)
    if symbol is None:
        return None
    answer = symbol.answer
    if answer is not None:
        if answer.kind is not Kind.CHOICE:
            yes_no = answer.kind is Kind.YES_NO
            if answer.kind is Kind.DATE:
                names.say(say.bare_date(symbol.name, node.name.span, symbol.span))
            else:
                names.say(say.is_without_choices(symbol.name, node.name.span, symbol.span, yes_no))
            return None
        unknown = [value for value in node.values if value.text not in answer.choices]
        for value in unknown:
            near = nearest(value.text, answer.choices)
            names.say(say.unknown_choice(value.text, symbol.name, value.span, symbol.span, answer.choices, near))
        if unknown or not side_fits(answer.sided, node.side, node.name, symbol, names):
            return None
    values = tuple([value.text for value in node.values])
    return IsOneOf(symbol.name, values, node.negated, SIDES[node.side] if node.side else None, span=node.span)


def _compare(node: tree.Compare, names: Names) -> Condition | None:
    return compare(node, SIDES[node.side] if node.side else None, names)


_FORMS: dict[type, Callable[[Any, Names], Condition | None]] = {
    tree.Fact: _fact,
    tree.Not: _not,
    tree.All: _all,
    tree.AnyOf: _any,
    tree.AtLeast: _at_least,
    tree.Is: _is,
    tree.Compare: _compare,
}
