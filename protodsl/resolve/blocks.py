"""The lines under a declaration, each read by its keyword."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Mapping
from dataclasses import dataclass
from typing import Any

from protodsl.diagnostics import kinds as say
from protodsl.resolve.names import Block, Names
from protodsl.syntax import tree

Reader = Callable[[Any, Names], Any]

# Keywords of lines that could not be understood, and a mark for a declaration of which lines are missing altogether.
DAMAGED = "damaged"
UNREADABLE = "unreadable"


@dataclass(frozen=True, slots=True)
class Form:
    """What a block may hold: a reader for each keyword, and what it is called."""

    what: str
    readers: Mapping[str, Reader]


def read_block(lines: Iterable[tree.Statement], form: Form, names: Names) -> Block:
    """The values of the lines by keyword; what a reader gave None for is kept as a damaged keyword."""
    block: Block = {}
    readers = form.readers
    for line in lines:
        keyword = line.keyword
        reader = readers.get(keyword)
        if reader is None:
            names.say(say.line_out_of_place(keyword, form.what, line.head, tuple(readers)))
            continue
        value = reader(line, names)
        if value is None:
            block.setdefault(DAMAGED, []).append(keyword)
        elif keyword in block:
            block[keyword].append(value)
        else:
            block[keyword] = [value]
    return block


def first(block: Block, keyword: str) -> Any:
    """The value of a line that stands once, or None; of a second one the parser has spoken."""
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
