"""A handout spoken of one person: their sides in every phrase, and what is said otherwise to somebody who is known."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import fields, is_dataclass, replace
from functools import cache
from typing import Any, TypeVar

from protodsl.handout.phrase import (
    Day,
    DoseInWords,
    InWords,
    Literal,
    Measure,
    Message,
    Number,
    Phrase,
    Weekday,
    Written,
)
from protodsl.handout.words import say

T = TypeVar("T")

# What the general sheet says to anybody, and what a person is told instead.
_SAID: dict[str, str] = {"card.out.nothing": "person.out.ask"}
# The same where the affected side is known: `{side}` names it.
_SAID_OF_SIDE: dict[str, str] = {
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


def other_side(side: str) -> str:
    """The side across."""
    return _OTHER[side]


def _of(node: Any, side: str | None) -> Any:
    kind: Any = type(node)
    if kind is tuple:
        return tuple([_of(one, side) for one in node])
    if kind is Message:
        return _message(node, side)
    sided = _SIDED.get(kind)
    if sided is not None:
        return node if side is None or node.side is not None else sided(node, side)
    names = _fields(kind)
    return kind(*[_of(getattr(node, name), side) for name in names]) if names else node


# A sheet holds some two hundred of them, and `replace` looks up the fields of each.
_SIDED: dict[type, Callable[[Any, str], Phrase]] = {
    Written: lambda one, side: Written(one.prose, side),
    InWords: lambda one, side: InWords(one.condition, one.streak, one.negated, side),
    DoseInWords: lambda one, side: DoseInWords(one.dose, one.group, side),
}


@cache
def _fields(kind: type) -> tuple[str, ...]:
    """The fields of a block or of a phrase made of phrases, in the order of its constructor; none for a plain value."""
    if not is_dataclass(kind) or kind in _PLAIN or not kind.__module__.startswith("protodsl.handout"):
        return ()
    return tuple(field.name for field in fields(kind))


_PLAIN = frozenset((Measure, Number, Day, Weekday, Literal))


def _message(node: Message, side: str | None) -> Message:
    key = _SAID.get(node.key, node.key)
    if side is not None and key in _SAID_OF_SIDE:
        return Message(_SAID_OF_SIDE[key], {"side": side_of(side)}, node.count)
    if not node.values:
        return node if key == node.key else replace(node, key=key)
    return Message(key, {name: _of(value, side) for name, value in node.values.items()}, node.count)
