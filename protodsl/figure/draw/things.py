"""A prop as a panel takes it, and the tones and lines that all props share."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from math import hypot

from protodsl.figure.draw.contour import Point
from protodsl.figure.draw.curve import Pen
from protodsl.figure.draw.layers import Layer
from protodsl.figure.posture import PlacedProp, Vector

WOOD, WOOD_TOP, WOOD_END, CLOTH, LINE = "#ded8c8", "#f1ede2", "#c9c2b0", "#fff", "#5b6366"


@dataclass(frozen=True, slots=True)
class Thing:
    """A prop in a panel: its layers by a pen, and the places it takes up.

    `before` is whether it stands before the body, `fixed` at one place in every panel; one may draw over a `flat` one,
    and sees nothing through a `solid` one.
    """

    paint: Callable[[Pen], list[Layer]]
    corners: tuple[Point, ...]
    before: bool
    fixed: bool
    flat: bool = False
    solid: bool = False

    def box(self) -> tuple[float, float, float, float]:
        """Left, top, right and bottom of what it takes up."""
        xs, ys = [x for x, _ in self.corners], [y for _, y in self.corners]
        return min(xs), min(ys), max(xs), max(ys)


def level_axes(prop: PlacedProp) -> tuple[Vector, Vector]:
    """Towards the body and to the side of it, level and of unit length."""
    x, y, _ = prop.facing
    size = hypot(x, y) or 1.0
    ahead = (x / size, y / size, 0.0)
    return ahead, (-ahead[1], ahead[0], 0.0)
