"""What `without` drops: the safety lines of a declaration that the importer's own, in its place, does not have."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping

from protodsl.resolve.canonical import line_text
from protodsl.resolve.inherit import SAFETY
from protodsl.resolve.names import Symbol
from protodsl.syntax import tree

_KINDS: dict[str, str] = {"exercises": "exercise", "protocols": "protocol"}


def lost_lines(theirs: Symbol, own: Symbol, all_: Mapping[tuple[str, str], Symbol]) -> tuple[str, ...]:
    """Safety lines of `theirs`, inherited ones too, that stand neither in `own` nor in what it is like.

    `all_` are the declarations in reach by kind and name, `theirs` not among them.
    """
    kind = _KINDS.get(theirs.kind)
    if kind is None:
        return ()
    there = set(_lines(own, kind, all_))
    return tuple(dict.fromkeys(line for line in _lines(theirs, kind, all_) if line not in there))


def _lines(symbol: Symbol, kind: str, all_: Mapping[tuple[str, str], Symbol]) -> Iterator[str]:
    """The safety lines of a declaration and of all it is like, in their one spelling."""
    seen: list[Symbol] = []
    at: Symbol | None = symbol
    while at is not None and at not in seen:
        seen.append(at)
        yield from _safety(at.node.lines, kind)
        at = all_.get((at.kind, at.node.like.text)) if at.node.like is not None else None


def _safety(lines: Iterable[tree.Statement], kind: str) -> Iterator[str]:
    for line in lines:
        if line.keyword in SAFETY[kind]:
            yield line_text(line)
        elif isinstance(line, tree.Declaration) and line.keyword == "phase":
            yield from _safety(line.lines, "phase")
