"""Tables: heads that are repeated on every page, rows that stay whole, mirrored where one reads from right to left."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any

from docx.shared import Emu, Pt

from protodsl.handout.blocks import Diary, PainScale, StopGroup, Table
from protodsl.render.documents.word.elements import CELL, PARAGRAPH, TABLE, element, put, shade
from protodsl.render.documents.word.look import INK, text_width
from protodsl.render.documents.word.paragraphs import Typist
from protodsl.render.markdown import plain

_TINT = "DFE9E7"
_BOX = "□"
_MANY_COLUMNS, _NARROW_HEAD = 6, 22
# White, hatched, black: no colour is needed to tell them apart.
_TONES = (("FFFFFF", "clear", INK), ("FFFFFF", "pct25", INK), (INK, "clear", "FFFFFF"))


def table(typist: Typist, block: Table[str]) -> None:
    """A table as it stands in the handout."""
    if block.caption:
        typist.paragraph(typist.document, block.caption, strong=True).paragraph_format.keep_with_next = True
    rows = (*block.rows, block.foot) if block.foot else block.rows
    width = max((len(block.heads), *map(len, rows)))
    made = _new(typist, width, block.widths, plain(block.caption or ""))
    if block.heads:
        _fill(typist, _row(made, is_head=True), block.heads, strong=len(block.heads))
    for at, row in enumerate(rows):
        cells = _row(made)
        is_foot = bool(block.foot) and at == len(rows) - 1
        _fill(typist, cells, [cell.text for cell in row], strong=len(row) if is_foot else 1)
        for cell, one in zip(cells, row, strict=False):
            if one.on:
                shade(cell._tc.get_or_add_tcPr(), CELL, _TINT)
    _after(typist)


def scale(typist: Typist, block: PainScale[str]) -> None:
    """The pain scale: a word over its numbers."""
    numbers = [(number, band.tone) for band in block.bands for number in range(band.low, band.high + 1)]
    made = _new(typist, len(numbers), (), plain(block.intro))
    heads = _row(made, is_head=True)
    at = 0
    for band in block.bands:
        last = at + band.high - band.low
        cell = heads[at].merge(heads[last])
        _write(typist, cell, band.word, True, band.tone)
        at = last + 1
    for cell, (number, tone) in zip(_row(made), numbers, strict=True):
        _write(typist, cell, typist.style.number(number), True, tone)
    _after(typist)


def diary(typist: Typist, block: Diary[str]) -> None:
    """A row a day, with a box to tick for each number that is due, and room to write."""
    count = len(block.heads)
    widths = (4, 7, *[4] * (count - 2))
    made = _new(typist, count, widths, "")
    _fill(typist, _row(made, is_head=True), block.heads, strong=count)
    for week in block.weeks:
        cells = _row(made)
        _write(typist, cells[0].merge(cells[-1]), week.caption, True)
        cells[0].paragraphs[0].paragraph_format.keep_with_next = True
        for day, due in week.days:
            boxes = "  ".join(f"{_BOX}\N{NO-BREAK SPACE}{number}" for number in due)
            _fill(typist, _row(made), (day, boxes), strong=1)
    _after(typist)


def frame(typist: Typist, groups: Sequence[StopGroup[str]]) -> None:
    """The groups of STOP in a thick frame, under their black head."""
    made = _new(typist, 1, (), "")
    borders = put(made._tbl.tblPr, TABLE, "tblBorders")
    for side in ("top", "left", "bottom", "right"):
        borders.append(element(side, val="single", sz="36", space="0", color=INK))
    borders.append(element("insideH", val="single", sz="8", space="0", color=INK))
    for group in groups:
        (cell,) = _row(made)
        first = cell.paragraphs[0]
        first.style = typist.document.styles["Heading 3"]
        first.paragraph_format.space_before = Pt(4)
        # A row is whole as it is; a head that stays with the next paragraph would hold all rows together.
        first.paragraph_format.keep_with_next = False
        typist.phrase(first, group.head, colour=INK)
        if group.phone:
            typist.large(typist.paragraph(cell, group.phone, strong=True), 2.0 if group.urgent else 1.3)
        if group.other_hours:
            typist.paragraph(cell, group.other_hours)
        if group.other_phone:
            typist.large(typist.paragraph(cell, group.other_phone, strong=True), 1.3)
        typist.listing(cell, group.lines, numbered=False)
    _after(typist)


def _new(typist: Typist, columns: int, widths: Sequence[int], caption: str) -> Any:
    made = typist.document.add_table(0, columns, style="Table Grid")
    made.autofit = False
    properties = made._tbl.tblPr
    if typist.style.direction == "rtl":
        put(properties, TABLE, "bidiVisual")
    put(properties, TABLE, "tblW", type="pct", w="5000")
    margins = put(properties, TABLE, "tblCellMar")
    for side in ("left", "right"):
        margins.append(element(side, w="70", type="dxa"))
    if caption:
        put(properties, TABLE, "tblCaption", val=caption)
    whole = text_width(typist.style)
    shares: Sequence[float] = widths if len(widths) == columns else [100 / columns] * columns
    if typist.style.large_print and columns >= _MANY_COLUMNS:
        # The names of days need more room in large type; what heads a row is broken into lines.
        shares = [min(shares[0], _NARROW_HEAD), *shares[1:]]
    for column, share in zip(made.columns, shares, strict=True):
        column.width = Emu(int(whole * share / sum(shares)))
    return made


def _row(made: Any, is_head: bool = False) -> tuple[Any, ...]:
    row = made.add_row()
    properties = row._tr.get_or_add_trPr()
    properties.append(element("cantSplit"))
    if is_head:
        properties.append(element("tblHeader"))
    return tuple(row.cells)


def _fill(typist: Typist, cells: Sequence[Any], texts: Sequence[str], strong: int) -> None:
    """The first `strong` of them are heads."""
    for at, (cell, text) in enumerate(zip(cells, texts, strict=False)):
        _write(typist, cell, text, at < strong)


def _write(typist: Typist, cell: Any, text: str, strong: bool, tone: int | None = None) -> None:
    paragraph = cell.paragraphs[0]
    paragraph.paragraph_format.space_after = Pt(2)
    if tone is None:
        typist.phrase(paragraph, text, strong)
        return
    fill, pattern, ink = _TONES[tone]
    typist.phrase(paragraph, text, strong, ink)
    shade(cell._tc.get_or_add_tcPr(), CELL, fill, pattern, "8B8F8D" if pattern != "clear" else "auto")
    put(paragraph._p.get_or_add_pPr(), PARAGRAPH, "jc", val="center")


def _after(typist: Typist) -> None:
    """Two tables with nothing between them would become one."""
    made = typist.document.add_paragraph()
    made.paragraph_format.space_after = Pt(0)
    made.paragraph_format.line_spacing = Pt(6)
