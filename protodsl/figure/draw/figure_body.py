"""One body in one pose and view, as layers: each part filled, clothed, marked where it works, and outlined once."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from math import hypot

from protodsl.figure.draw import ink
from protodsl.figure.draw.camera import Camera, placed, turned
from protodsl.figure.draw.contour import Field, Loop, Point, outlines
from protodsl.figure.draw.curve import UNITS, Pen
from protodsl.figure.draw.layers import Layer
from protodsl.figure.draw.order import back_to_front, far_limbs
from protodsl.figure.draw.regions import garment, hair
from protodsl.figure.draw.shape import Part, parts
from protodsl.figure.draw.solid import Solid
from protodsl.figure.posture import STATURE, Frame

# Within so many centimetres of its joint a limb has no line of its own on the trunk: it grows out of it.
_SEAM = {"arm": 9.0, "leg": 14.5, "head": 9.0}
# Half a line in centimetres, so that nothing lies over it; and how far a garment reaches under a line that comes later.
INSET = ink.LINE / UNITS / 2
_RIM = 0.5
# Grid cells in centimetres: a face needs a finer one.
_CELL, _FINE = 1.0, 0.6
_NOSE = ((57.0, 14.0), (70.0, -3.0), (60.0, -6.0))


@dataclass(frozen=True, slots=True)
class Body:
    """A body as the camera sees it: its parts by name, their outlines, the order they are painted in, the far limbs."""

    frames: Mapping[str, Frame]
    seen: Camera
    parts: Mapping[str, Part]
    outlines: Mapping[str, tuple[Loop, ...]]
    order: tuple[str, ...]
    far: frozenset[str]

    def distance(self, x: float, y: float) -> float:
        """From the outline of the whole body, negative inside."""
        return min(part.solid.distance(x, y) for part in self.parts.values())

    def box(self) -> tuple[float, float, float, float]:
        """Left, top, right, bottom of what is seen."""
        boxes = [part.solid.box() for part in self.parts.values()]
        return (min(b[0] for b in boxes), min(b[1] for b in boxes), max(b[2] for b in boxes), max(b[3] for b in boxes))


def body_of(frames: Mapping[str, Frame], seen: Camera, view: str) -> Body:
    """The body of a solved pose in a view."""
    found = parts(frames, seen)
    loops = {}
    for name, part in found.items():
        x, y, _ = part.solid.cones[0].a.at
        loops[name] = outlines(part.solid.distance, [(x, y)], _FINE if name == "head" else _CELL)
    order = back_to_front(found)
    return Body(frames, seen, found, loops, order, far_limbs(found, order, view))


def traced(field: Field, part: Part, cell: float = _CELL) -> tuple[Loop, ...]:
    """The outlines of a region of a part."""
    return outlines(field, seeds_of(part), cell)


def seeds_of(part: Part) -> list[Point]:
    """Places all over a part, at which its regions are looked for."""
    seeds: list[Point] = []
    for cone in part.solid.cones:
        (ax, ay, _), (bx, by, _) = cone.a.at, cone.b.at
        ux, uy = cone.span
        for share in (0.2, 0.5, 0.8):
            x, y = ax + (bx - ax) * share, ay + (by - ay) * share
            reach = 0.65 * (cone.a.radius + (cone.b.radius - cone.a.radius) * share)
            seeds += [(x, y), (x - uy * reach, y + ux * reach), (x + uy * reach, y - ux * reach)]
    return seeds


def painted(body: Body, pen: Pen, marks: Mapping[str, Sequence[Layer]]) -> list[Layer]:
    """All layers of a body; `marks` are those of a part's skin that lie under its line."""
    layers: list[Layer] = []
    for name in body.order:
        layers += _part(body, body.parts[name], pen, marks.get(name, ()))
    return layers


def ghost(body: Body, pen: Pen) -> list[Layer]:
    """The body as a faint shadow, for a pose that is left."""
    fills = [Layer(pen.fresh().closed(loop).data, "#dad8d0") for name in body.order for loop in body.outlines[name]]
    return fills


