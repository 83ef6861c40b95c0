"""The grid of a diary: which boxes there are, and how wide its columns have to be for them."""

from __future__ import annotations

import math
import re
from collections.abc import Iterable
from dataclasses import dataclass
from typing import Any

from jinja2 import pass_context
from jinja2.runtime import Context

from protodsl.handout.blocks import Diary
from protodsl.render.markdown import plain

# The measure in rem, in normal and in large print (178 mm at 12 and 17 pt).
_MEASURE = (42.0, 29.6)
# In rem, by the longest number of an exercise: its width in sheet.css, its border and the space behind it.
_BOXES = (2.0, 2.0, 2.2, 2.65, 3.2, 3.75)
# In rem: a letter of a head, and the room at both sides of a cell.
_LETTER, _SIDES = 0.66, 0.8
# In percent: the most for boxes, and for a column to write a number in.
_MOST_FOR_BOXES, _BLANK = 44, 14


@dataclass(frozen=True, slots=True)
class DiaryGrid:
    """The numbers of the exercises, the characters of the longest, and the widths of the columns in percent.

    `aligned` where the boxes of all exercises fit side by side, so that each has a column of its own.
    """

    numbers: tuple[str, ...]
    longest: int
    widths: tuple[int, ...]
    aligned: bool


@pass_context
def diary_grid(context: Context, diary: Diary[str]) -> DiaryGrid:
    """The grid of a diary, each exercise once and in the order of the numbers."""
    style: Any = context.resolve("style")
    measure = _MEASURE[style.large_print]
    numbers = sorted({number for week in diary.weeks for _, due in week.days for number in due}, key=_order)
    longest = min(max(map(len, numbers), default=1), len(_BOXES) - 1)
    wanted = math.ceil((_BOXES[longest] * len(numbers) + _SIDES) / measure * 100)
    words = [_longest_word((head,), measure) for head in diary.heads]
    words[0] = max(words[0], _longest_word([day for week in diary.weeks for day, _ in week.days], measure, whole=True))
    boxes = max(words[1], min(wanted, _MOST_FOR_BOXES))
    return DiaryGrid(tuple(numbers), longest, _widths([words[0], boxes, *words[2:]]), wanted <= boxes)


def _longest_word(texts: Iterable[str], measure: float, whole: bool = False) -> int:
    """What the longest word takes, or the longest text as a whole, in percent of the measure."""
    words = texts if whole else [word for text in texts for word in plain(text).split()]
    return math.ceil((_LETTER * max(map(len, words), default=1) + _SIDES) / measure * 100)


def _widths(needed: list[int]) -> tuple[int, ...]:
    """A little more for the columns to write a number in, what is then left for the last one, which holds words."""
    for column in range(2, len(needed) - 1):
        needed[column] += max(0, min(_BLANK - needed[column], 100 - sum(needed)))
    needed[-1] += max(0, 100 - sum(needed))
    return tuple(needed)


def _order(number: str) -> tuple[int, str]:
    """By the first number in it: `5–8` comes after `4`."""
    first = re.search(r"\d+", number)
    return (int(first[0]) if first else 0, number)
