"""The pieces of a handout written one after the other into a document."""

from __future__ import annotations

import io
from typing import Any

from docx.shared import Pt

from protodsl.handout.blocks import Chart, Diary, Handout, Lines, PainScale, Picture, StopGroup, Table
from protodsl.render.documents.outline import STOP, Heading, Labelled, Listing, Piece, Text, outline
from protodsl.render.documents.word import tables
from protodsl.render.documents.word.elements import PARAGRAPH, element, put
from protodsl.render.documents.word.look import INK, new_document, points, text_width
from protodsl.render.documents.word.paragraphs import Typist
from protodsl.render.documents.word.pictures import dots, image
from protodsl.render.documents.words import Speller, phones
from protodsl.render.markdown import plain
from protodsl.render.style import Style

_EMU_PER_POINT = 12700
# A picture on this share of the measure leaves room for the steps below it.
_PICTURE = 0.8


def document(page: Handout[str], style: Style) -> Any:
    """The whole document, of the library's kind."""
    made = new_document(page, style)
    typist = Typist(made, style, Speller(style.direction, phones(page)))
    groups: list[StopGroup[str]] = []
    for piece in outline(page, to_write_on=True):
        if isinstance(piece, StopGroup):
            groups.append(piece)
            continue
        if groups:
            tables.frame(typist, groups)
            groups.clear()
        _piece(typist, piece)
    if groups:
        tables.frame(typist, groups)
    return made


def _piece(typist: Typist, piece: Piece) -> None:
    if isinstance(piece, Heading):
        if piece.kind == STOP:
            typist.band(piece)
        else:
            typist.heading(piece)
    elif isinstance(piece, Text):
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
        typist.paragraph(typist.document, piece.alternative)
    elif isinstance(piece, Lines):
        _lines(typist, piece)


def _text(typist: Typist, piece: Text) -> None:
    made = typist.paragraph(typist.document, piece.text, strong=piece.role in ("house", "when"))
    if piece.role == "about":
        made.paragraph_format.space_after = Pt(1)
    if piece.role == "dose":
        typist.large(made, 1.2)
    made.paragraph_format.keep_with_next = piece.role in ("when", "dose") or None


def _labelled(typist: Typist, piece: Labelled) -> None:
    typist.heading(Heading(piece.head, piece.level, "part"))
    items, numbered = piece.items, piece.numbered
    if len(items) == 1:
        typist.paragraph(typist.document, items[0].text)
        items, numbered = items[0].under, False
    typist.listing(typist.document, items, numbered)


def _picture(typist: Typist, piece: Picture[str]) -> None:
    """The picture with its text alternative; where it cannot be made, the alternative stands in its place."""
    width = text_width(typist.style) * _PICTURE
    data = dots(piece.svg, width / _EMU_PER_POINT, typist.style) if piece.svg else image(piece.data)
    words = plain(piece.alternative)
    if data is None:
        typist.paragraph(typist.document, piece.alternative)
    else:
        paragraph = typist.document.add_paragraph()
        shape = paragraph.add_run().add_picture(io.BytesIO(data), width=int(width))
        shape._inline.docPr.set("descr", words)
        paragraph.paragraph_format.keep_with_next = True
    if piece.captions:
        typist.paragraph(typist.document, " · ".join(piece.captions))


def _lines(typist: Typist, piece: Lines[str]) -> None:
    if piece.label:
        typist.paragraph(typist.document, piece.label)
    for _ in range(piece.count):
        made = typist.document.add_paragraph()
        made.paragraph_format.space_before = Pt(points(typist.style) * 1.2)
        borders = put(made._p.get_or_add_pPr(), PARAGRAPH, "pBdr")
        borders.append(element("bottom", val="single", sz="4", space="1", color=INK))
        # Lines of one kind of border count as one box, unless something parts them.
        borders.append(element("between", val="single", sz="4", space="1", color=INK))