def _part(body: Body, part: Part, pen: Pen, marks: Sequence[Layer]) -> list[Layer]:
    tones = ink.FAR if part.name in body.far else ink.NEAR
    loops = body.outlines[part.name]
    lines = [_line(body, part, loop) for loop in loops]
    # A line all round goes with the fill, and what lies on the skin keeps within it; one with a seam comes last, over all.
    whole = all(line is None for line in lines)
    skin = tones.garment if part.name == "trunk" else tones.skin
    layers = [Layer(_closed(pen, loops), skin, tones.line if whole else "", tones.width if whole else 0)]
    covered = garment(part, -INSET if whole else _RIM)
    if covered:
        layers.append(Layer(_closed(pen, traced(covered, part)), tones.garment))
    layers += marks
    if part.shoe:
        layers.append(Layer(_closed(pen, _shoe(part.shoe)), tones.shoe))
    if not whole:
        runs = [run for loop, line in zip(loops, lines, strict=True) for run in ([(*loop, loop[0])] if line is None else line)]
        layers.append(Layer("".join(pen.fresh().open(run).data for run in runs), "", tones.line, tones.width))
    if part.name == "head":
        layers += _face(body, pen, tones)
    return layers


def _closed(pen: Pen, loops: Sequence[Loop]) -> str:
    return "".join(pen.fresh().closed(loop).data for loop in loops)


def _shoe(shoe: Solid) -> tuple[Loop, ...]:
    x, y, _ = shoe.cones[0].a.at
    return outlines(lambda x, y: shoe.distance(x, y) + INSET, [(x, y)], _CELL)


def _line(body: Body, part: Part, loop: Loop) -> list[tuple[Point, ...]] | None:
    """The outline without the seams, where a limb grows out of the trunk: the later one covers the other's line there.

    None where there is no seam.
    """
    drawn = [True] * len(loop)
    at = body.order.index
    for other in body.parts.values():
        if "trunk" not in (part.name, other.name) or other is part or at(other.name) > at(part.name) or other.name in body.far:
            continue
        limb = part if other.name == "trunk" else other
        (x, y, _), reach = limb.root, _SEAM[limb.limb]
        for i, (px, py) in enumerate(loop):
            if hypot(px - x, py - y) < reach and other.solid.distance(px, py) < -0.6:
                drawn[i] = False
    return None if all(drawn) else _runs(loop, drawn)


def _runs(loop: Loop, drawn: Sequence[bool]) -> list[tuple[Point, ...]]:
    """The stretches of a loop that are drawn, each a line."""
    if not any(drawn):
        return []
    first = drawn.index(False)
    points, kept = loop[first:] + loop[:first], (*drawn[first:], *drawn[:first])
    runs: list[list[Point]] = []
    before = False
    for point, keep in zip(points, kept, strict=True):
        if keep:
            if not before:
                runs.append([])
            runs[-1].append(point)
        before = keep
    return [tuple(run) for run in runs if len(run) > 2]


def _face(body: Body, pen: Pen, tones: ink.Tones) -> list[Layer]:
    """Hair down to its line, and the nose where it does not stand in the outline."""
    field, cap = hair(body.frames, body.seen)
    box = cap.box()
    seeds = [(box[0] + (box[2] - box[0]) * i / 6, box[1] + (box[3] - box[1]) * j / 6) for i in range(7) for j in range(7)]
    loops = outlines(field, seeds, _FINE)
    layers = [Layer("".join(pen.fresh().closed(loop).data for loop in loops), tones.hair)]
    frame, k = body.frames["head"], STATURE / 1000
    if body.seen.turned(turned(frame, (1.0, 0.0, 0.0)))[2] > 0.35:
        places = [body.seen.point(placed(frame, (x * k, 0.0, z * k))) for x, z in _NOSE]
        layers.append(Layer(pen.fresh().lines([(x, y) for x, y, _ in places]).data, "", tones.line, ink.THIN))
    return layers
