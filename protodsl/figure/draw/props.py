"""Things beside the body: solid ones as the boxes they are made of, in line and one tone; those in the hands as lines."""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass
from math import hypot, sqrt

from protodsl.figure.body.kinematics import point_of
from protodsl.figure.body.landmarks import LANDMARKS
from protodsl.figure.body.parts import measured
from protodsl.figure.body.skeleton import SIDES
from protodsl.figure.draw import ink
from protodsl.figure.draw.camera import Camera
from protodsl.figure.draw.contour import Point
from protodsl.figure.draw.curve import Pen
from protodsl.figure.draw.layers import Layer
from protodsl.figure.posture import Frame, PlacedProp, Sphere, Vector
from protodsl.model.figure import PAIRED_PARTS

WOOD, WOOD_TOP, WOOD_END, CLOTH, LINE = "#ded8c8", "#f1ede2", "#c9c2b0", "#fff", "#5b6366"
_HELD = ("band", "stick", "towel", "weight")
_ANCHOR = "anchor"
# How far from the pelvis a band is fixed, in centimetres.
_AWAY = 105.0
# How far a prop must stand nearer than the body to be painted over it, in centimetres.
_NEARER = 22.0

Box = tuple[float, float, float, float, float, float]


@dataclass(frozen=True, slots=True)
class Thing:
    """A prop in a panel: its layers by a pen, the places it takes up, whether it stands before the body, whether it
    stands at the same place in every panel, and whether one may draw over it.
    """

    paint: Callable[[Pen], list[Layer]]
    corners: tuple[Point, ...]
    before: bool
    fixed: bool
    flat: bool = False

    def box(self) -> tuple[float, float, float, float]:
        """Left, top, right and bottom of what it takes up."""
        xs, ys = [x for x, _ in self.corners], [y for _, y in self.corners]
        return min(xs), min(ys), max(xs), max(ys)


def thing(prop: PlacedProp, frames: Mapping[str, Frame], first: Mapping[str, Frame], seen: Camera) -> Thing | None:
    """The prop as it is drawn with a pose and the first one of the figure; None where its ends are not known."""
    if prop.kind in _HELD and prop.ends:
        return _held(prop, frames, first, seen)
    if prop.kind in ("ball", "towel"):
        return _round(prop, seen)
    if prop.kind == "pillow":
        return _pillow(prop, seen)
    ahead, _ = _axes(prop)
    if prop.kind == "wall" and seen.turned(ahead)[2] < -0.3:
        # A wall between the camera and the body would hide what the figure is about.
        return None
    posts, boards = _boxes(prop)
    thin = [_widest(box, prop, seen) for box in posts]
    faces = [face for box in boards for face in _faces(box, prop, seen)]
    corners = tuple(at for face in (*thin, *(face for face, _ in faces)) for at in face)
    before = seen.point(prop.at)[2] - seen.point(first["pelvis"].origin)[2] > _NEARER and prop.kind not in ("wall", "mat")

    def paint(pen: Pen) -> list[Layer]:
        frame = "".join(pen.fresh().lines(face, close=True).data for face in thin)
        solid = [Layer(pen.fresh().lines(face, close=True).data, tone, LINE, ink.THIN) for face, tone in faces]
        return [Layer(frame, WOOD, LINE, ink.THIN), *solid]

    return Thing(paint, corners, before, True, prop.kind == "mat")


def _axes(prop: PlacedProp) -> tuple[Vector, Vector]:
    """Towards the body and to the side of it, level and of unit length."""
    x, y, _ = prop.facing
    size = hypot(x, y) or 1.0
    ahead = (x / size, y / size, 0.0)
    return ahead, (-ahead[1], ahead[0], 0.0)


def _boxes(prop: PlacedProp) -> tuple[list[Box], list[Box]]:
    """Posts, and the boards and blocks they carry: from, to towards the body, to the side, up, in cm from the middle of the foot."""
    h = prop.height
    match prop.kind:
        case "chair":
            posts: list[Box] = [(x, x + 3.5, y, y + 3.5, 0, h - 4) for x in (-21, 17.5) for y in (-20, 16.5)]
            posts += [(-21, -17.5, y, y + 3.5, h, h + 24) for y in (-20, 16.5)]
            return posts, [(-21, 21, -20, 20, h - 4, h), (-21, -17.5, -20, 20, h + 22, h + 40)]
        case "table":
            return [(x, x + 4, y, y + 4, 0, h - 4) for x in (-23, 19) for y in (-34, 30)], [(-25, 25, -36, 36, h - 4, h)]
        case "step":
            return [], [(-15, 15, -30, 30, 0, h)]
        case "wall":
            return [], [(-5, 0, -40, 40, 0, h)]
        case "mat":
            return [], [(-95, 95, -33, 33, -2, 0)]
    return [], []


