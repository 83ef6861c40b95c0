"""Bytes to text: UTF-8, of a sensible size, and text at all."""

from __future__ import annotations

from protodsl.diagnostics import text as say
from protodsl.outcome import Outcome
from protodsl.source import Source, Span

LARGEST_FILE = 5_000_000
LONGEST_LINE = 10_000


def read_source(path: str, data: bytes) -> Outcome[Source]:
    """The text of a file; None where it cannot be read. A byte order mark is dropped, CRLF is kept.

    A text too long in a line is given with that line emptied, so that the rest of it can be checked.
    """
    place = Span(path, 0, 0)
    if len(data) > LARGEST_FILE:
        return Outcome(None, (say.too_large(place, len(data), LARGEST_FILE),))
    if data[:2] in (b"\xff\xfe", b"\xfe\xff"):
        return Outcome(None, (say.not_utf_8(place, 1, data[0]),))
    if b"\0" in data:
        return Outcome(None, (say.binary(place),))
    try:
        text = data.decode("utf-8-sig")
    except UnicodeDecodeError as error:
        before = Source(path, error.object[: error.start].decode("utf-8", "replace"))
        return Outcome(None, (say.not_utf_8(place, before.position(len(before.text))[0], error.object[error.start]),))
    if "\r" in text and "\n" not in text:
        text = text.replace("\r", "\n")
    source = Source(path, text)
    if not text.strip():
        return Outcome(source, (say.empty(place),))
    if len(text) > LONGEST_LINE and max(map(len, text.split("\n"))) > LONGEST_LINE:
        return _without_long_lines(source)
    return Outcome(source)


def _without_long_lines(source: Source) -> Outcome[Source]:
    """The text with blanks for the lines that are too long, which are reported."""
    lines = source.text.split("\n")
    said = []
    at = 0
    for number, line in enumerate(lines):
        if len(line) > LONGEST_LINE:
            said.append(say.line_too_long(Span(source.path, at, at + 1), len(line), LONGEST_LINE))
            lines[number] = " " * len(line)
        at += len(line) + 1
    return Outcome(Source(source.path, "\n".join(lines)), tuple(said))
