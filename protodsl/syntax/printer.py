"""The formatter: a tree in its one spelling, comments kept in their places.

Two blanks an indent; a blank line between declarations that have lines of their own and before every phase. Other
blank lines are the author's paragraphs: they are kept, one at a time, and never stand first or last in a block.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from protodsl.syntax import tree
from protodsl.syntax.figure_lines import items_text
from protodsl.syntax.lines import line_of, row_text


@dataclass(frozen=True, slots=True)
class Row:
    """A line to be written: its depth, its text, where it came from, and what it is part of."""

    depth: int
    text: str
    offset: int
    keyword: str = ""
    opens: bool = False
    gap: bool = False
    comment: bool = False


def format_tree(file: tree.File) -> str:
    """The text of a tree; empty for a tree that holds nothing."""
    rows = [row for statement in file.statements for row in _rows(statement, 0)]
    merged = _merge(rows, file.comments, file.gaps)
    out: list[str] = []
    for at, row in enumerate(merged):
        if at and _blank_above(merged, at):
            out.append("")
        out.append("  " * row.depth + row.text)
    return "\n".join(out) + "\n" if out else ""


def _rows(statement: tree.Statement, depth: int) -> Iterator[Row]:
    """The line of a statement and those under it."""
    under = list(_under(statement, depth + 1))
    yield Row(depth, line_of(statement), statement.span.start, statement.keyword, bool(under))
    yield from under


def _under(statement: tree.Statement, depth: int) -> Iterator[Row]:
    """What stands under a line."""
    match statement:
        case tree.From(change=change, because=because):
            yield from _under(change, depth)
            yield from _because(because, depth)
        case tree.Guard(instead=instead, because=because, lines=lines):
            yield from _instead(instead, depth)
            yield from _because(because, depth)
            yield from _words(lines, depth)
        case tree.NeedsLine(instead=instead):
            yield from _instead(instead, depth)
        case tree.LiftLine(because=because) | tree.Answered(because=because) | tree.Place(because=because):
            yield from _because(because, depth)
        case tree.BlockLine(lines=lines):
            yield from _words(lines, depth)
        case tree.PoseLine(rows=rows):
            for items in rows[1:]:
                yield Row(depth, items_text(items), items[0].span.start)
        case tree.AdjustLine(rows=rows):
            for row in rows:
                yield Row(depth, row_text(row), row.span.start)
        case tree.ZonesLine(zones=zones):
            for zone in zones:
                yield Row(depth, row_text(zone), zone.span.start)
                yield from _words(zone.lines, depth + 1)
        case tree.Use(settings=settings, without=without):
            for name, amount in settings:
                line = tree.SettingLine("with", name, amount, span=name.span)
                yield Row(depth, line_of(line), name.span.start, "with")
            if without:
                yield Row(depth, line_of(tree.NamesLine("without", without)), without[0].span.start, "without")
        case _:
            for line in getattr(statement, "lines", ()):
                yield from _rows(line, depth)


def _words(lines: tuple[tree.Words, ...], depth: int) -> Iterator[Row]:
    for line in lines:
        yield Row(depth, line.text, line.span.start)


def _instead(name: tree.Name | None, depth: int) -> Iterator[Row]:
    if name is not None:
        yield Row(depth, f"instead {name.text}", name.span.start, "instead")


def _because(words: tree.Words | None, depth: int) -> Iterator[Row]:
    if words is not None:
        yield Row(depth, f"because {words.text}", words.span.start, "because")


def _merge(rows: list[Row], comments: tuple[tree.Comment, ...], gaps: tuple[int, ...]) -> list[Row]:
    """The rows with the comments between them, each told whether its author left a line free above it."""
    merged: list[Row] = []
    waiting = list(reversed(comments))
    free = list(reversed(gaps))
    for at, row in enumerate(rows):
        while waiting and waiting[-1].span.start < row.offset:
            merged.append(_comment(waiting.pop(), rows[at - 1].depth if at else -1, row.depth, free))
        merged.append(_with_gap(row, free))
    last = rows[-1].depth if rows else -1
    while waiting:
        merged.append(_comment(waiting.pop(), last, 0, free))
    return merged


def _comment(comment: tree.Comment, above: int, below: int, free: list[int]) -> Row:
    """A comment as a row, at most a step deeper than the line above and not less deep than both its neighbours."""
    depth = max(min(comment.depth, max(above + 1, below)), min(above, below))
    return _with_gap(Row(depth, comment.text, comment.span.start, comment=True), free)


def _with_gap(row: Row, free: list[int]) -> Row:
    """The row, with a gap if a free line stood between it and the row before; takes that from `free`."""
    gap = False
    while free and free[-1] <= row.offset:
        free.pop()
        gap = True
    if not gap:
        return row
    return Row(row.depth, row.text, row.offset, row.keyword, row.opens, True, row.comment)


def _blank_above(rows: list[Row], at: int) -> bool:
    """Whether a blank line stands above a row."""
    row, above = rows[at], rows[at - 1]
    if row.gap and (row.keyword or row.comment) and not (above.depth < row.depth and not above.comment):
        return True
    if row.comment:
        target = at + 1
        while target < len(rows) and rows[target].comment and not rows[target].gap:
            target += 1
        # A comment right above a line belongs to it, so the blank line goes above the comment.
        attached = not above.comment and target < len(rows) and not rows[target].gap and not rows[target].comment
        return attached and rows[target].depth == row.depth and _sets_apart(rows, target, at - 1)
    if above.comment:
        return False
    return _sets_apart(rows, at, at - 1)


def _sets_apart(rows: list[Row], at: int, before: int) -> bool:
    """Whether the spelling itself asks for a blank line between two rows."""
    row = rows[at]
    if row.depth == 0:
        first = next((one for one in reversed(rows[: before + 1]) if one.depth == 0 and not one.comment), None)
        return first is not None and (row.opens or first.opens)
    return row.keyword == "phase" and rows[before].depth >= row.depth
