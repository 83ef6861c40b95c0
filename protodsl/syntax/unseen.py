"""Characters that nobody sees in an editor: they hide, reorder or break what is written, on the screen and on paper."""

from __future__ import annotations

import re
from collections.abc import Iterator
from typing import NamedTuple

# Control characters but tab and line end (ECMA-48), the breaks of Unicode that no editor shows as a line's end, marks
# and controls of direction (UAX 9), zero-width characters and tags. Joiners stay: Persian and emoji need them.
BREAKS = "\x0b\x0c\x85\u2028\u2029"
_CONTROLS = "\x01-\x08\x0b\x0c\x0e-\x1f\x7f-\x9f"
_HIDDEN = "\u180e\u200b\u2028\u2029\u202a-\u202e\u2060-\u2064\u2066-\u206f\ufff9-\ufffb\U000e0001\U000e0020-\U000e007f"
_MARKS = "\u061c\u200e\u200f"
_UNSEEN = re.compile(f"[{_CONTROLS}{_HIDDEN}{_MARKS}]")
_NEVER = re.compile(f"[{_CONTROLS}{_HIDDEN}]")
# Hebrew, Arabic and their neighbours, where a mark of direction has work to do.
_RIGHT_TO_LEFT = re.compile("[\u0590-\u061b\u061d-\u08ff\ufb1d-\ufdff\ufe70-\ufefc]")
_JOINED = re.compile(r" +(?:and|or|if|unless|like|is) +")
_AROUND = re.compile(r"[\w' -]*")


class Unseen(NamedTuple):
    """The unseen characters of one line: where it starts and ends, and where each of them stands."""

    start: int
    end: int
    places: tuple[int, ...]


def unseen(text: str) -> Iterator[Unseen]:
    """Every line that has one; a mark of direction in a line with letters that run right to left is meant."""
    at = 0
    while found := _UNSEEN.search(text, at):
        start = text.rfind("\n", 0, found.start()) + 1
        end = text.find("\n", found.start())
        end = len(text) if end < 0 else end
        pattern = _NEVER if _RIGHT_TO_LEFT.search(text, start, end) else _UNSEEN
        places = tuple(one.start() for one in pattern.finditer(text, start, end))
        if places:
            yield Unseen(start, end, places)
        at = end


def blanked(text: str) -> str:
    """The text with a blank for each of them, so that what stands around them can be read."""
    return _UNSEEN.sub(" ", text)


def names_around(text: str, found: Unseen) -> Iterator[str]:
    """What may be meant for a name around them: as it reads without them, and with a blank for each."""
    line = text[found.start : found.end]
    for whole in (_UNSEEN.sub("", line), _UNSEEN.sub(" ", line)):
        for run in _AROUND.findall(whole):
            for part in _JOINED.split(" ".join(run.split())):
                words = part.split(" ")
                yield from (" ".join(words[at:]) for at in range(min(len(words), 4)))