def _corner(prop: PlacedProp, seen: Camera, x: float, y: float, z: float) -> Vector:
    ahead, aside = _axes(prop)
    o = prop.at
    return seen.point((o[0] + ahead[0] * x + aside[0] * y, o[1] + ahead[1] * x + aside[1] * y, o[2] + z))


def _widest(box: Box, prop: PlacedProp, seen: Camera) -> list[Point]:
    """The side of a post that faces the camera: the other one is too narrow to show."""
    return max((face for face, _ in _faces(box, prop, seen)[:2]), key=lambda face: abs(face[1][0] - face[0][0]))


def _faces(box: Box, prop: PlacedProp, seen: Camera) -> list[tuple[list[Point], str]]:
    """The faces of a box that the camera sees, with their tones."""
    ahead, aside = _axes(prop)
    x0, x1, y0, y1, z0, z1 = box
    towards = seen.towards
    a = ahead[0] * towards[0] + ahead[1] * towards[1]
    b = aside[0] * towards[0] + aside[1] * towards[1]
    x, y = (x1 if a > 0 else x0), (y1 if b > 0 else y0)
    faces = []
    if abs(b) > 0.03:
        faces.append(([(x0, y, z0), (x1, y, z0), (x1, y, z1), (x0, y, z1)], WOOD if abs(b) > 0.5 else WOOD_END))
    if abs(a) > 0.03:
        faces.append(([(x, y0, z0), (x, y1, z0), (x, y1, z1), (x, y0, z1)], WOOD if abs(a) > 0.5 else WOOD_END))
    if towards[2] > 0.01:
        faces.append(([(x0, y0, z1), (x1, y0, z1), (x1, y1, z1), (x0, y1, z1)], WOOD_TOP))
    return [([_corner(prop, seen, *corner)[:2] for corner in corners], tone) for corners, tone in faces]


def _round(prop: PlacedProp, seen: Camera) -> Thing:
    """A ball with its seam, or a towel rolled up."""
    radius = prop.height / 2
    x, y, _ = seen.point((prop.at[0], prop.at[1], prop.at[2] + radius))

    def paint(pen: Pen) -> list[Layer]:
        if prop.kind == "towel":
            rings = pen.fresh().circle((x, y), radius).data, pen.fresh().circle((x, y), radius * 0.45).data
            return [Layer("".join(rings), CLOTH, LINE, ink.THIN)]
        seam = [(x - 0.88 * radius, y - 0.45 * radius), (x, y - 0.15 * radius), (x + 0.88 * radius, y - 0.45 * radius)]
        return [
            Layer(pen.fresh().circle((x, y), radius).data, WOOD, LINE, ink.LINE),
            Layer(pen.fresh().open(seam).data, "", LINE, ink.THIN),
        ]

    return Thing(paint, ((x - radius, y - radius), (x + radius, y + radius)), False, True)


def _pillow(prop: PlacedProp, seen: Camera) -> Thing:
    """A cushion: bulging sides and pointed corners."""
    height = max(prop.height, 5.0)
    long, wide = 19.0, 26.0
    ground = [_corner(prop, seen, x, y, z) for x in (-long, long) for y in (-wide, wide) for z in (0.0, height)]
    left, right = min(c[0] for c in ground), max(c[0] for c in ground)
    top, bottom = min(c[1] for c in ground), max(c[1] for c in ground)
    middle, across = (top + bottom) / 2, right - left
    upper = [(left, top + 1), (left + across * 0.25, top - 1.2), (left + across * 0.75, top - 1.2), (right, top + 1)]
    lower = [(right, bottom), (right - 1.5, middle), (right, top + 1)]
    loop = [(left, bottom), (left + 1.5, middle), *upper, *lower[1:2], (right, bottom)]

    def paint(pen: Pen) -> list[Layer]:
        return [Layer(pen.fresh().lines(loop, close=True).data, CLOTH, LINE, ink.THIN)]

    return Thing(paint, ((left, top - 2), (right, bottom)), False, True)


def _anchor(prop: PlacedProp, first: Mapping[str, Frame], seen: Camera) -> Vector:
    """Where a band is fixed: an arm's length from the body, as high as the part that holds it at the start or as written."""
    x, y, _ = first["pelvis"].origin
    ahead, _ = _axes(prop)
    held = next((_ball_of(end) for end in prop.ends if end != _ANCHOR), None)
    height = prop.height or (point_of(first[held.segment], held.centre)[2] if held else 100.0)
    return seen.point((x - ahead[0] * _AWAY, y - ahead[1] * _AWAY, height))


