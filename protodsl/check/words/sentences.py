"""A line of prose as sentences and words, and the place of a part of it."""

from __future__ import annotations

import re

from protodsl.model.text import Prose
from protodsl.source import Span

# A full stop inside a number (2.5 kg) or an abbreviation ends no sentence: a blank has to follow.
_END = re.compile(r"(?<=[.!?…])[\"'”’)*]*\s+")
_WORD = re.compile(r"\w[\w'’-]*")


def sentences(text: str) -> tuple[tuple[int, str], ...]:
    """The sentences of a line, each with its offset."""
    found = []
    start = 0
    for end in _END.finditer(text):
        found.append((start, text[start : end.start()]))
        start = end.end()
    return (*found, (start, text[start:])) if start < len(text) else tuple(found)


def words(text: str) -> list[str]:
    """The words of a text; a number counts as one, a placeholder as its words."""
    return _WORD.findall(text)


def part(prose: Prose, start: int, end: int) -> Span:
    """The place of a part of a line; the whole line where it was not read sign by sign."""
    span = prose.span
    if span.end - span.start != len(prose.text):
        return span
    return Span(span.path, span.start + start, span.start + end)
