"""Content lines of iCalendar: escaped, folded at 75 octets, ended with CRLF (RFC 5545, sections 3.1 and 3.3.11)."""

from __future__ import annotations

import datetime
import re
from collections.abc import Iterable

_LONGEST = 75
# CONTROL of the grammar in section 3.1, but for the tab; a line end is escaped and never stands in a value.
_CONTROL = re.compile(r"[\x00-\x08\x0b-\x1f\x7f]")


def text(value: str) -> str:
    """A value of type TEXT: backslash, semicolon, comma and line end escaped, control characters left out."""
    escaped = value.replace("\r\n", "\n").replace("\\", "\\\\").replace(";", "\\;").replace(",", "\\,")
    return _CONTROL.sub("", escaped.replace("\n", "\\n"))


def day(value: datetime.date) -> str:
    """A value of type DATE, which is floating: the same day wherever the person is."""
    return f"{value:%Y%m%d}" if value.year > 999 else value.isoformat().replace("-", "")


def moment(value: datetime.date) -> str:
    """The first second of a day as a DATE-TIME in UTC."""
    return f"{day(value)}T000000Z"


def lines(content: Iterable[tuple[str, str]]) -> bytes:
    """Names (with their parameters) and values as the bytes of a file."""
    return b"".join(_folded(f"{name}:{value}".encode()) for name, value in content)


def _folded(line: bytes) -> bytes:
    """One line in pieces of 75 octets at most, with the blank that begins each further one; no character is cut."""
    pieces: list[bytes] = []
    while len(line) > _LONGEST:
        cut = _LONGEST
        while line[cut] & 0xC0 == 0x80:
            cut -= 1
        pieces.append(line[:cut])
        line = b" " + line[cut:]
    return b"\r\n".join((*pieces, line)) + b"\r\n"
