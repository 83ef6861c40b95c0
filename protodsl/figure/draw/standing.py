"""Props that stand or lie somewhere: boxes in line and three tones, cushions, balls."""

from __future__ import annotations

from protodsl.figure.draw import ink
from protodsl.figure.draw.camera import Camera
from protodsl.figure.draw.contour import Point
from protodsl.figure.draw.curve import Pen
from protodsl.figure.draw.layers import Layer
from protodsl.figure.draw.things import CLOTH, LINE, WOOD, WOOD_END, WOOD_TOP, Thing, level_axes
from protodsl.figure.posture import PlacedProp, Vector

# How far a prop must stand nearer than the body to be painted over it, in centimetres.
_NEARER = 22.0
_UNDER_OR_BEHIND = ("wall", "mat")

Box = tuple[float, float, float, float, float, float]


def standing(prop: PlacedProp, body: float, seen: Camera) -> Thing | None:
    """A prop on the floor; `body` is how near the body is. None for a wall that would hide it, or what cannot stand."""
    if prop.kind in ("ball", "towel"):
        x, y, z = prop.at
        # A roll is longer than a limb is wide: its end is seen before what rests on it.
        return rounded(prop, seen.point((x, y, z + prop.height / 2)), True, prop.height / 2, prop.kind == "towel")
    if prop.kind == "pillow":
        return _pillow(prop, seen)
    if prop.kind == "wall" and seen.turned(level_axes(prop)[0])[2] < -0.3:
        return None
    posts, boards = _boxes(prop)
    thin = [_widest(box, prop, seen) for box in posts]
    faces = [face for box in boards for face in _faces(box, prop, seen)]
    if not faces:
        return None
    corners = tuple(at for face in (*thin, *(face for face, _ in faces)) for at in face)
    before = prop.kind not in _UNDER_OR_BEHIND and seen.point(prop.at)[2] - body > _NEARER

    def paint(pen: Pen) -> list[Layer]:
        frame = "".join(pen.fresh().lines(face, close=True).data for face in thin)
        solid = [Layer(pen.fresh().lines(face, close=True).data, tone, LINE, ink.THIN) for face, tone in faces]
        return [Layer(frame, WOOD, LINE, ink.THIN), *solid]

    return Thing(paint, corners, before, True, prop.kind == "mat", prop.kind in ("wall", "step"))


def rounded(prop: PlacedProp, middle: Vector, fixed: bool, radius: float, before: bool = False) -> Thing:
    """A ball with its seam, or a towel or cushion rolled up, about a place as seen."""
    x, y, _ = middle

    def paint(pen: Pen) -> list[Layer]:
        if prop.kind != "ball":
            rings = pen.fresh().circle((x, y), radius).data, pen.fresh().circle((x, y), radius * 0.45).data
            return [Layer("".join(rings), CLOTH, LINE, ink.THIN)]
        seam = [(x - 0.88 * radius, y - 0.45 * radius), (x, y - 0.15 * radius), (x + 0.88 * radius, y - 0.45 * radius)]
        return [
            Layer(pen.fresh().circle((x, y), radius).data, WOOD, LINE, ink.LINE),
            Layer(pen.fresh().open(seam).data, "", LINE, ink.THIN),
        ]

    return Thing(paint, ((x - radius, y - radius), (x + radius, y + radius)), before or not fixed, fixed)


def _boxes(prop: PlacedProp) -> tuple[list[Box], list[Box]]:
    """Posts, and what they carry: from and to towards the body, to the side, up; cm from the middle of the foot."""
    h = prop.height
    match prop.kind:
        case "chair":
            posts: list[Box] = [(x, x + 3.5, y, y + 3.5, 0, h - 4) for x in (-21, 17.5) for y in (-20, 16.5)]
            posts += [(-21, -17.5, y, y + 3.5, h, h + 24) for y in (-20, 16.5)]
            return posts, [(-21, 21, -20, 20, h - 4, h), (-21, -17.5, -20, 20, h + 22, h + 40)]
        case "table":
            legs: list[Box] = [(x, x + 4, y, y + 4, 0, h - 4) for x in (-23, 19) for y in (-34, 30)]
            return legs, [(-25, 25, -36, 36, h - 4, h)]
        case "step":
            return [], [(-15, 15, -30, 30, 0, h)]
        case "wall":
            return [], [(-5, 0, -40, 40, 0, h)]
        case "mat":
            return [], [(-95, 95, -33, 33, -2, 0)]
    return [], []


def _corner(prop: PlacedProp, seen: Camera, x: float, y: float, z: float) -> Vector:
    ahead, aside = level_axes(prop)
    o = prop.at
    return seen.point((o[0] + ahead[0] * x + aside[0] * y, o[1] + ahead[1] * x + aside[1] * y, o[2] + z))


def _widest(box: Box, prop: PlacedProp, seen: Camera) -> list[Point]:
    """The side of a post that faces the camera: the other one is too narrow to show."""
    return max((face for face, _ in _faces(box, prop, seen)[:2]), key=lambda face: abs(face[1][0] - face[0][0]))


def _faces(box: Box, prop: PlacedProp, seen: Camera) -> list[tuple[list[Point], str]]:
    """The faces of a box that the camera sees, with their tones."""
    ahead, aside = level_axes(prop)
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


def _pillow(prop: PlacedProp, seen: Camera) -> Thing:
    """A cushion squashed by what lies on it: its ends bulge over the weight, its middle gives way."""
    height = max(prop.height, 5.0)
    ground = [_corner(prop, seen, x, y, z) for x in (-19.0, 19.0) for y in (-22.0, 22.0) for z in (0.0, height)]
    left, right = min(c[0] for c in ground), max(c[0] for c in ground)
    bottom = max(c[1] for c in ground) - 0.5
    # It is as high as what rests on it, and an end swells a little higher.
    top = _corner(prop, seen, 0.0, 0.0, height)[1] - 1.0
    seam, swell = (top + bottom) / 2, 0.35 * height
    points = [(0.0, seam), (0.05, top - swell * 0.5), (0.15, top - swell), (0.32, top), (0.5, top + 0.4), (0.68, top)]
    points += [(0.85, top - swell), (0.95, top - swell * 0.5), (1.0, seam), (0.93, bottom - 0.4), (0.8, bottom)]
    points += [(0.5, bottom), (0.2, bottom), (0.07, bottom - 0.4)]
    loop = [(left + (right - left) * share, y) for share, y in points]
    welt = [
        (left + (right - left) * share, seam + dy) for share, dy in ((0.0, 0.0), (0.3, 0.7), (0.7, 0.7), (1.0, 0.0))
    ]

    def paint(pen: Pen) -> list[Layer]:
        return [
            Layer(pen.fresh().closed(loop).data, CLOTH, LINE, ink.THIN),
            Layer(pen.fresh().open(welt).data, "", LINE, ink.THIN),
        ]

    return Thing(paint, ((left - 1, top - swell - 1), (right + 1, bottom)), False, True)
