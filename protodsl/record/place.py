"""Where in a case a dated line belongs: behind all that is no later, before the first line that is."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date
from itertools import takewhile

from protodsl.source import Source
from protodsl.syntax import tree

_STEP = "  "


@dataclass(frozen=True, slots=True)
class Place:
    """Behind which line (from 1) to write, how far in, and whether a line like it stands there already (`joined`)."""

    after: int
    outer: str
    inner: str
    joined: bool = False


def place_of(file: tree.File, case: tree.CaseDeclaration, source: Source, day: date, joins: bool) -> Place:
    """The place for a line of that date; with `joins`, under the last `on` line of the date where there is one."""
    outer = _indent(source, case.lines[0]) if case.lines else _STEP
    days = [line for line in case.lines if isinstance(line, tree.OnDate)]
    inner = next((_indent(source, day.lines[0]) for day in days if day.lines), outer * 2)
    same = [line for line in days if line.date == day]
    if joins and same:
        return Place(_last_line(file, case, same[-1], source), outer, inner, True)
    dated = [(line, found) for line in case.lines if (found := date_of(line)) is not None]
    earlier = [line for line, _ in takewhile(lambda one: one[1] <= day, dated)]
    heads = [line for line in case.lines if not dated or line.span.start < dated[0][0].span.start]
    behind = earlier or heads
    if not behind:
        return Place(source.position(case.span.start)[0], outer, inner)
    return Place(_last_line(file, case, behind[-1], source), outer, inner)


def date_of(line: tree.Statement) -> date | None:
    """The date a line of a case belongs to; None for one that stands over all of them."""
    if isinstance(line, tree.Session):
        return line.dates[0]
    if isinstance(line, (tree.OnDate, tree.Answered, tree.Place, tree.From, tree.Note)):
        return line.date
    return None


def _last_line(file: tree.File, case: tree.CaseDeclaration, line: tree.Statement, source: Source) -> int:
    """The last line of a statement with what stands under it, comments too."""
    behind = (one.span.start for one in (*case.lines, *file.statements) if one.span.start > line.span.start)
    following = min(behind, default=len(source.text))
    end = line.span.end
    own = source.position(line.span.start)[1]
    for comment in file.comments:
        if end <= comment.span.start < following:
            if source.position(comment.span.start)[1] <= own:
                break
            end = comment.span.end
    return source.position(max(end - 1, 0))[0]


def _indent(source: Source, line: tree.Statement) -> str:
    """What stands before a line."""
    number, column = source.position(line.span.start)
    return source.line(number)[: column - 1]
