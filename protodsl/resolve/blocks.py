"""The lines under a declaration: each read by its keyword, lines that may stand once held to it."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Mapping
from dataclasses import dataclass
from typing import Any

from protodsl.diagnostics import kinds as say
from protodsl.resolve.names import Block, Names
from protodsl.source import Span
from protodsl.syntax import tree

Reader = Callable[[Any, Names], Any]

# Keywords of lines that could not be understood, and a mark for a declaration of which lines are missing altogether.
DAMAGED = "damaged"
UNREADABLE = "unreadable"


@dataclass(frozen=True, slots=True)
class Form:
    """What a block may hold: a reader for each keyword, those that stand once, and what it is called."""

    what: str
    readers: Mapping[str, Reader]
    once: frozenset[str] = frozenset()


def read_block(lines: Iterable[tree.Statement], form: Form, names: Names) -> Block:
    """The values of the lines by keyword; what a reader gave None for is kept as a damaged keyword."""
    block: Block = {}
    readers, once = form.readers, form.once
    places: dict[str, Span] = {}
    for line in lines:
        keyword = line.keyword
        reader = readers.get(keyword)
        if reader is None:
            names.say(say.line_out_of_place(keyword, form.what, line.head, tuple(readers)))
            continue
        value = reader(line, names)
        if keyword in once:
            first = places.setdefault(keyword, line.head)
            if first is not line.head:
                names.say(say.line_twice(keyword, line.head, first))
                continue
        if value is None:
            block.setdefault(DAMAGED, []).append(keyword)
        elif keyword in block:
            block[keyword].append(value)
        else:
            block[keyword] = [value]
    return block


def first(block: Block, keyword: str) -> Any:
    """The value of a line that stands once, or None."""
    values = block.get(keyword)
    return values[0] if values else None


def flat(block: Block, keyword: str) -> tuple[Any, ...]:
    """The values of lines that each hold several, as one tuple."""
    values = block.get(keyword)
    if not values:
        return ()
    return values[0] if len(values) == 1 else tuple([one for value in values for one in value])


def every(block: Block, keyword: str) -> tuple[Any, ...]:
    """The values of all lines of a keyword."""
    return tuple(block.get(keyword, ()))


def damaged(block: Block) -> tuple[str, ...]:
    """The keywords of lines that could not be understood, each once."""
    return tuple(dict.fromkeys(block.get(DAMAGED, ())))
