"""Reading path data back, with the reader of fontTools: what was written as a drawing, as places."""

from __future__ import annotations

import re
from collections.abc import Iterator

from fontTools.pens.recordingPen import RecordingPen
from fontTools.svgLib.path.parser import parse_path

Place = tuple[float, float]

_PATH = re.compile(r'<path d="([^"]*)"([^>]*)/>')


def paths(svg: str) -> Iterator[tuple[str, str]]:
    """The data and the other attributes of each path, in order."""
    for found in _PATH.finditer(svg):
        yield found[1], found[2]


def places(data: str) -> list[Place]:
    """All places of a path, handles of its curves included."""
    pen = RecordingPen()
    parse_path(data, pen)
    return [place for _, points in pen.value for place in points]


def commands(data: str) -> list[str]:
    """The commands of a path by their names in fontTools: moveTo, lineTo, curveTo, closePath, endPath."""
    pen = RecordingPen()
    parse_path(data, pen)
    return [name for name, _ in pen.value]


def sampled(data: str, steps: int = 12) -> list[Place]:
    """Places on the line itself, curves cut into pieces."""
    pen = RecordingPen()
    parse_path(data, pen)
    found: list[Place] = []
    for name, points in pen.value:
        if name == "curveTo":
            ends: list[Place] = [found[-1], *points]
            for step in range(1, steps + 1):
                t = step / steps
                s = 1 - t
                weights = (s**3, 3 * s * s * t, 3 * s * t * t, t**3)
                x = sum(w * at[0] for w, at in zip(weights, ends, strict=True))
                y = sum(w * at[1] for w, at in zip(weights, ends, strict=True))
                found.append((x, y))
        else:
            found += points
    return found
