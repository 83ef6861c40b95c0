"""Paragraphs, heads and lists: phrases put into runs, each with its look and direction."""

from __future__ import annotations

from typing import Any

from docx.opc.constants import RELATIONSHIP_TYPE
from docx.shared import Pt

from protodsl.handout.blocks import Item
from protodsl.render.documents.outline import Heading
from protodsl.render.documents.word.elements import PARAGRAPH, RUN, element, put, shade
from protodsl.render.documents.word.look import BULLETS, INK, NUMBERS, points
from protodsl.render.documents.words import Speller
from protodsl.render.markdown import runs
from protodsl.render.style import Style


class Typist:
    """Writes into a document, or a cell of one of its tables."""

    def __init__(self, document: Any, style: Style, spell: Speller) -> None:
        self.document = document
        self.style = style
        self._spell = spell
        self._next_list = NUMBERS

    def paragraph(self, where: Any, text: str, look: str | None = None, strong: bool = False) -> Any:
        """A paragraph at the end of a document or cell."""
        made = where.add_paragraph(style=look)
        self.phrase(made, text, strong)
        return made

    def phrase(self, paragraph: Any, text: str, strong: bool = False, colour: str = "") -> None:
        """A phrase at the end of a paragraph: its own emphasis and links."""
        for one in runs(text):
            for words, has_direction in self._spell.split(one.text.replace("\n", " ")):
                run = paragraph.add_run(words)
                self._set(run, one.strong or strong, one.emphasis, has_direction, colour)
                if one.address:
                    self._link(paragraph, run, one.address)

    def heading(self, head: Heading) -> None:
        """A head in the style of its level, so that it is found in the outline."""
        number = "" if head.number is None else f"{self.style.number(head.number)}. "
        made = self.document.add_paragraph(style=f"Heading {head.level}")
        if number:
            self.phrase(made, number)
        self.phrase(made, head.text)
        made.paragraph_format.page_break_before = head.new_page or None

    def band(self, head: Heading) -> None:
        """The head of STOP: white on black, printed on any machine."""
        made = self.document.add_paragraph(style=f"Heading {head.level}")
        self.phrase(made, head.text, colour="FFFFFF")
        shade(made._p.get_or_add_pPr(), PARAGRAPH, INK)
        made.paragraph_format.space_after = Pt(0)

    def listing(self, where: Any, items: tuple[Item[str], ...], numbered: bool, origins: bool = False) -> None:
        """A real list; a numbered one begins with 1."""
        kind = self._new_list() if numbered else BULLETS
        self._items(where, items, kind, 0, origins)

    def _items(self, where: Any, items: tuple[Item[str], ...], kind: int, level: int, origins: bool) -> None:
        for item in items:
            made = where.add_paragraph(style="List Bullet" if kind == BULLETS else "List Number")
            self.phrase(made, item.text)
            if origins and item.origin:
                self.phrase(made, f" ({item.origin})")
            numbers = put(made._p.get_or_add_pPr(), PARAGRAPH, "numPr")
            numbers.append(element("ilvl", val=str(min(level, 2))))
            numbers.append(element("numId", val=str(kind)))
            self._items(where, item.under, BULLETS, level + 1, False)

    def _new_list(self) -> int:
        self._next_list += 1
        numbers = element("num", numId=str(self._next_list))
        numbers.append(element("abstractNumId", val=str(NUMBERS)))
        again = element("lvlOverride", ilvl="0")
        again.append(element("startOverride", val="1"))
        numbers.append(again)
        self.document.part.numbering_part.element.append(numbers)
        return self._next_list

    def _set(self, run: Any, strong: bool, emphasis: bool, has_direction: bool, colour: str) -> None:
        properties = run._r.get_or_add_rPr()
        for chosen, names in ((strong, ("b", "bCs")), (emphasis, ("i", "iCs"))):
            for name in names if chosen else ():
                put(properties, RUN, name)
        if colour:
            put(properties, RUN, "color", val=colour)
        if has_direction and self.style.direction == "rtl":
            put(properties, RUN, "rtl")

    def _link(self, paragraph: Any, run: Any, address: str) -> None:
        relation = paragraph.part.relate_to(address, RELATIONSHIP_TYPE.HYPERLINK, is_external=True)
        link = element("hyperlink")
        link.set("{http://schemas.openxmlformats.org/officeDocument/2006/relationships}id", relation)
        paragraph._p.remove(run._r)
        link.append(run._r)
        paragraph._p.append(link)

    def large(self, paragraph: Any, share: float) -> None:
        """The runs of a paragraph in larger type."""
        for run in paragraph.runs:
            for name in ("sz", "szCs"):
                put(run._r.get_or_add_rPr(), RUN, name, val=str(int(points(self.style) * share * 2)))


