"""Bytes of a catalogue to text: UTF-8, whatever its header says."""

from __future__ import annotations

import re

from protodsl.diagnostics import catalogues as say
from protodsl.outcome import Outcome
from protodsl.source import Source, Span

_CHARSET = re.compile(rb"charset=([\w.:-]+)")
_BOM = "\ufeff"


def decoded(path: str, data: bytes) -> Outcome[Source]:
    """The text; None where the bytes are not UTF-8. A byte order mark is named and dropped."""
    declared = _CHARSET.search(data)
    try:
        text = data.decode("utf-8")
    except UnicodeDecodeError as error:
        source = Source(path, data[: error.start].decode("utf-8", "replace"))
        at = Span(path, len(source.text), len(source.text))
        line = source.position(len(source.text))[0]
        return Outcome(None, (say.not_utf_8(at, line, declared[1].decode("ascii", "replace") if declared else ""),))
    source = Source(path, text.removeprefix(_BOM).replace("\r\n", "\n"))
    said = []
    if text.startswith(_BOM):
        said.append(say.byte_order_mark(Span(path, 0, 0)))
    if declared and declared[1].lower() not in (b"utf-8", b"utf8"):
        start = source.text.find("charset=")
        place = Span(path, start, start + len("charset=") + len(declared[1]))
        said.append(say.other_charset(place, declared[1].decode("ascii", "replace")))
    return Outcome(source, tuple(said))
