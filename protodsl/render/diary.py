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
# In rem, by the length of an exercise's number: its width in sheet.css, its border and the space behind it.
_BOXES = (2.0, 2.0, 2.2, 2.65, 3.2, 3.75)
# In rem: a letter of a head, and the room at both sides of a cell, which is less where the columns are many.
_LETTER, _SIDES, _NARROW_SIDES = 0.63, 0.8, 0.4
# A short word may be all wide letters, as Wed and Mon: it is taken for one of so many.
_FEWEST = 4
# In percent: the most for boxes, and for a column to write a number in.
_MOST_FOR_BOXES, _BLANK = 48, 14


@dataclass(frozen=True, slots=True)
class DiaryGrid:
    """The numbers of the exercises with the class of their boxes, and the widths of the columns in percent.

    `aligned` where the boxes of all exercises fit side by side, so that each has a column of its own; `narrow` where
    the cells have less room at their sides.
    """

    numbers: tuple[tuple[str, int], ...]
    widths: tuple[int, ...]
    aligned: bool
    narrow: bool


@pass_context
def diary_grid(context: Context, diary: Diary[str]) -> DiaryGrid:
    """The grid of a diary, each exercise once and in the order of the numbers."""
    style: Any = context.resolve("style")
    measure = _MEASURE[style.large_print]
    numbers = sorted({number for week in diary.weeks for _, due in week.days for number in due}, key=_order)
    boxes = tuple((number, min(len(number), len(_BOXES) - 1)) for number in numbers)
    # Where the boxes of a day do not fit side by side, cells have less room; then the day may take two lines.
    for sides, split in ((_SIDES, False), (_NARROW_SIDES, False), (_NARROW_SIDES, True)):
        needed, aligned = _needed(diary, boxes, measure, sides, split)
        if aligned and sum(needed) <= 100:
            break
    halves = [math.ceil(_LETTER * (len(plain(head)) / 2 + 1) / measure * 100) for head in diary.heads]
    return DiaryGrid(boxes, _widths(needed, halves), aligned, sides < _SIDES)


def _needed(
    diary: Diary[str], boxes: tuple[tuple[str, int], ...], measure: float, sides: float, split: bool
) -> tuple[list[int], bool]:
    """What each column needs in percent of the measure, and whether all boxes fit side by side."""
    wanted = math.ceil((sum(_BOXES[length] for _, length in boxes) + sides) / measure * 100)
    first, head, *blanks = (_longest(plain(head).split(), measure, sides) for head in diary.heads)
    days = [plain(day) for week in diary.weeks for day, _ in week.days]
    first = max(first, _longest([part for day in days for part in (day.split() if split else [day])], measure, sides))
    width = max(head, min(wanted, _MOST_FOR_BOXES, 100 - first - sum(blanks)))
    return [first, width, *blanks], wanted <= width


def _longest(texts: Iterable[str], measure: float, sides: float) -> int:
    """What the longest of these takes in a line, in percent of the measure."""
    return math.ceil((_LETTER * max(_FEWEST, *map(len, texts), 0) + sides) / measure * 100)


def _widths(needed: list[int], halves: list[int]) -> tuple[int, ...]:
    """What is left, first for heads of many words, so that they take two lines; then to write in, most in the last.

    Where all is too little, every column gives way alike.
    """
    if sum(needed) > 100:
        return tuple(width * 100 // sum(needed) for width in needed)
    for wished in (halves, [_BLANK] * len(needed)):
        for column in range(2, len(needed) - 1):
            needed[column] += max(0, min(wished[column] - needed[column], 100 - sum(needed)))
    needed[-1] += max(0, 100 - sum(needed))
    return tuple(needed)


def _order(number: str) -> tuple[int, str]:
    """By the first number in it: `5–8` comes after `4`."""
    first = re.search(r"\d+", number)
    return (int(first[0]) if first else 0, number)
