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
from protodsl.figure.draw.regions import garment, hair, on_skin, shod
from protodsl.figure.draw.shape import Part, parts
from protodsl.figure.draw.solid import Solid
from protodsl.figure.posture import STATURE, Frame

# Within so many centimetres of its joint a limb has no line of its own on the trunk: it grows out of it.
_SEAM = {"arm": 9.0, "leg": 14.5, "head": 9.0}
# Half a line in centimetres: what lies on the skin keeps so far from the outline.
INSET = ink.LINE / UNITS / 2
# A folded limb shows the border of its nearer half from so many centimetres beyond the joint.
_CREASE = {"arm": 6.5, "leg": 9.0}
# Grid cells in centimetres: a face needs a finer one.
_CELL, _FINE = 1.2, 0.7
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

    def near_to(self, reach: float, far: bool) -> Field:
        """As `distance`, of the far limbs or of all others, for places nearer than `reach`; beyond it, `reach`."""
        solids = [part.solid for name, part in self.parts.items() if (name in self.far) is far]
        known = [(*solid.box(), solid) for solid in solids]

        def field(x: float, y: float) -> float:
            least = reach
            for left, top, right, bottom, solid in known:
                if left - reach < x < right + reach and top - reach < y < bottom + reach:
                    least = min(least, solid.distance(x, y))
            return least

        return field

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


def seeds_of(part: Part, segment: str) -> list[Point]:
    """Places all over a segment of a part, at which regions of its skin are looked for."""
    seeds: list[Point] = []
    for cone in part.solid.cones:
        if cone.segment != segment:
            continue
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
    return [Layer(pen.fresh().closed(loop).data, "#d2cfc5") for name in body.order for loop in body.outlines[name]]


def _part(body: Body, part: Part, pen: Pen, marks: Sequence[Layer]) -> list[Layer]:
    tones = ink.FAR if part.name in body.far else ink.NEAR
    skin = tones.garment if part.name == "trunk" else tones.skin
    layers = [Layer(_closed(pen, body.outlines[part.name]), skin, tones.line, tones.width)]
    seams = _closed(pen, [loop for other in body.parts.values() for loop in _seam(body, part, other)])
    layers.append(Layer(seams, tones.skin if part.name == "head" else tones.garment))
    for segment, covered in garment(part, -INSET):
        layers.append(Layer(_closed(pen, outlines(covered, seeds_of(part, segment), _CELL)), tones.garment))
    layers += marks
    layers.append(Layer("".join(pen.fresh().open(run).data for run in creases(part)), "", tones.line, ink.THIN))
    if part.limb == "leg":
        layers.append(Layer(_closed(pen, _shoe(part)), tones.shoe))
    if part.name == "head":
        layers += _face(body, pen, tones)
    return layers


def _closed(pen: Pen, loops: Sequence[Loop]) -> str:
    return "".join(pen.fresh().closed(loop).data for loop in loops)


def _shoe(part: Part) -> tuple[Loop, ...]:
    """The shoe where it is seen: a foot behind the knee that kneels on the floor is not."""
    shoe = [cone for cone in part.solid.cones if cone.segment.endswith((" foot", " toes"))]
    seeds = [((cone.a.at[0] + cone.b.at[0]) / 2, (cone.a.at[1] + cone.b.at[1]) / 2) for cone in shoe]
    return outlines(on_skin(part.solid, shod, -INSET), seeds, _CELL)


def _seam(body: Body, part: Part, other: Part) -> tuple[Loop, ...]:
    """Where a limb grows out of the trunk, and the line of the later of the two is covered again."""
    if "trunk" not in (part.name, other.name) or other is part or other.name in body.far:
        return ()
    if body.order.index(other.name) > body.order.index(part.name):
        return ()
    limb = part if other.name == "trunk" else other
    (x, y, _), reach = limb.root, _SEAM[limb.limb]

    def field(px: float, py: float) -> float:
        away = hypot(px - x, py - y) - reach
        if away > 0:
            return away
        return max(away, other.solid.distance(px, py) + INSET, part.solid.distance(px, py) - INSET - 0.6)

    return outlines(field, [(x, y), *((x + dx, y + dy) for dx in (-4, 4) for dy in (-4, 4))], _CELL)


def creases(part: Part) -> list[tuple[Point, ...]]:
    """The lines within a folded limb: the border of its nearer half where it lies over the other, off the joint."""
    if part.limb not in _CREASE:
        return []
    upper = Solid([cone for cone in part.solid.cones if cone.segment.endswith((" upper arm", " thigh"))])
    lower = Solid([cone for cone in part.solid.cones if cone not in upper.cones])
    x, y, _ = lower.cones[0].a.at
    meet = [(bx, by) for bx, by, _ in (ball.at for ball in lower.balls()) if upper.distance(bx, by) < 0]
    if all(hypot(bx - x, by - y) < _CREASE[part.limb] for bx, by in meet):
        return []
    ahead = sum((lower.near(bx, by) or 0) - (upper.near(bx, by) or 0) for bx, by in meet)
    over, under = (lower, upper) if ahead > 0 else (upper, lower)
    found = []
    for loop in outlines(over.distance, [over.cones[0].a.at[:2]], _CELL):
        drawn = [under.distance(*at) < -INSET and hypot(at[0] - x, at[1] - y) > _CREASE[part.limb] for at in loop]
        found += [loop] if all(drawn) else _runs(loop, drawn)
    return found


def _runs(loop: Loop, drawn: Sequence[bool]) -> list[tuple[Point, ...]]:
    """The stretches of a loop that are drawn, each a line."""
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
    return [tuple(run) for run in runs if len(run) > 3]


def _face(body: Body, pen: Pen, tones: ink.Tones) -> list[Layer]:
    """Hair down to its line, and the nose where it does not stand in the outline."""
    field, cap = hair(body.frames, body.seen)
    box = cap.box()
    seeds = [
        (box[0] + (box[2] - box[0]) * i / 6, box[1] + (box[3] - box[1]) * j / 6) for i in range(7) for j in range(7)
    ]
    loops = outlines(field, seeds, _FINE)
    layers = [Layer("".join(pen.fresh().closed(loop).data for loop in loops), tones.hair)]
    frame, k = body.frames["head"], STATURE / 1000
    if body.seen.turned(turned(frame, (1.0, 0.0, 0.0)))[2] > 0.35:
        places = [body.seen.point(placed(frame, (x * k, 0.0, z * k))) for x, z in _NOSE]
        layers.append(Layer(pen.fresh().lines([(x, y) for x, y, _ in places]).data, "", tones.line, ink.THIN))
    return layers
