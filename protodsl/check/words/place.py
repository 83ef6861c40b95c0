"""The place of a part of a line of prose."""

from __future__ import annotations

from protodsl.model.text import Prose
from protodsl.source import Span


def part(prose: Prose, start: int, end: int) -> Span:
    """The place of a part of a line; the whole line where it was not read sign by sign."""
    return part_of(prose.span, prose.text, start, end)


def part_of(span: Span, text: str, start: int, end: int) -> Span:
    """The place of a part of a text that stands at a place."""
    if span.end - span.start != len(text):
        return span
    return Span(span.path, span.start + start, span.start + end)
