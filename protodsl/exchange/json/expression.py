"""A condition as a tree that a program can evaluate, beside its words."""

from __future__ import annotations

from typing import Any

from protodsl.exchange.json.values import quantity
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

Tree = dict[str, Any]


def expression(node: Condition) -> Tree:
    """The tree: `is` names what a node is; a sided finding says its `side`, any other null."""
    match node:
        case Fact():
            return {"is": "fact", "finding": node.finding, "side": _side(node.side)}
        case Not():
            return {"is": "not", "of": expression(node.of)}
        case All():
            return {"is": "all", "of": [expression(one) for one in node.of]}
        case AnyOf():
            return {"is": "any", "of": [expression(one) for one in node.of]}
        case AtLeast():
            return {"is": "at-least", "count": node.count, "of": [expression(one) for one in node.of]}
        case IsOneOf():
            chosen = {"is": "one-of", "finding": node.finding, "values": list(node.values)}
            return {**chosen, "negated": node.negated, "side": _side(node.side)}
        case Compare():
            sides = {"left": _term(node.left), "comparator": node.op, "right": _term(node.right)}
            return {"is": "compare", **sides, "side": _side(node.side)}


def _term(term: Term) -> Tree:
    match term:
        case Measured():
            return {"term": "finding", "finding": term.finding, "plus": quantity(term.plus)}
        case Constant():
            return {"term": "constant", "quantity": quantity(term.quantity), "setting": term.setting}
        case Symmetry():
            return {"term": "symmetry", "finding": term.finding}
        case Difference():
            return {"term": "difference", "finding": term.finding}
        case Change():
            return {"term": "change", "finding": term.finding, "since": term.since}
        case Elapsed():
            return {"term": "elapsed", "unit": term.unit, "since": term.since}


def _side(side: Side | None) -> str | None:
    return side.value if side is not None else None
