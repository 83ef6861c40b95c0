"""Answers to what the same date has as `unknown`: they take the place of that line, under the words of its question."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, replace
from datetime import date

from protodsl.record.addition import Addition
from protodsl.source import Source
from protodsl.syntax import line_of, parse_case, tree

_SIDES = ("left", "right")
_ANY_CASE = """\
case a
  protocol a, version 1.0.0
  started 2026-01-01
  language en
  side none
  on 2026-01-01
"""


@dataclass(frozen=True, slots=True)
class Exchange:
    """A new line for the answer `was` of a date: a line on one finding alone that said that nobody knows it."""

    day: date
    was: tree.Statement
    line: str


def exchanges(
    case: tree.CaseDeclaration, additions: tuple[Addition, ...]
) -> tuple[tuple[Exchange, ...], tuple[Addition, ...]]:
    """What is answered in its place, and the additions that are left.

    A line that says `unknown` of several findings is somebody's own and stays: two values are then an error.
    """
    found: list[Exchange] = []
    rest: list[Addition] = []
    open_lines: dict[date, dict[str, tree.Statement]] = {}
    for one in additions:
        if not one.joins:
            rest.append(one)
            continue
        there = open_lines.setdefault(one.day, _open(case, one.day))
        left: list[str] = []
        for words in one.under:
            for line, answered in _single(words, there):
                if answered is None:
                    left.append(line)
                else:
                    found.append(Exchange(one.day, answered, line))
        if left:
            rest.append(replace(one, under=tuple(left)))
    return tuple(found), tuple(rest)


def _open(case: tree.CaseDeclaration, day: date) -> dict[str, tree.Statement]:
    """The lines of a date that wait for the answer of one finding."""
    found: dict[str, tree.Statement] = {}
    for on in case.lines:
        for line in on.lines if isinstance(on, tree.OnDate) and on.date == day else ():
            if isinstance(line, tree.ListedAnswers) and line.keyword == "unknown" and len(line.names) == 1:
                found.setdefault(line.names[0].text, line)
            elif isinstance(line, tree.Answered) and any(value.form == "unknown" for _, value in line.values):
                found.setdefault(line.name.text, line)
    return found


def _single(words: str, there: dict[str, tree.Statement]) -> Iterator[tuple[str, tree.Statement | None]]:
    """An answer as one line or, where some of its names wait on lines of their own, as several; each with that line."""
    answer = _read(words)
    if isinstance(answer, tree.ListedAnswers) and answer.keyword in ("yes", "no"):
        others = [name.text for name in answer.names if name.text not in there]
        for name in answer.names:
            if name.text in there:
                yield f"{answer.keyword}: {name.text}", there.pop(name.text)
        if others:
            yield (words if len(others) == len(answer.names) else f"{answer.keyword}: {', '.join(others)}"), None
    elif isinstance(answer, tree.Answered) and (merged := _merged(answer, there.get(answer.name.text))) is not None:
        line = words if merged.values == answer.values else line_of(merged)
        yield line, there.pop(answer.name.text)
    else:
        yield words, None


def _merged(answer: tree.Answered, before: tree.Statement | None) -> tree.Answered | None:
    """The answer with what else the line says that it takes the place of; None where it speaks against that."""
    if before is None:
        return None
    sides = dict(answer.values)
    known = dict(before.values) if isinstance(before, tree.Answered) else {}
    if None in sides:
        return answer if all(value.form == "unknown" for value in known.values()) else None
    for side in _SIDES:
        earlier = known.get(side, tree.Value("unknown"))
        if side in sides and earlier.form != "unknown":
            return None
        sides.setdefault(side, earlier)
    return replace(answer, values=tuple((side, sides[side]) for side in sorted(sides, key=str)))


def _read(words: str) -> tree.Statement | None:
    """The answer as it would be read under an `on` line; None where it is no line of its own."""
    file = parse_case(Source("", f"{_ANY_CASE}    {words}\n"))
    cases = file.value.statements if file.value is not None and not file.diagnostics else ()
    days = [line for case in cases if isinstance(case, tree.CaseDeclaration) for line in case.lines]
    lines = [line for day in days if isinstance(day, tree.OnDate) for line in day.lines]
    return lines[0] if len(lines) == 1 else None
