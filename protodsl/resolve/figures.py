"""A figure's own lines read: what they say by themselves, before anything is taken from the figure it is like."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace
from itertools import pairwise

from protodsl.diagnostics import figures as say
from protodsl.diagnostics.suggest import nearest
from protodsl.model.figure import DIRECTIONS, VIEWS, Arrow, Distance, Figure, Pose
from protodsl.model.lists import POSITIONS
from protodsl.model.text import Prose
from protodsl.resolve.figure_items import statement
from protodsl.resolve.figure_props import prop
from protodsl.resolve.figure_words import part
from protodsl.resolve.names import Names
from protodsl.syntax import line_of, tree
from protodsl.syntax.figure_lines import items_text
from protodsl.syntax.figure_words import SIDES
from protodsl.syntax.tree import ArrowLine, Item, PoseLine, PropLine, ViewLine

ROLES = ("start", "then", "end")
HALF_KNEELING = "half-kneeling"
_FORWARD = {f"{HALF_KNEELING} {side} foot forward": side for side in SIDES}
_MEANT = {"backward": "back", "backwards": "back", "forwards": "forward", "upwards": "up", "downwards": "down"}
# Words that only a position begins with.
_OPENINGS = ("lying", "sitting on", "on all", "half")


def figure(line: tree.FigureLine, names: Names) -> Figure:
    """What the lines under `figure` say; `view` is "" where none is written."""
    like = names.known("exercises", line.like) if line.like else None
    lines = tuple(Prose(text, names.prefix + "figure", one.head) for one in line.lines for text in _texts(one))
    poses = tuple(_pose(one, names) for one in line.lines if isinstance(one, PoseLine))
    _order(line, names)
    return Figure(
        lines,
        like,
        next((view for one in line.lines if isinstance(one, ViewLine) if (view := _view(one, names))), ""),
        tuple(prop(one, names) for one in line.lines if isinstance(one, PropLine)),
        poses,
        tuple(_arrows(line, names)),
        span=line.span,
    )


def position_of(item: Item) -> tuple[str, str] | None:
    """The position that an item is, with the side of the foot in front in half-kneeling; None where it is none."""
    words = item.part.text
    if item.form != "said":
        return None
    if words in _FORWARD:
        return HALF_KNEELING, _FORWARD[words]
    return (words, "right" if words == HALF_KNEELING else "") if words in POSITIONS else None


def _texts(line: tree.Statement) -> Iterator[str]:
    """The lines of a statement as the formatter writes them."""
    yield line_of(line)
    if isinstance(line, PoseLine):
        yield from (items_text(row) for row in line.rows[1:])


def _view(line: ViewLine, names: Names) -> str | None:
    words = line.view.text.removesuffix(" side") if line.view.text != "side" else "side"
    if words in VIEWS:
        return words
    names.say(say.unknown_view(words, VIEWS, nearest(words, VIEWS), line.view.span))
    return None


def _pose(line: PoseLine, names: Names) -> Pose:
    items = line.items
    first = position_of(items[0]) if items else None
    position, forward = first or (None, "")
    rest = items[1:] if first else items
    said = len(names.said)
    if not first and items and _looks_like_position(items[0]):
        words = items[0].part.text
        names.say(say.unknown_position(words, POSITIONS, nearest(words, POSITIONS), items[0].span))
        rest = items[1:]
    if line.keyword == "start" and not line.but and not first and len(names.said) == said:
        names.say(say.no_position(POSITIONS, line.head))
    statements = []
    for item in rest:
        if position_of(item) is not None:
            names.say(say.position_not_first(item.part.text, item.span))
        elif (found := statement(item, names)) is not None:
            statements.append(found)
            if line.keyword == "start" and isinstance(found, Distance) and found.relation in SIDES:
                why, action = "there is no pose before it", "put it into `then` or `end`"
                names.say(say.cannot_stand_so(items_text((item,)), why, action, item.span))
    return Pose(line.keyword, position, forward, tuple(statements), line.but, span=line.head)


def _looks_like_position(item: Item) -> bool:
    """Whether an item is a position misspelt rather than anything else."""
    words = item.part.text
    return item.form == "said" and (words.startswith(_OPENINGS) or nearest(words, POSITIONS) is not None)


def _order(line: tree.FigureLine, names: Names) -> None:
    """Poses in the order in which they are done, from a start; one that is like another takes that from there."""
    poses = [one for one in line.lines if isinstance(one, PoseLine)]
    if line.like is None and not poses:
        names.say(say.no_pose(line.head))
    elif line.like is None and all(pose.keyword != "start" for pose in poses):
        names.say(say.no_start(poses[0].keyword, poses[0].head))
    for before, pose in pairwise(poses):
        if ROLES.index(pose.keyword) < ROLES.index(before.keyword):
            names.say(say.out_of_order(pose.keyword, before.keyword, pose.head, before.head))
    if line.like is None:
        for pose in poses:
            if pose.but:
                names.say(say.but_without_pose(pose.keyword, pose.head))


def _arrows(line: tree.FigureLine, names: Names) -> Iterator[Arrow]:
    for one in line.lines:
        if isinstance(one, ArrowLine) and (arrow := _arrow(one, names)) is not None:
            yield arrow


def _arrow(line: ArrowLine, names: Names) -> Arrow | None:
    front, _, direction = line.part.text.rpartition(" ")
    direction = _MEANT.get(direction, direction)
    if direction not in DIRECTIONS or not front:
        near = nearest(direction, DIRECTIONS)
        names.say(say.unknown_direction(direction, DIRECTIONS, near, line.part.span))
        return None
    moved = part(replace(line.part, text=front), names)
    return None if moved is None else Arrow(moved, direction, span=line.head)
