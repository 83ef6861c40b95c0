"""The lines of a PO file before they are taken for entries: each is whole, and stands where it may.

The library that reads the entries takes the first and last sign of a string for its quotation marks, whatever they are,
so a mark left out would cost a letter; it also lets a line pass that stands out of order.
"""

from __future__ import annotations

import re

from protodsl.diagnostics import catalogues as say
from protodsl.diagnostics.diagnostic import Diagnostic
from protodsl.source import Source, Span

_STRING = re.compile(r'"(?:[^"\\]|\\.)*"')
_KEYWORD = re.compile(r"(msgctxt|msgid_plural|msgid|msgstr\[\d\]|msgstr)[ \t]+(?=\")")
# What may follow on what; "" is the beginning of an entry.
_NEXT = {
    "": ("msgctxt", "msgid"),
    "msgctxt": ("msgid",),
    "msgid": ("msgid_plural", "msgstr"),
    "msgid_plural": ("msgstr[0]",),
}


def look_at_lines(source: Source) -> tuple[Diagnostic, ...]:
    """The first line that no PO file may hold there; nothing where all are well formed."""
    last = ""
    start = 0
    for raw in source.text.split("\n"):
        span = Span(source.path, start, start + len(raw.rstrip("\r")))
        start += len(raw) + 1
        line = raw.strip()
        if not line or (line.startswith("#") and not line.startswith("#~")) or line.startswith("#~|"):
            continue
        line = line.removeprefix("#~").lstrip()
        found = _KEYWORD.match(line)
        keyword = found[1] if found else ""
        rest = line[found.end() :] if found else line
        if not found and not line.startswith('"'):
            return (say.not_a_catalogue(span, "a line begins with `msgctxt`, `msgid`, `msgstr`, `#` or `\"`"),)
        if not _STRING.fullmatch(rest):
            return (say.not_a_catalogue(span, 'words stand between two `"`, and a `"` among them is written `\\"`'),)
        if keyword:
            if keyword not in _may_follow(last):
                return (say.not_a_catalogue(span, f"`{keyword}` cannot stand {_behind(last)}"),)
            last = keyword
        elif not last:
            return (say.not_a_catalogue(span, "words stand here that belong to no `msgid` and no `msgstr`"),)
    if last and not last.startswith("msgstr"):
        end = len(source.text)
        return (say.not_a_catalogue(Span(source.path, end, end), "the last entry is not whole"),)
    return ()


def _may_follow(last: str) -> tuple[str, ...]:
    if last.startswith("msgstr["):
        return (*_NEXT[""], f"msgstr[{int(last[7:-1]) + 1}]")
    return _NEXT.get(last, _NEXT[""])


def _behind(last: str) -> str:
    return f"behind `{last}`" if last else "at the beginning"
