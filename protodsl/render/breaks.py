"""What is done about an exercise that does not fit the page it stands on: set closer, or parted."""

from __future__ import annotations

import itertools
from collections.abc import Iterator, Mapping
from dataclasses import dataclass, field

from protodsl.render.pagination import Layout, Piece


@dataclass(frozen=True, slots=True)
class Tight:
    """An exercise set closer: how much (1 or 2), and the piece at which it tore before that."""

    level: int
    tear: int = 0


@dataclass(frozen=True, slots=True)
class Breaks:
    """What is done about exercises that are too long for a page, by their ids.

    First they are set closer. Where that does not help they are parted: `partings` are the pieces that begin a page.
    """

    tight: Mapping[str, Tight] = field(default_factory=dict)
    partings: Mapping[str, tuple[int, ...]] = field(default_factory=dict)

    def level(self, exercise: str) -> int:
        """How close an exercise is set: 0 as usual, 1 closer, 2 closer still, its side-heads narrower."""
        return self.tight[exercise].level if exercise in self.tight else 0


UNBROKEN = Breaks()
# How much taller than its page an exercise may be for each level to be tried. Measured on cards of rows and steps, the
# levels save at least 14 and 20 hundredths of the height, and at most 17 and 27.
_WORTH_TRYING = (1.2, 1.37)
# Two exercises of this height together fit a page at the first level.
_PAIR = 1.15
# An exercise that begins no lower than this stands at the head of its page (CSS px).
_HEAD_OF_PAGE = 60
# The piece that stands for what comes before an exercise: the head of its section.
_HEAD = -1


def mended(layout: Layout, breaks: Breaks, closest: int = 2) -> Breaks:
    """The breaks with something done about each torn exercise; the same ones when none is torn.

    `closest` is the last level there is: none in the compact form, which is as close as can be.
    """
    tight, partings = dict(breaks.tight), dict(breaks.partings)
    for exercise, pieces in layout.exercises.items():
        parted = partings.get(exercise, ())
        tear = _tear(pieces, parted)
        if tear is None:
            continue
        before = tight.pop(exercise, None)
        level = 0 if parted else _level(before, _height(pieces) / layout.room)
        if 0 < level <= closest:
            tight[exercise] = Tight(level, before.tear if before else tear)
        else:
            partings[exercise] = (*(one for one in parted if one < tear), before.tear if before else tear)
    return Breaks(tight, partings)


def paired(layout: Layout, breaks: Breaks) -> Breaks:
    """The breaks with those exercises set closer that will then share a page with their neighbour."""
    tight = dict(breaks.tight)
    for first, second in _neighbours(layout):
        if not {first, second} & (tight.keys() | breaks.partings.keys()):
            heights = _height(layout.exercises[first]) + _height(layout.exercises[second])
            if heights <= layout.room * _PAIR:
                tight |= {first: Tight(1), second: Tight(1)}
    return Breaks(tight, breaks.partings)


def _level(before: Tight | None, height: float) -> int:
    """The level to try next for an exercise of this height (in pages); 0 where none will do."""
    if before:
        return 2 if before.level == 1 else 0
    return next((level for level, most in enumerate(_WORTH_TRYING, 1) if height <= most), 0)


def _neighbours(layout: Layout) -> Iterator[tuple[str, str]]:
    """Following exercises of which the first begins a page and the second the next one."""
    for (first, before), (second, after) in itertools.pairwise(layout.exercises.items()):
        pages = {piece.page for piece in before.values()}
        top = before[min(before)]
        at_head = layout.room - top.below - top.height < _HEAD_OF_PAGE
        if len(pages) == 1 and at_head and _HEAD not in after and after[0].page == top.page + 1:
            yield first, second


def _height(pieces: Mapping[int, Piece]) -> float:
    """The height of an exercise with the head over it (CSS px); piece 0 holds the others, as far as its page goes."""
    rows = [pieces[number] for number in sorted(pieces) if number > 0]
    if not rows or rows[0].page != pieces[0].page:
        return sum(piece.height for piece in pieces.values())
    over = pieces[0].below + pieces[0].height - rows[0].below - rows[0].height
    head = pieces[_HEAD].height if _HEAD in pieces else 0
    return head + over + sum(row.height for row in rows)


def _tear(pieces: Mapping[int, Piece], parted: tuple[int, ...]) -> int | None:
    """The piece at which an exercise is to be parted: where it tore, but never the last one alone.

    A line of stations with nothing over it says little.
    """
    order = sorted(pieces)
    last = order[-2] if len(order) > 3 else order[-1]
    for before, piece in itertools.pairwise(order):
        if pieces[piece].page != pieces[before].page and piece not in parted:
            wanted = min(_without_room(pieces) if before == _HEAD else piece, last)
            return wanted if wanted > 0 and wanted not in parted else None
    return None


def _without_room(pieces: Mapping[int, Piece]) -> int:
    """The first piece that has no room on its page once the head that stayed behind stands over the exercise."""
    head, first = pieces[_HEAD], pieces[0].page
    for number in sorted(pieces):
        if number > 0 and (pieces[number].page != first or pieces[number].below < head.height):
            return number
    return max(pieces)