def _ball_of(name: str) -> Sphere | None:
    """The landmark of a part by its words; of a pair, the right one."""
    side, _, rest = name.partition(" ")
    return LANDMARKS.get(name) or LANDMARKS.get(measured(rest, side) if side in SIDES else measured(name, ""))


def _place(name: str, frames: Mapping[str, Frame], seen: Camera) -> Vector | None:
    """Where an end is that a part of the body holds."""
    ball = _ball_of(name)
    if ball is None:
        return None
    if ball.segment.endswith("hand"):
        # What a hand holds runs through the fist, not along the wrist.
        return seen.point(point_of(frames[ball.segment], (1.5, 0.0, -8.5)))
    return seen.point(point_of(frames[ball.segment], ball.centre))


def _both(end: str) -> tuple[str, ...]:
    """The parts that an end names: a paired part without a side is both of them."""
    return tuple(f"{side} {end}" for side in SIDES) if end in PAIRED_PARTS else (end,)


def _held(
    prop: PlacedProp, frames: Mapping[str, Frame], first: Mapping[str, Frame], seen: Camera
) -> Thing | None:
    ends = tuple(name for end in prop.ends for name in _both(end))
    places = [_anchor(prop, first, seen) if end == _ANCHOR else _place(end, frames, seen) for end in ends]
    known = [place for place in places if place is not None]
    if prop.kind == "weight" and known:
        return _weight(known[0], prop, frames, seen)
    if len(known) < 2:
        return None
    (ax, ay, _), (bx, by, _) = known[:2]
    length = hypot(bx - ax, by - ay) or 1.0
    ux, uy = (bx - ax) / length, (by - ay) / length
    beyond = 9.0 if prop.kind == "stick" else 7.0
    line = [(ax - ux * beyond, ay - uy * beyond), (bx + ux * beyond, by + uy * beyond)]
    if _ANCHOR in ends:
        at = ends.index(_ANCHOR)
        line[at] = (known[at][0], known[at][1])
    anchors = [line[i] for i, end in enumerate(ends[:2]) if end == _ANCHOR]

    def paint(pen: Pen) -> list[Layer]:
        data = pen.fresh().lines(line).data
        core = {"band": "#c7d3d2", "stick": WOOD, "towel": CLOTH}[prop.kind]
        width = {"band": 11, "stick": 11, "towel": 20}[prop.kind]
        layers = [Layer(data, "", ink.INK, width), Layer(data, "", core, width - 6)]
        if prop.kind == "towel":
            layers.append(Layer("".join(pen.fresh().lines(_across(line, share)).data for share in (0.12, 0.88)), "", ink.INK, ink.THIN))
        layers += [Layer(pen.fresh().circle(at, 3.0).data, ink.INK) for at in anchors]
        return layers

    return Thing(paint, tuple(line), True, False)


def _across(line: Sequence[Point], share: float) -> list[Point]:
    (ax, ay), (bx, by) = line
    size = hypot(bx - ax, by - ay) or 1.0
    x, y = ax + (bx - ax) * share, ay + (by - ay) * share
    nx, ny = -(by - ay) / size * 2.4, (bx - ax) / size * 2.4
    return [(x - nx, y - ny), (x + nx, y + ny)]


def _weight(place: Vector, prop: PlacedProp, frames: Mapping[str, Frame], seen: Camera) -> Thing:
    """A hand weight through the fist, or a cuff around a limb."""
    x, y, _ = place
    ball = _ball_of(_both(prop.ends[0])[0])
    segment = ball.segment if ball else "right hand"
    axes = frames[segment].axes
    held = segment.endswith("hand")
    local = (axes[0], axes[3], axes[6]) if held else (axes[2], axes[5], axes[8])
    dx, dy, _ = seen.turned(local)
    size = sqrt(dx * dx + dy * dy)
    ux, uy = (dx / size, dy / size) if size > 0.2 else (1.0, 0.0)

    def paint(pen: Pen) -> list[Layer]:
        if not held:
            cuff = [(x - uy * 4.5, y + ux * 4.5), (x + uy * 4.5, y - ux * 4.5)]
            return [Layer(pen.fresh().lines(cuff).data, "", ink.INK, 20)]
        bar = [(x - ux * 8, y - uy * 8), (x + ux * 8, y + uy * 8)]
        plates = [[(px - uy * 4, py + ux * 4), (px + uy * 4, py - ux * 4)] for px, py in bar]
        return [
            Layer(pen.fresh().lines(bar).data, "", ink.INK, 7),
            Layer("".join(pen.fresh().lines(plate).data for plate in plates), "", ink.INK, 14),
        ]

    return Thing(paint, ((x - 12, y - 8), (x + 12, y + 8)), True, False)
