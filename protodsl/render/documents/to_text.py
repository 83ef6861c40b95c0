"""A handout as plain text that fits a message: lines of 64 columns, no tables, nothing that needs a pen."""

from __future__ import annotations

import textwrap
from collections.abc import Iterator

from protodsl.handout.blocks import Cell, Chart, Handout, Item, PainScale, Picture, StopGroup, Table
from protodsl.outcome import Outcome
from protodsl.render.documents.outline import PART, TITLE, Heading, Labelled, Listing, Piece, Text, outline
from protodsl.render.documents.words import Speller, is_empty, label, phones
from protodsl.render.safety import lost_in_text
from protodsl.render.style import Style

COLUMNS = 64
_BULLET = "• "
# Holds together what stands in one line, while lines are made; in no text, because no document may hold it.
_GLUE = "\x1f"
# Cells no longer than this stand in one line behind the heads of their columns.
_SHORT_CELL = 10
# A first cell no longer than this is a number or a letter, and says nothing alone.
_SHORT_FIRST = 4


def text(page: Handout[str], style: Style) -> Outcome[bytes]:
    """Plain text in UTF-8 with every safety line in it, or a diagnostic for each that is not."""
    numbers = phones(page)
    writer = _Writer(Speller(style.direction, numbers), style, numbers)
    lines: list[str] = []
    before: Piece | None = None
    for piece in outline(page):
        found = [line for block in writer.piece(piece) for line in block]
        begins = next((at for at, line in enumerate(found) if line), 0)
        if isinstance(before, Listing) and isinstance(piece, Listing):
            lines.append("")
        lines += found[begins:] if isinstance(before, Heading) and not isinstance(piece, Heading) else found
        before = piece
    whole = "\n".join((*lines, "", *writer.wrapped(writer.words(page.footer.right)))).strip("\n") + "\n"
    said = lost_in_text(page, whole)
    return Outcome(None if said else whole.encode(), said)


class _Writer:
    """Puts each piece into lines; a piece that begins something new has a blank line before it."""

    def __init__(self, spell: Speller, style: Style, phones: tuple[str, ...]) -> None:
        self._spell = spell
        self._phones = phones
        self._number = style.number

    def words(self, phrase: str) -> str:
        """The words of a phrase, with telephone numbers that are not parted at the end of a line."""
        words = self._spell.plain(phrase)
        for phone in self._phones:
            words = words.replace(phone, phone.replace(" ", _GLUE))
        return words

    def piece(self, piece: Piece) -> Iterator[list[str]]:
        """The lines of a piece."""
        if isinstance(piece, Heading):
            yield from self._heading(piece)
        elif isinstance(piece, Text):
            new = [] if piece.role in ("house", "about", "when", "dose") else [""]
            yield [*new, *self.wrapped(self.words(piece.text))]
        elif isinstance(piece, Labelled):
            yield from self._labelled(label(self.words(piece.head)), piece)
        elif isinstance(piece, Listing):
            yield list(self._list(piece.items, piece.numbered, 0, piece.origins))
        elif isinstance(piece, StopGroup):
            yield from self._stop_group(piece)
        elif isinstance(piece, Table):
            yield from self._table(piece)
        elif isinstance(piece, Picture):
            yield ["", *self.wrapped(f"[{self.words(piece.alternative)}]")]
        elif isinstance(piece, Chart):
            yield ["", *self.wrapped(self.words(piece.caption)), *self.wrapped(self.words(piece.alternative))]
        else:
            assert isinstance(piece, PainScale), "what needs a pen is left out"

    def wrapped(self, words: str, first: str = "", rest: str = "") -> list[str]:
        """Lines of at most COLUMNS; only a word longer than that is longer."""
        lines = textwrap.wrap(
            words,
            COLUMNS,
            initial_indent=first,
            subsequent_indent=rest,
            break_long_words=False,
            break_on_hyphens=False,
        )
        return [line.replace(_GLUE, " ") for line in lines]

    def _heading(self, piece: Heading) -> Iterator[list[str]]:
        words = self.words(piece.text)
        if piece.number is not None:
            words = f"{self._number(piece.number)}. {words}"
        if piece.kind in (TITLE, PART):
            yield [*([] if piece.kind == TITLE else [""]), *self.wrapped(words)]
        else:
            yield ["", *self.wrapped(f"== {words} ==", rest="   ")]

    def _stop_group(self, group: StopGroup[str]) -> Iterator[list[str]]:
        head = self.words(group.head)
        yield ["", *self.wrapped(f"{label(head)} {self.words(group.phone)}" if group.phone else label(head), rest="  ")]
        if group.other_hours:
            phone = self.words(group.other_phone or "")
            yield self.wrapped(f"{label(self.words(group.other_hours))} {phone}", rest="  ")
        yield list(self._list(group.lines, False, 0))

    def _labelled(self, head: str, piece: Labelled) -> Iterator[list[str]]:
        if len(piece.items) == 1:
            only = piece.items[0]
            yield self.wrapped(f"{head} {self.words(only.text)}", rest="  ")
            yield list(self._list(only.under, False, 1))
        elif piece.items:
            yield [*self.wrapped(head), *self._list(piece.items, piece.numbered, 1)]

    def _list(self, items: tuple[Item[str], ...], numbered: bool, depth: int, origins: bool = False) -> Iterator[str]:
        for at, item in enumerate(items, 1):
            mark = "  " * depth + (f"{self._number(at)}. " if numbered else _BULLET)
            words = self.words(item.text) + (f" ({item.origin})" if origins and item.origin else "")
            yield from self.wrapped(words, mark, " " * len(mark))
            yield from self._list(item.under, False, depth + 1)

    def _table(self, table: Table[str]) -> Iterator[list[str]]:
        yield [""]
        if table.caption:
            yield self.wrapped(label(self.words(table.caption)))
        rows = (*table.rows, table.foot) if table.foot else table.rows
        others = [self.words(cell.text) for row in rows for cell in row[1:]]
        short = len(table.heads) > 2 and all(len(words) <= _SHORT_CELL for words in others)
        heads = [self.words(head) for head in table.heads]
        for row in rows:
            yield self._short_row(heads, row) if short else self._long_row(heads, row)

    def _short_row(self, heads: list[str], row: tuple[Cell[str], ...]) -> list[str]:
        """`Heel raise: Mon 5 · Wed 5 · Fri 5`."""
        first, *others = (self.words(cell.text) for cell in row)
        said = [f"{head}{_GLUE}{words}" for head, words in zip(heads[1:], others, strict=False) if not is_empty(words)]
        return self.wrapped(f"{label(first)} {' · '.join(said) or '–'}", rest="  ")

    def _long_row(self, heads: list[str], row: tuple[Cell[str], ...]) -> list[str]:
        """The first cell, then a line for each of the others behind the head of its column."""
        cells = [self.words(cell.text) for cell in row]
        heads = heads or [""] * len(cells)
        found = [(head, words) for head, words in zip(heads, cells, strict=False) if not is_empty(words)]
        first = _BULLET
        if len(found) > 1 and len(found[0][1]) <= _SHORT_FIRST:
            first = f"{found[0][1].rstrip('.')}. "
            del found[0]
        lines: list[str] = []
        for at, (head, words) in enumerate(found):
            indent = "  " if at else first
            told = f"{label(head)} {words}" if at and head else words
            lines += self.wrapped(told, indent, "    " if at else " " * len(first))
        return lines


