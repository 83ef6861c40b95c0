"""A model as an indented outline: what differs from the defaults, without places and keys."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import MISSING, Field, fields, is_dataclass
from decimal import Decimal
from enum import Enum

from protodsl.model.text import Prose
from protodsl.units import Quantity, Unit, plain

_INLINE = 100


def outline(thing: object, depth: int = 0) -> Iterator[str]:
    """The lines of the outline; what is short stands on one line."""
    for name, value in _parts(thing):
        short = _short(value)
        if short is not None and len(short) < _INLINE:
            yield f"{'  ' * depth}{name}: {short}"
        elif isinstance(value, tuple):
            yield f"{'  ' * depth}{name}:"
            for one in value:
                text = _short(one)
                if text is not None and len(text) < _INLINE:
                    yield f"{'  ' * (depth + 1)}- {text}"
                else:
                    yield f"{'  ' * (depth + 1)}- {type(one).__name__}"
                    yield from outline(one, depth + 2)
        else:
            yield f"{'  ' * depth}{name}: {type(value).__name__}"
            yield from outline(value, depth + 1)


def _parts(thing: object) -> Iterator[tuple[str, object]]:
    if isinstance(thing, Mapping):
        yield from ((str(name), value) for name, value in thing.items())
    elif is_dataclass(thing):
        for one in fields(thing):
            value = getattr(thing, one.name)
            if one.name not in ("span", "position_at", "key", "scope", "origin") and value != _default(one):
                yield one.name, value


def _default(one: Field[object]) -> object:
    return one.default if one.default_factory is MISSING else one.default_factory()


def _short(value: object) -> str | None:
    """A value on one line, or None where it has an outline of its own."""
    if isinstance(value, Prose):
        return f'"{value.text}"'
    if isinstance(value, Enum):
        return str(value.value)
    if isinstance(value, (Quantity, Unit)):
        return value.name if isinstance(value, Unit) else str(value)
    if isinstance(value, Decimal):
        return plain(value)
    if isinstance(value, tuple):
        return f"({', '.join(_short(one) or '' for one in value)})"
    if is_dataclass(value) and not isinstance(value, type):
        inside = ", ".join(f"{name} {_short(part)}" for name, part in _parts(value))
        return f"{type(value).__name__}({inside})"
    return None if isinstance(value, Mapping) else str(value)
