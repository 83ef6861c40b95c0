"""The grid of a diary: which boxes there are, and how wide its columns have to be for them."""

from __future__ import annotations

import math
import re
from dataclasses import dataclass
from typing import Any

from jinja2 import pass_context
from jinja2.runtime import Context

from protodsl.handout.blocks import Diary

# The measure in rem, in normal and in large print (178 mm at 12 and 17 pt).
_MEASURE = (42.0, 29.6)
# In rem, by the longest number of an exercise: its width in sheet.css, its border and the space behind it.
_BOXES = (2.0, 2.0, 2.2, 2.65, 3.2, 3.75)
# In percent, in normal and in large print: the day, the most for boxes, the most for a column to write in.
_DAY, _MOST_FOR_BOXES, _BLANK = (14, 17), (44, 44), (14, 16)


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
    large = int(style.large_print)
    numbers = sorted({number for week in diary.weeks for _, due in week.days for number in due}, key=_order)
    longest = min(max(map(len, numbers), default=1), len(_BOXES) - 1)
    wanted = math.ceil((_BOXES[longest] * len(numbers) + 0.8) / _MEASURE[large] * 100)
    boxes = max(22, min(wanted, _MOST_FOR_BOXES[large]))
    return DiaryGrid(tuple(numbers), longest, _widths(_DAY[large], boxes, diary.blanks, _BLANK[large]), wanted <= boxes)


def _widths(day: int, boxes: int, blanks: int, blank: int) -> tuple[int, ...]:
    """The last column to write in is wider, because it holds words."""
    left = 100 - day - boxes
    if blanks < 2:
        return (day, boxes, *([left] * blanks))
    each = min(blank, left // blanks)
    return (day, boxes, *([each] * (blanks - 1)), left - each * (blanks - 1))


def _order(number: str) -> tuple[int, str]:
    """By the first number in it: `5–8` comes after `4`."""
    first = re.search(r"\d+", number)
    return (int(first[0]) if first else 0, number)
