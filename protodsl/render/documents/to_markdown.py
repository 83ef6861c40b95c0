"""A handout as CommonMark, with the pipe tables of GitHub Flavored Markdown where it has tables."""

from __future__ import annotations

import re
from collections.abc import Iterator
from typing import Any

from markdown_it import MarkdownIt

from protodsl.handout.blocks import Cell, Chart, Handout, Item, PainScale, Picture, StopGroup, Table
from protodsl.outcome import Outcome
from protodsl.render.documents.outline import Heading, Labelled, Listing, Piece, Text, outline
from protodsl.render.documents.words import Speller, phones
from protodsl.render.markdown import Run, runs
from protodsl.render.safety import lost_in_text
from protodsl.render.style import Style

# What would be read as a mark inside a line, and what at the start of one (CommonMark 0.31.2, chapters 4 to 6).
_MARKS = re.compile(r"([\\`*_\[\]<>&|~])")
_STARTS = re.compile(r"(?P<sign>[#+=-])|(?P<number>\d{1,9})(?P<point>[.)])(?=\s|$)")


def markdown(page: Handout[str], style: Style) -> Outcome[bytes]:
    """CommonMark in UTF-8; read back, every safety line is in it, or a diagnostic says which is not."""
    writer = _Writer(Speller(style.direction, phones(page)), style)
    blocks = [block for piece in outline(page) for block in writer.piece(piece)]
    blocks.append(writer.line(page.footer.right))
    whole = "\n\n".join(block for block in blocks if block) + "\n"
    said = lost_in_text(page, read_back(whole))
    return Outcome(None if said else whole.encode(), said)


def read_back(text: str) -> str:
    """The words that a reader of CommonMark shows."""
    words: list[str] = []
    for token in MarkdownIt("commonmark").enable("table").parse(text):
        words += [_shown(child) for child in token.children or ()] if token.type == "inline" else [token.content]
    return " ".join(words)


def _shown(token: Any) -> str:
    return "" if token.type == "html_inline" else str(token.content)


class _Writer:
    """Puts each piece into blocks, between which blank lines go."""

    def __init__(self, spell: Speller, style: Style) -> None:
        self._spell = spell
        self._number = style.number

    def piece(self, piece: Piece) -> Iterator[str]:
        """The blocks of a piece."""
        if isinstance(piece, Heading):
            number = "" if piece.number is None else f"{self._number(piece.number)}. "
            yield self._head(number, piece.text, piece.level)
        elif isinstance(piece, Text):
            strong = piece.role in ("dose", "call")
            yield f"**{self._words(piece.text)}**" if strong and _is_bare(piece.text) else self.line(piece.text)
        elif isinstance(piece, Labelled):
            yield self._head("", piece.head, piece.level)
            yield from self._items(piece.items, piece.numbered)
        elif isinstance(piece, Listing):
            yield "\n".join(self._list(piece.items, piece.numbered, "", piece.origins))
        elif isinstance(piece, StopGroup):
            yield from self._stop_group(piece)
        elif isinstance(piece, Table):
            yield from self._table(piece)
        elif isinstance(piece, Picture):
            yield self.line(piece.alternative)
        elif isinstance(piece, Chart):
            yield self.line(piece.caption)
            yield self.line(piece.alternative)
        else:
            assert isinstance(piece, PainScale), "what needs a pen is left out"

    def line(self, text: str) -> str:
        """A phrase at the start of a block."""
        return _escaped_start(self._words(text))

    def _words(self, text: str) -> str:
        """A phrase within a line: its own emphasis and links, every other mark escaped."""
        return "".join(map(self._run, runs(text))).strip()

    def _run(self, run: Run) -> str:
        words = _escaped(self._spell.isolated(run.text.replace("\n", " ")))
        mark = "*" * (run.emphasis + 2 * run.strong)
        marked = f"{mark}{words}{mark}"
        return f"[{marked}](<{run.address}>)" if run.address else marked

    def _head(self, number: str, text: str, level: int) -> str:
        return f"{'#' * level} {number}{self._words(text)}"

    def _items(self, items: tuple[Item[str], ...], numbered: bool) -> Iterator[str]:
        if len(items) == 1:
            yield self.line(items[0].text)
            items, numbered = items[0].under, False
        if items:
            yield "\n".join(self._list(items, numbered, ""))

    def _list(self, items: tuple[Item[str], ...], numbered: bool, indent: str, origins: bool = False) -> Iterator[str]:
        for at, item in enumerate(items, 1):
            mark = f"{at}. " if numbered else "- "
            origin = f" ({_escaped(item.origin)})" if origins and item.origin else ""
            yield f"{indent}{mark}{self.line(item.text)}{origin}"
            yield from self._list(item.under, False, indent + " " * len(mark))

    def _stop_group(self, group: StopGroup[str]) -> Iterator[str]:
        yield self._head("", group.head, 3)
        if group.phone:
            yield f"**{self._words(group.phone)}**"
        if group.other_hours:
            yield self.line(group.other_hours)
        if group.other_phone:
            yield f"**{self._words(group.other_phone)}**"
        if group.lines:
            yield "\n".join(self._list(group.lines, False, ""))

    def _table(self, table: Table[str]) -> Iterator[str]:
        if table.caption:
            yield self.line(table.caption)
        rows = (*table.rows, table.foot) if table.foot else table.rows
        width = max((len(table.heads), *map(len, rows)))
        heads = [*map(self._words, table.heads), *[""] * (width - len(table.heads))]
        lines = [_table_row(heads), _table_row(["---"] * width)]
        yield "\n".join((*lines, *(self._cells(row, width) for row in rows)))

    def _cells(self, row: tuple[Cell[str], ...], width: int) -> str:
        return _table_row([*(self._words(cell.text) for cell in row), *[""] * (width - len(row))])


def _table_row(cells: list[str]) -> str:
    return f"| {' | '.join(cells)} |"


def _is_bare(text: str) -> bool:
    return not any(run.strong or run.emphasis or run.address for run in runs(text))


def _escaped(words: str) -> str:
    return _MARKS.sub(r"\\\1", words)


def _escaped_start(words: str) -> str:
    """Words that begin a block, and are no head, list or line for all that."""
    match = _STARTS.match(words)
    if match is None:
        return words
    return f"\\{words}" if match["sign"] else f"{match['number']}\\{words[match.start('point') :]}"
