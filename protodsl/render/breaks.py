"""What is done about an exercise that does not fit the page it stands on: set a little closer, or parted."""

from __future__ import annotations

import itertools
from collections.abc import Mapping
from dataclasses import dataclass, field

from protodsl.render.pagination import Piece


@dataclass(frozen=True, slots=True)
class Breaks:
    """What is done about exercises that are too long for a page, by their ids.

    First one that is a little too long is set tight; `tight` keeps the piece at which it tore. Where that does not help
    it is parted: `partings` are the pieces that begin a page of their own.
    """

    tight: Mapping[str, int] = field(default_factory=dict)
    partings: Mapping[str, tuple[int, ...]] = field(default_factory=dict)


UNBROKEN = Breaks()
# An exercise of which more pieces than this do not fit is not worth trying to set tight.
_FEW_PIECES = 3
# The piece that stands for what comes before an exercise: the head of its section.
_HEAD = -1


def mended(exercises: Mapping[str, Mapping[int, Piece]], breaks: Breaks) -> Breaks:
    """The breaks with something done about each torn exercise; the same ones when none is torn."""
    tight, partings = dict(breaks.tight), dict(breaks.partings)
    for exercise, pieces in exercises.items():
        parted = partings.get(exercise, ())
        tear = _tear(pieces, parted)
        if tear is None:
            continue
        if exercise in tight:
            partings[exercise] = (tight.pop(exercise),)
        elif not parted and max(pieces) - tear < _FEW_PIECES:
            tight[exercise] = tear
        else:
            partings[exercise] = (*(one for one in parted if one < tear), tear)
    return Breaks(tight, partings)


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
