"""The pieces of a handout written one after the other into a document."""

from __future__ import annotations

import io
import re
from typing import Any

from docx.enum.text import WD_TAB_ALIGNMENT, WD_TAB_LEADER
from docx.shared import Pt

from protodsl.handout.blocks import Chart, Diary, Handout, Lines, PainScale, Picture, StopGroup, Table
from protodsl.render.documents.outline import STOP, Heading, Labelled, Listing, Piece, Text, outline
from protodsl.render.documents.word import tables
from protodsl.render.documents.word.foot import foot, head
from protodsl.render.documents.word.look import new_document, points, text_width
from protodsl.render.documents.word.paragraphs import Typist
from protodsl.render.documents.word.pictures import chart_drawing, dots, image
from protodsl.render.documents.words import Speller, phones
from protodsl.render.markdown import plain
from protodsl.render.style import Style

_EMU_PER_POINT = 12700
# A picture without a size of its own; one on this share of the measure leaves room for the steps below it.
_PICTURE, _CHART = 0.6, 0.8
_SVG_MM = re.compile(r'<svg\b[^>]*\swidth="([\d.]+)mm"')
_EMU_PER_MM = 36000


def document(page: Handout[str], style: Style) -> Any:
    """The whole document, of the library's kind."""
    made = new_document(page, style)
    typist = Typist(made, style, Speller(style.direction, phones(page)))
    head(typist, page.draft)
    foot(typist, page.footer)
    groups: list[StopGroup[str]] = []
    for piece in outline(page, to_write_on=True):
        if isinstance(piece, StopGroup):
            groups.append(piece)
            continue
        if groups:
            tables.frame(typist, groups)
            groups.clear()
        if isinstance(piece, Heading):
            (typist.band if piece.kind == STOP else typist.heading)(piece)
        else:
            _piece(typist, piece)
    if groups:
        tables.frame(typist, groups)
    return made


def _piece(typist: Typist, piece: Piece) -> None:
    if isinstance(piece, Text):
        _text(typist, piece)
    elif isinstance(piece, Listing):
        typist.listing(typist.document, piece.items, piece.numbered, piece.origins)
    elif isinstance(piece, Labelled):
        _labelled(typist, piece)
    elif isinstance(piece, Table):
        tables.table(typist, piece)
    elif isinstance(piece, PainScale):
        tables.scale(typist, piece)
    elif isinstance(piece, Diary):
        tables.diary(typist, piece)
    elif isinstance(piece, Picture):
        _picture(typist, piece)
    elif isinstance(piece, Chart):
        typist.paragraph(typist.document, piece.caption, strong=True).paragraph_format.keep_with_next = True
        _drawn(typist, chart_drawing(piece, typist.style), text_width(typist.style) * _CHART, piece.alternative)
    elif isinstance(piece, Lines):
        _lines(typist, piece)


def _text(typist: Typist, piece: Text) -> None:
    made = typist.paragraph(typist.document, piece.text, strong=piece.role in ("house", "when"))
    if piece.role == "about":
        made.paragraph_format.space_after = Pt(1)
    if piece.role == "dose":
        typist.large(made, 1.2)
    made.paragraph_format.keep_with_next = piece.role in ("when", "dose", "intro") or None


def _labelled(typist: Typist, piece: Labelled) -> None:
    typist.heading(Heading(piece.head, piece.level, "part"))
    items, numbered = piece.items, piece.numbered
    if len(items) == 1:
        typist.paragraph(typist.document, items[0].text)
        items, numbered = items[0].under, False
    typist.listing(typist.document, items, numbered)


def _picture(typist: Typist, piece: Picture[str]) -> None:
    """The picture with its text alternative; where it cannot be made, the alternative stands in its place."""
    whole = text_width(typist.style)
    own = _SVG_MM.search(piece.svg)
    width = min(float(own[1]) * _EMU_PER_MM * points(typist.style) / 12, whole) if own else whole * _PICTURE
    if piece.svg:
        _drawn(typist, piece.svg, width, piece.alternative)
    else:
        _placed(typist, image(piece.data), width, piece.alternative)
    if piece.captions:
        typist.paragraph(typist.document, " · ".join(piece.captions))
    if piece.note:
        typist.paragraph(typist.document, piece.note)


def _drawn(typist: Typist, svg: str, width: float, alternative: str) -> None:
    _placed(typist, dots(svg, width / _EMU_PER_POINT, typist.style), width, alternative)


def _placed(typist: Typist, data: bytes | None, width: float, alternative: str) -> None:
    if data is None:
        typist.paragraph(typist.document, alternative)
        return
    paragraph = typist.document.add_paragraph()
    shape = paragraph.add_run().add_picture(io.BytesIO(data), width=int(width))
    shape._inline.docPr.set("descr", plain(alternative))


def _lines(typist: Typist, piece: Lines[str]) -> None:
    if piece.label:
        typist.paragraph(typist.document, piece.label)
    width = text_width(typist.style)
    for _ in range(piece.count):
        made = typist.document.add_paragraph()
        made.paragraph_format.space_before = Pt(points(typist.style) * 1.2)
        made.paragraph_format.tab_stops.add_tab_stop(width, WD_TAB_ALIGNMENT.RIGHT, WD_TAB_LEADER.LINES)
        made.add_run("\t")
