"""Dated lines written into the text of a case where their date belongs."""

from __future__ import annotations

from dataclasses import dataclass, replace
from datetime import date

from protodsl.record.place import Place, place_of
from protodsl.source import Source
from protodsl.syntax import tree


@dataclass(frozen=True, slots=True)
class Addition:
    """A line to add on a date, and the lines under it; `joins`: these may go under an `on` line that stands there."""

    day: date
    head: str
    under: tuple[str, ...] = ()
    joins: bool = False

    @property
    def facts(self) -> int:
        """How many facts it adds: each answer of a day is one, a line with its reason is one."""
        return len(self.under) if self.joins else 1


@dataclass(frozen=True, slots=True)
class Recorded:
    """A text after the additions, and the numbers (from 1) of the lines that are new in it."""

    text: str
    lines: tuple[int, ...]


def record(text: str, file: tree.File, case: tree.CaseDeclaration, additions: tuple[Addition, ...]) -> Recorded:
    """The text with every addition at its place in the case; every character that was there stays as it is.

    `text` is the file as it lies on the disk (with its byte order mark and line ends), `file` and `case` its tree.
    """
    lines, end = _lines(text)
    # As it was read: spans are places in this.
    read = text.removeprefix("\ufeff")
    source = Source(file.path, read if "\n" in read else read.replace("\r", "\n"))
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
    return Recorded("".join(lines), tuple(new))


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
