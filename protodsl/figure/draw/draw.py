"""A solved figure as one small SVG: panels on one ground, nothing but paths, the same bytes for the same figure."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from protodsl.figure.draw import panels as parts
from protodsl.figure.draw.curve import UNITS, Pen
from protodsl.figure.draw.layers import written
from protodsl.figure.draw.works import shown
from protodsl.figure.drawn import SCALE
from protodsl.figure.posture import STATURE, SolvedFigure

# What is kept of drawings elsewhere is kept by their input and this number: raise it whenever a drawing would differ.
VERSION = 2
# Millimetres: a panel has room for its caption.
_NARROWEST = 20.0


@dataclass(frozen=True, slots=True)
class Drawing:
    """An SVG whose title is still empty, its size on paper (mm), the role of the pose in each panel in reading order.

    `unshaded` are the targets that no panel shows: not in the table of targets, or facing away in this view.
    """

    svg: str
    width_mm: float
    height_mm: float
    roles: tuple[str, ...]
    unshaded: tuple[str, ...]


def draw(
    solved: SolvedFigure,
    works: Sequence[str] = (),
    prefix: str = "figure",
    mirror: bool = False,
    scale: float = SCALE,
    room: float | None = None,
    overlaid: bool = False,
    leftward: bool = False,
) -> Drawing:
    """The drawing of a figure written for the right side; `mirror` draws it for the left.

    `works` are names of targets. `prefix` begins the one id in it, and must differ from figure to figure of a page.
    `scale` is millimetres a stature. Where the panels together are wider than `room` (mm), or `overlaid` is asked for,
    there is one panel: the last pose over the shadow of the first. `leftward` sets the panels from right to left, for
    a page that is read so, and mirrors no body.
    """
    narrowest = _NARROWEST * STATURE / scale
    page = parts.sheet(solved, works, overlaid, narrowest)
    if room is not None and _width(page) * scale / (STATURE * UNITS) > room and len(page.panels) > 1:
        page = parts.sheet(solved, works, True, narrowest)
    width, height = _width(page), parts.size(page)[1]
    fixed = written(parts.ground_layers(page, _pen(page, 0, mirror)))
    elements = [f'<g id="{prefix}-ground">{fixed}</g>' if len(page.panels) > 1 else fixed]
    pitch = parts.size(page)[0] + parts.gap()
    elements += [f'<use href="#{prefix}-ground" x="{pitch * at}"/>' for at in range(1, len(page.panels))]
    for at, panel in enumerate(page.panels):
        place = len(page.panels) - 1 - at if leftward else at
        elements.append(written(parts.layers(panel, _pen(page, place, mirror))))
    k = scale / (STATURE * UNITS)
    size = f'viewBox="0 0 {width} {height}" width="{width * k:.1f}mm" height="{height * k:.1f}mm"'
    svg = (
        f'<svg xmlns="http://www.w3.org/2000/svg" {size} role="img"><title></title>'
        f'<g fill="none" stroke-linejoin="round" stroke-linecap="round">{"".join(elements)}</g></svg>'
    )
    seen = frozenset[str]().union(*(shown(panel.body, panel.marks) for panel in page.panels))
    unshaded = tuple(target for target in works if target not in seen)
    return Drawing(svg, round(width * k, 1), round(height * k, 1), tuple(panel.role for panel in page.panels), unshaded)


def _width(page: parts.Sheet) -> int:
    count = len(page.panels)
    return parts.size(page)[0] * count + parts.gap() * (count - 1)


def _pen(page: parts.Sheet, place: int, mirror: bool) -> Pen:
    """The pen of a panel: its own left, or mirrored its own right, is where the page puts it."""
    left, top, right, _ = (round(edge * UNITS) for edge in page.box)
    start = place * (parts.size(page)[0] + parts.gap())
    return Pen(start + right if mirror else start - left, -top, mirror)
