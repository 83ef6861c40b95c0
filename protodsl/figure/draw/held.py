"""Props that the body holds: a band, a stick, a towel between hands or feet, or round one of them."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from math import hypot

from protodsl.figure.body.kinematics import point_of
from protodsl.figure.body.landmarks import LANDMARKS
from protodsl.figure.body.parts import measured
from protodsl.figure.body.skeleton import SIDES
from protodsl.figure.draw import ink
from protodsl.figure.draw.camera import Camera
from protodsl.figure.draw.contour import Point
from protodsl.figure.draw.curve import Pen
from protodsl.figure.draw.layers import Layer
from protodsl.figure.draw.standing import rounded
from protodsl.figure.draw.things import CLOTH, WOOD, Thing, level_axes
from protodsl.figure.draw.weights import cuff, weights
from protodsl.figure.posture import Frame, PlacedProp, Sphere, Vector
from protodsl.model.figure import PAIRED_PARTS

_ANCHOR = "anchor"
# How far from the pelvis a band is fixed, in centimetres.
_AWAY = 105.0
# What is held between two parts is no larger, in centimetres.
_LARGEST = 20.0
# Centimetres past the hand, units of width, and the tone between the two lines of it.
_BEYOND = {"band": 7.0, "stick": 9.0, "towel": 7.0}
_WIDTHS = {"band": 11, "stick": 11, "towel": 20}
_CORES = {"band": "#c7d3d2", "stick": WOOD, "towel": CLOTH}


def held(prop: PlacedProp, frames: Mapping[str, Frame], first: Mapping[str, Frame], seen: Camera) -> tuple[Thing, ...]:
    """A prop that parts of the body hold in a pose; `first` is the first one. Nothing where no end is known."""
    ends = tuple(name for end in prop.ends for name in _both(end) if name == _ANCHOR or _ball_of(name))
    balls = [ball for end in ends if (ball := _ball_of(end))]
    places = [_anchor(prop, first, seen) if end == _ANCHOR else _place(end, frames, seen) for end in ends]
    if not balls:
        return ()
    if prop.kind == "weight":
        return weights(ends, balls, places, frames, seen)
    if prop.kind not in _CORES:
        x, y, near = (sum(values) / len(places) for values in zip(*places, strict=True))
        return (rounded(prop, (x, y, near), False, min(prop.height, _LARGEST) / 2),)
    if len(places) == 1:
        return (cuff(ends[0], balls[0], frames, seen, _CORES[prop.kind]),)
    if len(places) == 3 and _ANCHOR in ends:
        return (_to_one_place(prop.kind, ends, places),)
    return (_strip(prop.kind, ends, places),)


def _to_one_place(kind: str, ends: Sequence[str], places: Sequence[Vector]) -> Thing:
    """A band from both hands to where it is fixed."""
    fixed = places[ends.index(_ANCHOR)]
    strips = [_strip(kind, (end, _ANCHOR), (at, fixed)) for end, at in zip(ends, places, strict=True) if end != _ANCHOR]

    def paint(pen: Pen) -> list[Layer]:
        return [layer for strip in strips for layer in strip.paint(pen)]

    return Thing(paint, tuple(at for strip in strips for at in strip.corners), True, False)


def _strip(kind: str, ends: Sequence[str], places: Sequence[Vector]) -> Thing:
    """A band, a stick or a towel between two ends, a little past the hands that hold it."""
    (ax, ay, _), (bx, by, _) = places[:2]
    length = hypot(bx - ax, by - ay) or 1.0
    ux, uy = (bx - ax) / length * _BEYOND[kind], (by - ay) / length * _BEYOND[kind]
    fixed = [end == _ANCHOR for end in ends[:2]]
    line = [(ax, ay) if fixed[0] else (ax - ux, ay - uy), (bx, by) if fixed[1] else (bx + ux, by + uy)]

    def paint(pen: Pen) -> list[Layer]:
        data, width = pen.fresh().lines(line).data, _WIDTHS[kind]
        layers = [Layer(data, "", ink.INK, width), Layer(data, "", _CORES[kind], width - 6)]
        if kind == "towel":
            hems = "".join(pen.fresh().lines(_across(line, share)).data for share in (0.12, 0.88))
            layers.append(Layer(hems, "", ink.INK, ink.THIN))
        anchors = [at for at, is_fixed in zip(line, fixed, strict=True) if is_fixed]
        return layers + [Layer(pen.fresh().circle(at, 3.0).data, ink.INK) for at in anchors]

    return Thing(paint, tuple(line), True, False)


def _anchor(prop: PlacedProp, first: Mapping[str, Frame], seen: Camera) -> Vector:
    """Where a band is fixed: an arm's length off, as high as written or as the part that holds it at the start."""
    x, y, _ = first["pelvis"].origin
    ahead, _ = level_axes(prop)
    held = next((_ball_of(end) for end in prop.ends if end != _ANCHOR), None)
    height = prop.height or (point_of(first[held.segment], held.centre)[2] if held else 100.0)
    return seen.point((x - ahead[0] * _AWAY, y - ahead[1] * _AWAY, height))


def _ball_of(name: str) -> Sphere | None:
    """The landmark of a part by its words; of a pair, the right one."""
    side, _, rest = name.partition(" ")
    return LANDMARKS.get(name) or LANDMARKS.get(measured(rest, side) if side in SIDES else measured(name, ""))


def _place(name: str, frames: Mapping[str, Frame], seen: Camera) -> Vector:
    """Where an end is that a part of the body holds."""
    ball = _ball_of(name)
    assert ball is not None, "asked of known ends alone"
    if ball.segment.endswith("hand"):
        # What a hand holds runs through the fist, not along the wrist.
        return seen.point(point_of(frames[ball.segment], (1.5, 0.0, -8.5)))
    return seen.point(point_of(frames[ball.segment], ball.centre))


def _both(end: str) -> tuple[str, ...]:
    """The parts that an end names: a paired part without a side is both of them."""
    return tuple(f"{side} {end}" for side in SIDES) if end in PAIRED_PARTS else (end,)


def _across(line: Sequence[Point], share: float) -> list[Point]:
    (ax, ay), (bx, by) = line
    size = hypot(bx - ax, by - ay) or 1.0
    x, y = ax + (bx - ax) * share, ay + (by - ay) * share
    nx, ny = -(by - ay) / size * 2.4, (bx - ax) / size * 2.4
    return [(x - nx, y - ny), (x + nx, y + ny)]
