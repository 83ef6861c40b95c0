"""What an exercise shows: its image, or its figure with the lines under it."""

from __future__ import annotations

from protodsl.frozen import frozen
from protodsl.syntax.tree.base import Amount, Name, Node, Statement, Words


@frozen
class FigureLine(Statement):
    """figure [like X] with the lines under it, in the one spelling of each word (syntax/figure_words.py)."""

    like: Name | None
    lines: tuple[Statement, ...] = ()


@frozen
class ImageLine(Statement):
    """image PATH: text alternative."""

    path: Words
    alternative: Words | None


@frozen
class ViewLine(Statement):
    """`view front`."""

    view: Name


@frozen
class PropLine(Statement):
    """`chair 45 cm`, `wall in front`, `pillow under head`, `band from right hand to anchor`, `weight 2 kg on ankles`.

    `place` is "", `in front`, `behind`, `left`, `right`, `from` (two `ends`), or `under`, `between`,
    `around`, `in`, `on` (one).
    """

    size: Amount | None = None
    place: str = ""
    ends: tuple[Name, ...] = ()


@frozen
class Item(Node):
    """One item of a pose.

    `form` is said (`lying on back`, `thighs horizontal`), angle, lean, lift, slide, on, against, under, behind, level,
    or a distance: from, apart, in front of, far behind. `towards` is `right`, `left` or "";
    behind a length it makes an angle a way to that side.
    """

    form: str
    part: Name
    amount: Amount | None = None
    other: Name | None = None
    towards: str = ""
    flat: bool = False


@frozen
class PoseLine(Statement):
    """`start`, `then` or `end` with its items, row by row; the first row, on the line itself, may be empty.

    `but` changes the pose of the figure that this one is like, in place of putting a new one there.
    """

    but: bool
    rows: tuple[tuple[Item, ...], ...]

    @property
    def items(self) -> tuple[Item, ...]:
        """The items of all rows."""
        return tuple(item for row in self.rows for item in row)


@frozen
class ArrowLine(Statement):
    """`arrow right foot up`: the part with its direction behind it."""

    part: Name


FigureStatement = ViewLine | PropLine | PoseLine | ArrowLine
