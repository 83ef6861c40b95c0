"""Elements of WordprocessingML in the order that its schema wants (ISO/IEC 29500-1, annex A)."""

from __future__ import annotations

from typing import Any

from docx.oxml import OxmlElement
from docx.oxml.ns import qn

_ORDERS = """
pStyle keepNext keepLines pageBreakBefore framePr widowControl numPr suppressLineNumbers pBdr shd tabs
suppressAutoHyphens kinsoku wordWrap overflowPunct topLinePunct autoSpaceDE autoSpaceDN bidi adjustRightInd snapToGrid
spacing ind contextualSpacing mirrorIndents suppressOverlap jc textDirection textAlignment textboxTightWrap outlineLvl
divId cnfStyle rPr sectPr pPrChange;

rStyle rFonts b bCs i iCs caps smallCaps strike dstrike outline shadow emboss imprint noProof snapToGrid vanish
webHidden color spacing w kern position sz szCs highlight u effect bdr shd fitText vertAlign rtl cs em lang;

tblStyle tblpPr tblOverlap bidiVisual tblStyleRowBandSize tblStyleColBandSize tblW jc tblCellSpacing tblInd tblBorders
shd tblLayout tblCellMar tblLook tblCaption tblDescription;

cnfStyle tcW gridSpan hMerge vMerge tcBorders shd noWrap tcMar textDirection tcFitText vAlign hideMark;

headerReference footerReference footnotePr endnotePr type pgSz pgMar paperSrc pgBorders lnNumType pgNumType cols
formProt vAlign noEndnote titlePg textDirection bidi rtlGutter docGrid printerSettings
"""
# What may stand in the properties of each, in order.
PARAGRAPH, RUN, TABLE, CELL, SECTION = (tuple(names.split()) for names in _ORDERS.split(";"))


def element(name: str, **attributes: str) -> Any:
    """An element of the main namespace with attributes of the same."""
    made = OxmlElement(f"w:{name}")
    for key, value in attributes.items():
        made.set(qn(f"w:{key}"), value)
    return made


def put(parent: Any, order: tuple[str, ...], name: str, **attributes: str) -> Any:
    """An element in its place among the others of its parent, instead of one that was there."""
    found = parent.find(qn(f"w:{name}"))
    if found is not None:
        parent.remove(found)
    made = element(name, **attributes)
    after = {qn(f"w:{later}") for later in order[order.index(name) + 1 :]}
    place = next((at for at, child in enumerate(parent) if child.tag in after), len(parent))
    parent.insert(place, made)
    return made


def drop(parent: Any, *names: str) -> None:
    """Without these elements."""
    for name in names:
        for found in parent.findall(qn(f"w:{name}")):
            parent.remove(found)


def shade(properties: Any, order: tuple[str, ...], fill: str, pattern: str = "clear", colour: str = "auto") -> None:
    """Ground behind a paragraph or a cell; the pattern is printed in the colour."""
    put(properties, order, "shd", val=pattern, color=colour, fill=fill)
