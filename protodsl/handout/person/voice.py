"""A handout spoken of one person: their sides in every phrase, and what is said otherwise to somebody who is known."""

from __future__ import annotations

from dataclasses import fields, is_dataclass, replace
from typing import Any, TypeVar

from protodsl.handout.phrase import DoseInWords, InWords, Message, Phrase, Written
from protodsl.handout.words import say

T = TypeVar("T")

# What the general sheet says to anybody, and what a person is told instead.
_SAID: dict[str, str] = {"card.out.nothing": "person.out.ask"}
# The same where the affected side is known: `{side}` names it.
_SAID_OF_SIDE: dict[str, str] = {
    "about.sides": "person.sides",
    "bearing.none": "person.bearing.none",
    "bearing.touch": "person.bearing.touch",
    "bearing.partial": "person.bearing.partial",
    "bearing.as-tolerated": "person.bearing.as-tolerated",
    "bearing.full": "person.bearing.full",
}
_OTHER = {"left": "right", "right": "left"}


def spoken(node: T, side: str | None) -> T:
    """The same blocks, with the affected side (left, right or None) known in every phrase."""
    return _of(node, side)  # type: ignore[no-any-return]


def side_of(side: str) -> Phrase:
    """`left side` or `right side`."""
    return say(f"prose.{side}")


def _of(node: Any, side: str | None) -> Any:
    if isinstance(node, Written | InWords | DoseInWords):
        return node if side is None or node.side is not None else replace(node, side=side)
    if isinstance(node, Message):
        return _message(node, side)
    if isinstance(node, tuple):
        return tuple(_of(one, side) for one in node)
    if is_dataclass(node) and not isinstance(node, type) and type(node).__module__.startswith("protodsl.handout"):
        return type(node)(*(_of(getattr(node, field.name), side) for field in fields(node)))
    return node


def _message(node: Message, side: str | None) -> Message:
    values = {name: _of(value, side) for name, value in node.values.items()}
    key = _SAID.get(node.key, node.key)
    if side is not None and key in _SAID_OF_SIDE:
        return Message(_SAID_OF_SIDE[key], {"side": side_of(side), "other": side_of(_OTHER[side])}, node.count)
    return Message(key, values, node.count)
