"""What an exercise works, marked on the skin that is seen: a tone and stripes, clipped to the part's outline."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass
from math import floor, hypot

from protodsl.figure.draw import ink
from protodsl.figure.draw.camera import turned
from protodsl.figure.draw.contour import Loop, Point, area, outlines
from protodsl.figure.draw.curve import Pen
from protodsl.figure.draw.figure_body import INSET, Body, seeds_of
from protodsl.figure.draw.layers import Layer
from protodsl.figure.draw.regions import angle_from, on_skin
from protodsl.figure.draw.shape import SIDES
from protodsl.figure.draw.solid import Skin
from protodsl.figure.draw.targets import PATCHES, Patch

# Centimetres between stripes, what each stops short of the patch's border, and the shortest that is drawn.
_SPACING, _SHORT, _LEAST = 3.6, 0.5, 1.6
# Square centimetres below which a bit of a patch is no more than a spot.
_SPOT = 12.0
# Centimetres of stripes that must be seen for a target to count as shown.
_SEEN = 5.0
_CELL = 1.2


@dataclass(frozen=True, slots=True)
class Region:
    """A target as it lies on one part: its borders and its stripes, in centimetres of the panel."""

    part: str
    target: str
    loops: tuple[Loop, ...]
    stripes: tuple[tuple[Point, Point], ...]


def regions(body: Body, targets: Sequence[str], sides: Sequence[str] = SIDES) -> tuple[Region, ...]:
    """The regions of all targets that the table knows and the camera sees; a far limb, drawn faint, has none."""
    found: list[Region] = []
    for target in targets:
        for patch in PATCHES.get(target.lower(), ()):
            for side in SIDES[:1] if patch.middle else sides:
                found += _region(body, target, patch, side)
    return tuple(found)


def shown(body: Body, found: Sequence[Region]) -> frozenset[str]:
    """The targets of which enough is seen before the parts that are painted later."""
    lengths: dict[str, float] = {}
    for region in found:
        later = [body.parts[name].solid for name in body.order[body.order.index(region.part) + 1 :]]
        for (ax, ay), (bx, by) in region.stripes:
            x, y = (ax + bx) / 2, (ay + by) / 2
            if all(solid.distance(x, y) > 0 for solid in later):
                lengths[region.target] = lengths.get(region.target, 0.0) + hypot(bx - ax, by - ay)
    return frozenset(target for target, length in lengths.items() if length >= _SEEN)


def marks(body: Body, found: Sequence[Region], pen: Pen) -> dict[str, list[Layer]]:
    """The layers of the regions by part: the tones of all of them, then the stripes."""
    layers: dict[str, list[Layer]] = {}
    for name in dict.fromkeys(region.part for region in found):
        mine = [region for region in found if region.part == name]
        tones = ink.FAR if name in body.far else ink.NEAR
        tone = "".join(pen.fresh().closed(loop).data for region in mine for loop in region.loops)
        lines = "".join(pen.fresh().lines(stripe).data for region in mine for stripe in region.stripes)
        layers[name] = [Layer(tone, tones.works), Layer(lines, "", ink.RUST, ink.HATCH)]
    return layers


def _region(body: Body, target: str, patch: Patch, side: str) -> list[Region]:
    name = patch.limb if patch.limb in ("trunk", "head") else f"{side} {patch.limb}"
    if name in body.far:
        return []
    part = body.parts[name]
    limb = patch.limb in ("arm", "leg")
    segment = f"{side} {patch.segment}" if limb else patch.segment
    frame = body.frames[f"{side} {patch.frame}" if limb else patch.frame]
    out = 1.0 if side == "left" else -1.0
    x, y, z = patch.direction
    own = None if limb or patch.middle else _own_half(body, out)
    field = on_skin(part.solid, _covered(patch, segment, angle_from(frame, body.seen, (x, y * out, z)), own), -INSET)
    loops = tuple(loop for loop in outlines(field, seeds_of(part, segment), _CELL) if abs(area(loop)) > 2 * _SPOT)
    stripes = tuple(stripes_of(loops))
    return [Region(name, target, loops, stripes)] if stripes else []


def _own_half(body: Body, out: float) -> Callable[[Skin], float]:
    """How far a place is past the middle of the trunk to the other side, in centimetres."""
    frame = body.frames["lower thorax"]
    ox, oy, oz = body.seen.point(frame.origin)
    dx, dy, dz = body.seen.turned(turned(frame, (0.0, out, 0.0)))

    def past(skin: Skin) -> float:
        x, y, z = skin.at
        return 1.0 - (x - ox) * dx - (y - oy) * dy - (z - oz) * dz

    return past


def _covered(
    patch: Patch, segment: str, angle: Callable[[Skin], float], own: Callable[[Skin], float] | None
) -> Callable[[Skin], float]:
    """A patch with round corners: a superellipse of the way along and the way round, on its own half of the trunk."""
    middle, half = (patch.start + patch.end) / 2, (patch.end - patch.start) / 2

    def covered(skin: Skin) -> float:
        if skin.segment != segment:
            return 1.0
        along, around = abs(skin.along - middle) / half, angle(skin) / patch.width
        inside = 4.0 * (along**4 + around**4 - 1.0)
        return inside if own is None else max(inside, own(skin))

    return covered


def stripes_of(loops: Sequence[Loop]) -> list[tuple[Point, Point]]:
    """Slanting lines inside the loops, rising to the right."""
    edges = [(a, b) for loop in loops for a, b in zip(loop, loop[1:] + loop[:1], strict=True)]
    if not edges:
        return []
    # A line x + y = level is crossed where the sum changes; along it, x - y says where.
    levels = [x + y for (x, y), _ in edges]
    step = _SPACING * 1.4142
    found: list[tuple[Point, Point]] = []
    for number in range(floor(min(levels) / step) + 1, floor(max(levels) / step) + 1):
        level = number * step
        crossed: list[float] = []
        for (ax, ay), (bx, by) in edges:
            a, b = ax + ay - level, bx + by - level
            if (a > 0) != (b > 0):
                share = a / (a - b)
                crossed.append(ax - ay + share * (bx - by - ax + ay))
        crossed.sort()
        for low, high in zip(crossed[::2], crossed[1::2], strict=False):
            low, high = low + 1.4142 * _SHORT, high - 1.4142 * _SHORT
            if high - low > 1.4142 * _LEAST:
                found.append((((level + low) / 2, (level - low) / 2), ((level + high) / 2, (level - high) / 2)))
    return found
