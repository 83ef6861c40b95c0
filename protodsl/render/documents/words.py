"""Words of a phrase for text without marks, in order also where one reads from right to left."""

from __future__ import annotations

import re
from collections.abc import Iterable

from protodsl.handout.blocks import Handout, Stop
from protodsl.render.markdown import plain

_RANGE = r"\d+(?:[.,]\d+)?(?:\s?[-–/×:.]\s?\d+(?:[.,]\d+)?)+"
# A line to write on; a message needs no more of it.
_RULE = re.compile(r"_{6,}")
_SHORT_RULE = "______"
_ENDS_A_SENTENCE = (".", "!", "?", ":", ";", "…", "؟", "。", "？", "：")


def phones(page: Handout[str]) -> tuple[str, ...]:
    """The telephone numbers in the STOP part, the longest first."""
    stops = (block for section in page.sections for block in section.blocks if isinstance(block, Stop))
    numbers = (number for stop in stops for group in stop.groups for number in (group.phone, group.other_phone))
    return tuple(sorted({number for number in numbers if number}, key=lambda number: (-len(number), number)))


class Speller:
    """Puts phrases into words; where one reads from right to left, numbers with parts are kept in order.

    A telephone number or `8-12` shows its parts swapped there unless it is isolated (UAX #9, 2.4.2 and X5c: an isolate
    in which nothing has a direction reads from left to right).
    """

    def __init__(self, direction: str, numbers: Iterable[str]) -> None:
        parts = "|".join((*map(re.escape, numbers), _RANGE))
        self._parts = re.compile(rf"(?<!\w)(?:{parts})(?!\w)") if direction == "rtl" else None

    def isolated(self, text: str) -> str:
        """The text, its telephone numbers and ranges isolated where that is needed, lines to write on shortened."""
        text = _RULE.sub(_SHORT_RULE, text)
        if self._parts is None:
            return text
        return self._parts.sub(lambda found: _isolated(found[0]), text)

    def split(self, text: str) -> tuple[tuple[str, bool], ...]:
        """The text in parts, each with whether it reads in the direction of the page; the others are numbers."""
        if self._parts is None:
            return ((text, True),)
        parts: list[tuple[str, bool]] = []
        at = 0
        for found in self._parts.finditer(text):
            parts += [(text[at : found.start()], True), (_isolated(found[0]), False)]
            at = found.end()
        return tuple(part for part in (*parts, (text[at:], True)) if part[0])

    def plain(self, text: str) -> str:
        """The words of a phrase, without marks."""
        return self.isolated(plain(text))


def _isolated(number: str) -> str:
    return f"\N{FIRST STRONG ISOLATE}{number}\N{POP DIRECTIONAL ISOLATE}"


def label(words: str) -> str:
    """A head that stands before its text in one line."""
    return words if words.endswith(_ENDS_A_SENTENCE) else f"{words}:"


def is_empty(words: str) -> bool:
    """Whether a cell holds nothing, or the dash that says so."""
    return words.strip() in ("", "-", "–", "—")
