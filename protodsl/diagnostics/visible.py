"""Text made safe and measurable for a terminal: what would act on it is spelled out, and every sign has a width."""

from __future__ import annotations

import re
import unicodedata

# C0 and C1 controls and DEL; zero-width blanks, soft hyphen and the byte-order mark; the bidirectional controls and
# isolates of Unicode (UAX 9), the line and paragraph separators, tags, and lone surrogates. Joiners stay: Persian and
# emoji need them.
_ACTS = re.compile(
    "[\x00-\x1f\x7f-\x9f\u00ad\u061c\u180e\u200b\u200e\u200f\u2028\u2029\u202a-\u202e\u2060-\u206f\ufeff\ufff9-\ufffb"
    "\ud800-\udfff\U000e0000-\U000e007f]"
)


def visible(text: str) -> str:
    """The text with every control that could move, recolour or reorder it spelled out: `<tab>`, `<U+202E>`."""
    return _ACTS.sub(_spell, text)


def width(text: str) -> int:
    """How many cells a terminal gives to the text: two for wide signs (UAX 11), none for combining ones."""
    return len(text) if text.isascii() else sum(map(_cells, text))


def _spell(match: re.Match[str]) -> str:
    sign = match.group()
    return "<tab>" if sign == "\t" else f"<U+{ord(sign):04X}>"


def _cells(sign: str) -> int:
    if unicodedata.category(sign) in ("Mn", "Me", "Cf"):
        return 0
    return 2 if unicodedata.east_asian_width(sign) in ("W", "F") else 1
