"""What is painted, bottom first: path data with its fill and line, written as SVG with as few elements as may be."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class Layer:
    """Path data (`M...`), a fill ("" for none) and a line of so many units (0: none) in a colour."""

    data: str
    fill: str = ""
    line: str = ""
    width: int = 0


def written(layers: Sequence[Layer]) -> str:
    """The layers as paths; runs of one look become one path. For a group that says `fill="none"` and round joins."""
    merged: list[Layer] = []
    for layer in layers:
        if not layer.data:
            continue
        before = merged[-1] if merged else None
        # Filled areas stay apart: where they overlap, the later one's line must cover the earlier one.
        if (
            before
            and (before.fill, before.line, before.width) == (layer.fill, layer.line, layer.width)
            and not (layer.fill and layer.line)
        ):
            merged[-1] = Layer(before.data + layer.data, layer.fill, layer.line, layer.width)
        else:
            merged.append(layer)
    return "".join(map(_path, merged))


def _path(layer: Layer) -> str:
    fill = f' fill="{layer.fill}"' if layer.fill else ""
    line = f' stroke="{layer.line}" stroke-width="{layer.width}"' if layer.width else ""
    return f'<path d="{layer.data}"{fill}{line}/>'
