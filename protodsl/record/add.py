"""Dated lines written into the text of a case where their date belongs."""

from __future__ import annotations

from dataclasses import dataclass, replace

from protodsl.record.addition import Addition
from protodsl.record.answered import Exchange, exchanges
from protodsl.record.place import Place, place_of
from protodsl.source import Source
from protodsl.syntax import line_of, tree


@dataclass(frozen=True, slots=True)
class Recorded:
    """A text after the additions, and the numbers (from 1) of the lines that are new in it.

    `answered` are lines that said `unknown`, by the number of the line that stands in the place of each; `facts` is
    how many facts are new, and those of `gone` are there no more.
    """

    text: str
    lines: tuple[int, ...]
    facts: int
    answered: tuple[tuple[int, str], ...] = ()
    gone: tuple[tuple[str, ...], ...] = ()


def record(text: str, file: tree.File, case: tree.CaseDeclaration, additions: tuple[Addition, ...]) -> Recorded:
    """The text with every addition at its place in the case; every character that was there stays as it is.

    What is answered on the date that has it as `unknown` takes the place of that line (see `answered`). `text` is the
    file as it lies on the disk (with its byte order mark and line ends), `file` and `case` its tree.
    """
    lines, end = _lines(text)
    # As it was read: spans are places in this.
    read = text.removeprefix("\ufeff")
    source = Source(file.path, read if "\n" in read else read.replace("\r", "\n"))
    exchanged, additions = exchanges(case, additions)
    answered = [_exchange(one, lines, source) for one in exchanged]
    placed = [(place_of(file, case, source, one.day, one.joins), one) for one in _merged(additions)]
    new: list[int] = []
    for place, one in sorted(placed, key=lambda each: (each[0].after, not each[0].joined, each[1].day)):
        fresh = _written(place, one)
        at = place.after + len(new)
        lines[at:at] = [line + end for line in fresh]
        if at and not lines[at - 1].endswith(end):
            # The last line had no line end; now something comes behind it, and that is the last.
            lines[at - 1] += end
            lines[-1] = lines[-1].removesuffix(end)
        new.extend(range(at + 1, at + 1 + len(fresh)))
    there = tuple((_moved(number, new), was) for number, was in answered)
    return Recorded(
        "".join(lines),
        tuple(sorted((*new, *(number for number, _ in there)))),
        len(exchanged) + sum(one.facts for one in additions),
        there,
        tuple((case.name.text, one.day.isoformat(), line_of(one.was)) for one in exchanged),
    )


def _exchange(one: Exchange, lines: list[str], source: Source) -> tuple[int, str]:
    """Write the new line in the place of the old one, with its indent and its end; its number, and what stood there."""
    number, column = source.position(one.was.span.start)
    was = lines[number - 1]
    # A byte order mark stands before the first line alone, and that is no answer.
    lines[number - 1] = was[: column - 1] + one.line + was[len(was.rstrip("\r\n")) :]
    return number, was.strip()


def _moved(number: int, new: list[int]) -> int:
    """Where a line has come to stand, once the new ones are in."""
    for one in sorted(new):
        number += one <= number
    return number


def _lines(text: str) -> tuple[list[str], str]:
    """The lines of a text with their ends, and what such an end is."""
    parted = "\r" if "\r" in text and "\n" not in text else "\n"
    *whole, rest = text.split(parted)
    lines = [line + parted for line in whole] + ([rest] if rest else [])
    return lines, "\r\n" if lines and lines[0].endswith("\r\n") else parted


def _merged(additions: tuple[Addition, ...]) -> list[Addition]:
    """Additions that may stand under one line, under one line."""
    merged: list[Addition] = []
    for one in additions:
        like = [at for at, other in enumerate(merged) if one.joins and other.joins and other.head == one.head]
        if like:
            merged[like[0]] = replace(merged[like[0]], under=merged[like[0]].under + one.under)
        else:
            merged.append(one)
    return merged


def _written(place: Place, one: Addition) -> list[str]:
    under = [place.inner + line for line in one.under]
    return under if place.joined else [place.outer + one.head, *under]
