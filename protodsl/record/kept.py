"""Whether a text still says everything that it said, and besides that just what was added."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator

from protodsl.syntax import line_of, tree

Said = tuple[str, ...]


def is_kept(before: tree.File, after: tree.File, added: int, gone: tuple[Said, ...] = ()) -> bool:
    """Whether every line and comment of `before` still stands in `after`, with `added` lines more and nothing else.

    `gone` are answers (the case, the date, the line) that are meant to be there no more.
    """
    had, has = Counter(_everything(before)), Counter(_everything(after))
    if not Counter(gone) <= had:
        return False
    had -= Counter(gone)
    same_comments = [one.text for one in before.comments] == [one.text for one in after.comments]
    return same_comments and had <= has and (has - had).total() == added


def _everything(file: tree.File) -> Iterator[Said]:
    for statement in file.statements:
        yield (line_of(statement),)
        if isinstance(statement, tree.CaseDeclaration):
            for line in statement.lines:
                yield from _line(statement.name.text, line)


def _line(case: str, line: tree.Statement) -> Iterator[Said]:
    """A line with all that stands under it; answers of a day each with their date."""
    if isinstance(line, tree.OnDate):
        yield from ((case, line.date.isoformat(), line_of(answer)) for answer in line.lines)
    else:
        yield case, line_of(line), repr(line)
