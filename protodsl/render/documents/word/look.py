"""How a document is set: paper, type, language, direction, the numbering of lists."""

from __future__ import annotations

import datetime
from typing import Any

import docx
from docx.oxml.ns import qn
from docx.shared import Mm, Pt, RGBColor

from protodsl.handout.blocks import Handout
from protodsl.render.documents.word.elements import PARAGRAPH, RUN, SECTION, drop, element, put
from protodsl.render.markdown import plain
from protodsl.render.style import Style

INK, SEA = "1B242B", "0D4650"
# On nearly every machine, or a face of the same widths; a word processor cannot be given a font that is not installed.
_FACE = "Arial"
_SIZES = {"A4": (Mm(210), Mm(297)), "Letter": (Mm(215.9), Mm(279.4))}
_SIDE, _TOP, _BOTTOM = Mm(18), Mm(15), Mm(18)
# Heads from the first level on, in parts of the size of the text.
_HEADS = (2.0, 1.5, 1.3, 1.0, 1.0, 1.0)
_MOMENT = datetime.datetime(1980, 1, 1, tzinfo=datetime.UTC)
BULLETS, NUMBERS = 901, 902
_LEVELS = 3
_FIRST, _STEP = 540, 360


def points(style: Style) -> float:
    """The size of the text: 12 points, 18 in large print, 11 in compact."""
    return 18 if style.large_print else 11 if style.compact else 12


def new_document(page: Handout[str], style: Style) -> Any:
    """An empty document with everything but its content."""
    made = docx.Document()
    _properties(made, page, style)
    _paper(made, style)
    _type(made, style)
    _lists(made)
    return made


def text_width(style: Style) -> int:
    """The width between the margins, in English Metric Units."""
    return int(_SIZES[style.paper][0] - 2 * _SIDE)


def _properties(made: Any, page: Handout[str], style: Style) -> None:
    about = made.core_properties
    about.title, about.author = plain(page.title), plain(page.masthead.clinic)
    about.language, about.identifier = style.language, page.digest
    about.comments = about.last_modified_by = ""
    about.created = about.modified = _MOMENT
    about.revision = 1
    package = made.part.package
    for key in [key for key, one in package.rels.items() if one.reltype.endswith("/thumbnail")]:
        del package.rels[key]


def _paper(made: Any, style: Style) -> None:
    section = made.sections[0]
    section.page_width, section.page_height = _SIZES[style.paper]
    section.left_margin = section.right_margin = _SIDE
    section.top_margin, section.bottom_margin = _TOP, _BOTTOM
    section.header_distance = section.footer_distance = Mm(8)
    if style.direction == "rtl":
        put(section._sectPr, SECTION, "bidi")


def _type(made: Any, style: Style) -> None:
    size = points(style)
    defaults = made.styles.element.find(qn("w:docDefaults")).find(qn("w:rPrDefault")).find(qn("w:rPr"))
    put(defaults, RUN, "lang", val=style.language, eastAsia=style.language, bidi=style.language)
    normal = made.styles["Normal"]
    _face(normal, size)
    normal.paragraph_format.space_after = Pt(size * (0.2 if style.compact else 0.4))
    normal.paragraph_format.line_spacing = 1.0 if style.compact else 1.15
    if style.direction == "rtl":
        put(normal.element.get_or_add_pPr(), PARAGRAPH, "bidi")
    for level, share in enumerate(_HEADS, 1):
        head = made.styles[f"Heading {level}"]
        _face(head, round(size * share * 2) / 2)
        head.font.bold, head.font.italic, head.font.color.rgb = True, False, RGBColor.from_string(SEA)
        put(head.element.get_or_add_rPr(), RUN, "bCs")
        drop(head.element.get_or_add_rPr(), "i", "iCs")
        form = head.paragraph_format
        form.space_before, form.space_after = Pt(size * (1.4 if level <= 3 else 0.5)), Pt(size * 0.25)
        form.keep_with_next = True
    for name in ("List Bullet", "List Number"):
        _face(made.styles[name], size)
        drop(made.styles[name].element.get_or_add_pPr(), "numPr", "ind", "contextualSpacing")
        made.styles[name].paragraph_format.space_after = Pt(size * 0.2)


def _face(style: Any, size: float) -> None:
    properties = style.element.get_or_add_rPr()
    put(properties, RUN, "rFonts", ascii=_FACE, hAnsi=_FACE, cs=_FACE, eastAsia=_FACE)
    for name in ("sz", "szCs"):
        put(properties, RUN, name, val=str(int(size * 2)))


def _lists(made: Any) -> None:
    """Two kinds of list; each numbered list gets a number of its own, so that it begins with 1."""
    numbering = made.part.numbering_part.element
    first = next((at for at, child in enumerate(numbering) if child.tag == qn("w:num")), len(numbering))
    for kind, form in ((BULLETS, "bullet"), (NUMBERS, "decimal")):
        lists = element("abstractNum", abstractNumId=str(kind))
        lists.append(element("multiLevelType", val="hybridMultilevel"))
        for level in range(_LEVELS):
            lists.append(_level(level, form))
        numbering.insert(first, lists)
    bullets = element("num", numId=str(BULLETS))
    bullets.append(element("abstractNumId", val=str(BULLETS)))
    numbering.append(bullets)


def _level(level: int, form: str) -> Any:
    made = element("lvl", ilvl=str(level))
    made.append(element("start", val="1"))
    made.append(element("numFmt", val=form))
    made.append(element("lvlText", val="•" if form == "bullet" else f"%{level + 1}."))
    made.append(element("lvlJc", val="left"))
    properties = element("pPr")
    properties.append(element("ind", left=str(_FIRST + _STEP * level), hanging=str(_STEP)))
    made.append(properties)
    return made
