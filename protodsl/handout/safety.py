"""The lines of a handout that keep somebody safe, found again wherever they stand."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import fields, is_dataclass
from typing import Any, TypeVar

from protodsl.handout.blocks import Handout, Item, Station

P = TypeVar("P")


def safety_items(handout: Handout[P]) -> tuple[Item[P], ...]:
    """Every line with a safety id, in the order of the page; the stop of a line of stations counts as one."""
    return tuple(_found(handout))


def _found(node: Any) -> Iterator[Item[Any]]:
    if isinstance(node, Item):
        if node.safety:
            yield node
        yield from _found(node.under)
    elif isinstance(node, Station):
        if node.safety:
            yield Item(node.when or node.what, node.safety, node.origin)
    elif isinstance(node, tuple):
        for one in node:
            yield from _found(one)
    elif is_dataclass(node) and not isinstance(node, type):
        for field in fields(node):
            yield from _found(getattr(node, field.name))
