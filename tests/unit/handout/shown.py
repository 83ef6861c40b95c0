"""A handout in words as plain text, one line a phrase, for tests that pin what a reader is told."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import fields, is_dataclass
from typing import Any

from protodsl.handout.blocks import Cell, DiaryWeek, Handout, Item, Row, Section, StopGroup, Table


def shown(page: Handout[str]) -> str:
    """Every phrase of the handout in its order, indented by the block it stands in."""
    return "\n".join(_lines(page, 0)) + "\n"


def shown_lines(node: Any) -> list[str]:
    """The text of every line of a list, and every dose and condition, below a block."""
    if isinstance(node, Item):
        return [node.text, *shown_lines(node.under)]
    found = [text for text in (getattr(node, "dose", None), getattr(node, "when", None)) if isinstance(text, str)]
    if isinstance(node, tuple):
        return [line for one in node for line in shown_lines(one)]
    if is_dataclass(node) and not isinstance(node, type):
        found += [line for field in fields(node) for line in shown_lines(getattr(node, field.name))]
    return found


def _lines(node: Any, depth: int) -> Iterator[str]:
    pad = "  " * depth
    if isinstance(node, Section):
        yield f"\n[{node.id}] {node.head or ''}".rstrip()
        yield from _lines(node.blocks, depth + 1)
    elif isinstance(node, Item):
        marks = " ".join(mark for mark in (node.safety and f"<{node.safety}>", node.origin) if mark)
        yield f"{pad}- {node.text}" + (f"  {marks}" if marks else "")
        yield from _lines(node.under, depth + 1)
    elif isinstance(node, Row):
        yield f"{pad}{node.head}" + (f"  ({node.mark})" if node.mark else "")
        yield from _lines(node.lines, depth + 1)
    elif isinstance(node, StopGroup):
        yield pad + " / ".join(
            str(part) for part in (node.head, node.phone, node.other_hours, node.other_phone) if part
        )
        yield from _lines(node.lines, depth + 1)
    elif isinstance(node, Table):
        rows = (*node.rows, node.foot) if node.foot else node.rows
        yield pad + (node.caption or "Table")
        yield pad + "  " + " | ".join(node.heads)
        yield from (pad + "  " + " | ".join(cell.text for cell in row) for row in rows)
    elif isinstance(node, DiaryWeek):
        days = " | ".join(" ".join((day, *boxes)) for day, boxes in node.days)
        yield f"{pad}{node.caption}: {days}"
    else:
        yield from _other(node, depth)


def _other(node: Any, depth: int) -> Iterator[str]:
    pad = "  " * depth
    if isinstance(node, str):
        if node:
            yield pad + node
    elif isinstance(node, tuple):
        for one in node:
            yield from _lines(one, depth)
    elif is_dataclass(node) and not isinstance(node, (type, Cell)):
        yield f"{pad}{type(node).__name__}"
        for field in fields(node):
            yield from _lines(getattr(node, field.name), depth + 1)
