"""Head and foot of every page: that it is a draft; whose sheet it is, whom to call, and the number of the page."""

from __future__ import annotations

import re
from typing import Any

from docx.enum.text import WD_TAB_ALIGNMENT

from protodsl.handout.blocks import Footer
from protodsl.render.documents.word.elements import RUN, drop, element, put
from protodsl.render.documents.word.look import text_width
from protodsl.render.documents.word.paragraphs import Typist

_FIELDS = {"{page}": "PAGE", "{pages}": "NUMPAGES"}


def head(typist: Typist, lines: tuple[str, ...]) -> None:
    """What has to be said at the head of every page, if anything has."""
    for at, line in enumerate(lines):
        where = typist.document.sections[0].header
        typist.phrase(where.paragraphs[0] if at == 0 else where.add_paragraph(), line, strong=True)


def foot(typist: Typist, footer: Footer[str]) -> None:
    """The title and whom to call, in one line where there is room; the page below."""
    document = typist.document
    drop(document.styles["Footer"].element.get_or_add_pPr(), "tabs")
    where = document.sections[0].footer
    line = where.paragraphs[0]
    typist.phrase(line, " · ".join(footer.left))
    if typist.style.large_print:
        line = where.add_paragraph()
    else:
        line.paragraph_format.tab_stops.add_tab_stop(text_width(typist.style), WD_TAB_ALIGNMENT.RIGHT)
        line.add_run("\t")
    typist.phrase(line, footer.right)
    numbers = where.add_paragraph()
    for part in re.split(r"(\{pages?\})", footer.page or "{page} / {pages}"):
        if part in _FIELDS:
            numbers._p.append(_field(_FIELDS[part], typist.style.direction))
        else:
            typist.phrase(numbers, part)


def _field(name: str, direction: str) -> Any:
    made = element("fldSimple", instr=name)
    run = element("r")
    if direction == "rtl":
        put(run.get_or_add_rPr(), RUN, "rtl")
    words = element("t")
    words.text = "1"
    run.append(words)
    made.append(run)
    return made
