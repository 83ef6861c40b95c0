"""Texts as they were read, and places inside them."""

from __future__ import annotations

from bisect import bisect_right
from dataclasses import dataclass, field
from typing import NamedTuple


class Span(NamedTuple):
    """A half-open stretch of characters `start <= i < end` of the text read from `path`."""

    path: str
    start: int
    end: int

    def join(self, other: Span) -> Span:
        """The stretch from the start of this one to the end of the other, in one file."""
        return Span(self.path, self.start, max(self.end, other.end))


NOWHERE = Span("", 0, 0)


@dataclass(frozen=True, slots=True)
class Source:
    """One text with the path it is known by (relative to the project's root, with `/`)."""

    path: str
    text: str
    _starts: tuple[int, ...] = field(default=(), repr=False, compare=False)

    def __post_init__(self) -> None:
        """Find the line starts once."""
        if not self._starts:
            starts = [0]
            at = self.text.find("\n")
            while at >= 0:
                starts.append(at + 1)
                at = self.text.find("\n", at + 1)
            object.__setattr__(self, "_starts", tuple(starts))

    def position(self, offset: int) -> tuple[int, int]:
        """Line and column of an offset, both counted from 1, columns in characters."""
        line = bisect_right(self._starts, offset)
        return line, offset - self._starts[line - 1] + 1

    def start_of(self, number: int) -> int:
        """The offset at which a line begins, counted from 1; the end of the text past its last line."""
        return self._starts[number - 1] if 1 <= number <= len(self._starts) else len(self.text)

    def line(self, number: int) -> str:
        """The text of a line counted from 1, without its line end; empty past the end."""
        if not 1 <= number <= len(self._starts):
            return ""
        start = self._starts[number - 1]
        end = self._starts[number] if number < len(self._starts) else len(self.text)
        return self.text[start:end].rstrip("\r\n")
