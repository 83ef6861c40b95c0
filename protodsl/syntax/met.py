"""A mistake as the parser met it, with all that its explanation needs."""

from __future__ import annotations

import re
from dataclasses import dataclass
from functools import cache

from protodsl.diagnostics.diagnostic import Diagnostic
from protodsl.source import Span
from protodsl.syntax.keywords import entries
from protodsl.syntax.layout import Line

WORD = re.compile(r"[^\W\d_][\w'-]*|\d[\d.]*|\S")


@dataclass(frozen=True, slots=True)
class Repair:
    """How to read a line all the same: its first token, where that ends, and where reading goes on (0: there)."""

    token: str
    stop: int
    go_on: int = 0


@dataclass(frozen=True, slots=True)
class Met:
    """A mistake as the parser met it.

    `expected` are the names of the terminals that could stand at `at`, `words` the keywords among them as written;
    `parent` is the keyword the line stands under, or None where that could not be read; `allowed` are the keywords
    that may stand there; `keyword` is the one the line begins with, or empty, and `stop` its end; `heads` tells
    whether lines stand below it.
    """

    path: str
    plain: str
    line: Line
    at: int
    expected: frozenset[str]
    words: tuple[str, ...]
    parent: str | None
    allowed: tuple[str, ...]
    keyword: str
    stop: int
    case: bool
    heads: bool

    @property
    def before(self) -> str:
        """The line up to the mistake."""
        return self.plain[self.line.start : self.at]

    @property
    def word(self) -> str:
        """The word or sign at the mistake; empty at the end of the line."""
        found = WORD.match(self.plain, self.at, self.line.end)
        return found.group() if found else ""

    def span(self, start: int, length: int) -> Span:
        """A place in the line, never empty."""
        return Span(self.path, start, start + max(length, 1))

    @property
    def here(self) -> Span:
        """The place of the word at the mistake; the last character of the line where it stops short."""
        return self.span(self.at, len(self.word)) if self.word else self.span(self.line.end - 1, 1)


Explained = tuple[Diagnostic, Repair | None]


def leading(plain: str, line: Line) -> tuple[str, int]:
    """The keyword a line begins with and its end, whatever kind of file it belongs to; empty where there is none."""
    word = WORD.match(plain, line.start, line.end)
    for keyword, pattern in _by_first_word().get(word.group() if word else "", ()):
        if found := pattern.match(plain, line.start, line.end):
            return keyword, found.end()
    return "", line.start


@cache
def _by_first_word() -> dict[str, tuple[tuple[str, re.Pattern[str]], ...]]:
    """The keywords by their first word, the longest first, with patterns that take more than one blank."""
    found: dict[str, list[str]] = {}
    for keyword in sorted({one.keyword for one in entries()}, key=len, reverse=True):
        found.setdefault(keyword.split()[0], []).append(keyword)
    return {
        first: tuple((word, re.compile(word.replace(" ", " +") + r"(?![\w'-])")) for word in words)
        for first, words in found.items()
    }
