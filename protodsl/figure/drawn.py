"""A figure drawn, as it is kept and as a handout takes it."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Any

# Millimetres of paper for the stature of the body in usual print, where all figures of a sheet have room: looked at on
# whole sheets with 30, 36 and 40. At 30 a plate looks empty, at 40 some exercises no longer fit their page.
SCALE = 36.0
# Nothing is made smaller, so that hands and feet can be told on paper; one panel with the first pose as a shadow takes
# less room. Common practice, no source.
SMALLEST = 24.0
# Stands in a kept drawing where the name of the figure on its page goes.
PREFIX = "figure"
_NAMED = (f'id="{PREFIX}-', f'href="#{PREFIX}-')


@dataclass(frozen=True, slots=True)
class Look:
    """How a figure is drawn: millimetres a stature, the room there is (mm, None: enough), turned round, panels from
    right to left.
    """

    scale: float = SCALE
    room: float | None = None
    mirror: bool = False
    leftward: bool = False


USUAL = Look()


@dataclass(frozen=True, slots=True)
class Drawn:
    """An SVG, its size on paper (mm), the role of the pose in each panel, targets that no panel shows."""

    svg: str
    width_mm: float
    height_mm: float
    roles: tuple[str, ...]
    unshaded: tuple[str, ...]
    digest: str = ""

    def named(self, name: str) -> str:
        """The SVG with a name that no other figure of its page has."""
        svg = self.svg
        for one in _NAMED:
            svg = svg.replace(one, one.replace(PREFIX, name))
        return svg

    def plain(self) -> list[Any]:
        """As plain data."""
        return [self.svg, self.width_mm, self.height_mm, self.roles, self.unshaded, self.digest]


def from_plain(data: Any) -> Drawn:
    """From plain data; TypeError or ValueError where it is other data."""
    svg, width, height, roles, unshaded, digest = data
    return Drawn(str(svg), float(width), float(height), tuple(roles), tuple(unshaded), str(digest))
