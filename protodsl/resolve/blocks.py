"""The lines under a declaration, each read by its keyword."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Mapping
from dataclasses import dataclass
from typing import Any

from protodsl.diagnostics import kinds as say
from protodsl.resolve.names import Block, Names
from protodsl.syntax import tree

Reader = Callable[[Any, Names], Any]

# Keywords of lines of which nothing could be understood, and of lines of which a part could not; and a mark for a
# declaration of which lines may be missing altogether.
LOST = "lost"
HURT = "hurt"
UNREADABLE = "unreadable"


@dataclass(frozen=True, slots=True)
class Form:
    """What a block may hold: a reader for each keyword, and what it is called."""

    what: str
    readers: Mapping[str, Reader]


def read_block(lines: Iterable[tree.Statement], form: Form, names: Names) -> Block:
    """The values of the lines by keyword; what a reader gave None for, or found fault with, is kept as damaged."""
    block: Block = {}
    readers, said, missing = form.readers, names.said, names.missing
    for line in lines:
        keyword = line.keyword
        reader = readers.get(keyword)
        if reader is None:
            names.say(say.line_out_of_place(keyword, form.what, line.head, tuple(readers)))
            continue
        before = len(said) + len(missing)
        value = reader(line, names)
        if len(said) + len(missing) > before:
            block.setdefault(HURT, []).append(keyword)
        if value is None:
            block.setdefault(LOST, []).append(keyword)
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
    """The keywords of lines that could not be understood, whole or in part, each once."""
    if LOST not in block and HURT not in block:
        return ()
    return tuple(dict.fromkeys([*block.get(LOST, ()), *block.get(HURT, ())]))
