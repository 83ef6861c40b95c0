"""The lines of a text that hold something, how far each stands from the margin, its comments and its gaps."""

from __future__ import annotations

import re
from collections import Counter
from dataclasses import dataclass

from protodsl.source import Source, Span
from protodsl.syntax import tree

USUAL = 2
# Possessive: a long line of blanks alone would otherwise be tried from each of them.
_CONTENT = re.compile(r"^( *+)(?:(#[^\n]*)|([^\n]*[^ \n]))", re.MULTILINE)
_GAP = re.compile(r"^ *\n *(?=[^ \n])", re.MULTILINE)
_INDENTED = re.compile(r"^( +)[^ #\n]", re.MULTILINE)
_FIRST_STEP = re.compile(r"^[^ #\n][^\n]*\n( +)[^ #\n]", re.MULTILINE)


@dataclass(frozen=True, slots=True)
class Line:
    """A line that holds something: where it starts and ends without its blanks, and how many stand before it."""

    start: int
    end: int
    width: int


@dataclass(frozen=True, slots=True)
class Layout:
    """The lines and comments of a text, where an empty line stands above one, and how many blanks make a step."""

    lines: tuple[Line, ...]
    comments: tuple[tree.Comment, ...]
    gaps: tuple[int, ...]
    step: int


def lay_out(source: Source, plain: str) -> Layout:
    """The layout of a text; `plain` is the text in plain signs."""
    step = _step(plain)
    uneven = "\t" in source.text or source.text.startswith("\ufeff")
    lines: list[Line] = []
    comments: list[tree.Comment] = []
    for found in _CONTENT.finditer(plain):
        start = found.end(1)
        width = _width(source.text[found.start() : start], step) if uneven else start - found.start()
        if found[2] is None:
            lines.append(Line(start, found.end(), width))
        else:
            text = source.text[start : found.end()].rstrip()
            comments.append(tree.Comment(text, width // step, span=Span(source.path, start, start + len(text))))
    return Layout(tuple(lines), tuple(comments), tuple(found.end() for found in _GAP.finditer(plain)), step)


def _width(blanks: str, step: int) -> int:
    """The width of an indent in which a tab goes on to the next step and a byte order mark counts for nothing."""
    width = 0
    for blank in blanks:
        width += step - width % step if blank == "\t" else blank != "\ufeff"
    return width


def _step(plain: str) -> int:
    """How many blanks a step to the right has: two, unless nearly all lines of the text follow another measure."""
    steps = Counter(len(found[1]) for found in _FIRST_STEP.finditer(plain))
    if not steps or steps.keys() == {USUAL}:
        return USUAL
    often = max(steps, key=lambda width: (steps[width], width == USUAL, width))
    widths = Counter(len(found[1]) for found in _INDENTED.finditer(plain))
    fitting = sum(count for width, count in widths.items() if width % often == 0)
    consistent = fitting >= 0.9 * widths.total() and widths[often] >= 0.25 * widths.total()
    return often if consistent and often > 1 else USUAL
