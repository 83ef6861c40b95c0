"""Whether every container has the lines it needs, and none of those it may have once twice."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from functools import cache

from protodsl.diagnostics import text as say
from protodsl.diagnostics.diagnostic import Diagnostic
from protodsl.syntax import tree
from protodsl.syntax.keywords import Entry, entries

# A drawing, a picture file and none of both are three forms of one thing.
_SAME = {"image": "figure", "no figure": "figure"}
_REASONED = frozenset(("allow if", "lift", "corrected", "place"))


def shape(statements: Iterable[tree.Statement], lost: frozenset[int]) -> Iterator[Diagnostic]:
    """What is missing or twice; nothing is missing in a statement that starts at an offset in `lost`."""
    for statement in statements:
        lines = _lines(statement)
        yield from _twice(statement, lines)
        if statement.span.start not in lost:
            yield from _missing(statement, lines)
            yield from _missing_below(statement)
        yield from shape(lines, lost)


def _lines(statement: tree.Statement) -> tuple[tree.Statement, ...]:
    """The statements under a line; those of a personal change stand under the change."""
    inner = statement.change if isinstance(statement, tree.From) else statement
    lines = getattr(inner, "lines", ())
    return lines if lines and isinstance(lines[0], tree.Statement) else ()


def _twice(container: tree.Statement, lines: tuple[tree.Statement, ...]) -> Iterator[Diagnostic]:
    """Lines that may stand once and stand again."""
    if len(lines) < 2:
        return
    once = _once().get(container.keyword, frozenset())
    first: dict[str, tree.Statement] = {}
    for line in lines:
        if line.keyword not in once:
            continue
        before = first.setdefault(_SAME.get(line.keyword, line.keyword), line)
        if before is not line:
            yield say.twice(line.head, line.keyword, container.keyword, before.head)


def _missing(container: tree.Statement, lines: tuple[tree.Statement, ...]) -> Iterator[Diagnostic]:
    """Lines a declaration cannot do without; one that is `like` another has that one's."""
    if isinstance(container, tree.Declaration | tree.CaseDeclaration):
        if isinstance(container, tree.Declaration) and container.like is not None:
            return
        there = {line.keyword for line in lines}
        for entry in _needed().get(container.keyword, ()):
            if entry.keyword not in there:
                example = entry.example.partition("\n")[0]
                yield say.missing_line(container.head, container.keyword, container.name.text, entry.keyword, example)


def _missing_below(line: tree.Statement) -> Iterator[Diagnostic]:
    """Reasons and text that a line cannot do without."""
    if isinstance(line, tree.Guard) and line.keyword == "caution if" and not line.lines:
        yield say.missing_block(line.head, line.keyword)
    reason = getattr(line, "because", None)
    by_hand = isinstance(line, tree.From) and not isinstance(line.change, tree.VersionLine)
    if (line.keyword in _REASONED or by_hand) and reason is None:
        yield say.missing_line(line.head, line.keyword, "", "because", "because our people start from less")


@cache
def _once() -> dict[str, frozenset[str]]:
    """For each container the keywords that stand in it at most once."""
    found: dict[str, set[str]] = {}
    for entry in entries():
        if entry.once:
            for place in entry.where:
                found.setdefault(place, set()).add(entry.keyword)
    return {place: frozenset(words) for place, words in found.items()}


@cache
def _needed() -> dict[str, tuple[Entry, ...]]:
    """For each container the statements it cannot do without."""
    containers = ("exercise", "progression", "protocol", "case")
    return {place: tuple(one for one in entries() if one.needed and place in one.where) for place in containers}
