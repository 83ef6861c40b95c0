"""A drawing as dots, for programs that show no SVG: set by the library that sets the PDF, so both look the same."""

from __future__ import annotations

import base64
import io
import re
from xml.etree.ElementTree import Element, ParseError, fromstring

import pypdfium2

from protodsl.handout.blocks import Chart
from protodsl.render.environment import context, environment
from protodsl.render.style import Style
from protodsl.render.typesetting import typesetter

_DOTS_PER_INCH = 220
_POINTS_PER_INCH = 72
_MM_PER_POINT = 25.4 / 72
_VIEW_BOX = re.compile(r'viewBox="\s*[-\d.]+[\s,]+[-\d.]+[\s,]+([\d.]+)[\s,]+([\d.]+)')
_DRAWING = re.compile(r"<svg\b.*?</svg>", re.DOTALL)
_DATA = re.compile(r"data:image/(?:png|jpeg|gif);base64,(.+)", re.DOTALL)


def dots(svg: str, width: float, style: Style) -> bytes | None:
    """The drawing as PNG, `width` points wide; None where it cannot be set on this machine."""
    box = _VIEW_BOX.search(svg)
    setter = typesetter(style.cache_folder).value
    if box is None or setter is None:
        return None
    height = width * float(box[2]) / float(box[1])
    try:
        drawing = fromstring(svg[max(svg.find("<svg"), 0) :])
    except ParseError:
        return None
    for name in ("width", "height", "style"):
        drawing.attrib.pop(name, None)
    drawing.set("style", f"display:block;width:{width:.2f}pt;height:{height:.2f}pt")
    root = Element("html", {"lang": style.language})
    Element("title")
    body = Element("body")
    body.append(drawing)
    root.append(body)
    rules = f"@page {{ size: {width:.2f}pt {height:.2f}pt; margin: 0 }} body {{ margin: 0 }}"
    pages = setter.pages(root, None, (rules,))
    return _first_page(pages.write_pdf())


def chart_drawing(chart: Chart[str], style: Style) -> str:
    """The chart as SVG, by the template that draws it on every other page; empty where a clinic's own draws none."""
    template = environment(style).get_template("blocks/chart.html.j2")
    try:
        found = _DRAWING.search(template.render(context(style, block=chart, phones=())))
    except Exception:  # a template is somebody else's program; what it should say stands in words all the same
        return ""
    return found[0] if found else ""


def image(address: str) -> bytes | None:
    """The bytes of a picture that is written into its own address; None for a kind that has no place in a document."""
    found = _DATA.fullmatch(address)
    return base64.b64decode(found[1]) if found else None


def _first_page(data: bytes) -> bytes:
    document = pypdfium2.PdfDocument(data)
    try:
        page = document[0].render(scale=_DOTS_PER_INCH / _POINTS_PER_INCH).to_pil()
    finally:
        document.close()
    whole = io.BytesIO()
    page.convert("RGB").save(whole, "PNG", optimize=True)
    return whole.getvalue()
