"""Poses side by side on one ground: what stands in each panel, and how much room all of it takes."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace
from itertools import pairwise
from math import ceil, hypot

from protodsl.figure.draw import arrows, ink, works
from protodsl.figure.draw.camera import Camera, camera
from protodsl.figure.draw.contour import Point
from protodsl.figure.draw.curve import UNITS, Pen
from protodsl.figure.draw.figure_body import Body, body_of, ghost
from protodsl.figure.draw.figure_body import painted as body_layers
from protodsl.figure.draw.layers import Layer
from protodsl.figure.draw.order import steady_limbs
from protodsl.figure.draw.props import things
from protodsl.figure.draw.shape import SIDES
from protodsl.figure.draw.things import Thing
from protodsl.figure.posture import SolvedFigure, SolvedPose
from protodsl.model.figure import Angle, Contact, Lift, Touch

# Centimetres of the body: around what is drawn, between panels, and how far above the ground a body must be to float.
_MARGIN, _GAP, _FLOATING = 3.0, 14.0, 6.0
# So far above what is drawn an arrow may go.
_ABOVE = 22.0


@dataclass(frozen=True, slots=True)
class Panel:
    """One pose with what stands around it; `left` is a pose that is left, drawn as its shadow."""

    role: str
    body: Body
    things: tuple[Thing, ...]
    marks: tuple[works.Region, ...]
    arrows: tuple[arrows.Path, ...] = ()
    left: Body | None = None


@dataclass(frozen=True, slots=True)
class Sheet:
    """Panels of one size: their edges in centimetres as seen, where the ground is, and whether a mat lies on it."""

    panels: tuple[Panel, ...]
    box: tuple[float, float, float, float]
    ground: float
    matted: bool


def sheet(solved: SolvedFigure, targets: Sequence[str], overlaid: bool = False, narrowest: float = 0.0) -> Sheet:
    """The panels of a figure: one a pose, or where `overlaid` the last pose over the shadow of the first.

    None is narrower than `narrowest` centimetres of the body.
    """
    view = solved.figure.view
    seen = camera(view)
    bodies = [body_of(pose.frames, seen, view) for pose in solved.poses]
    far = steady_limbs([body.far for body in bodies], [body.parts for body in bodies])
    bodies = [replace(body, far=far) for body in bodies]
    sides = ("right",) if one_sided(solved) else SIDES
    panels = [_panel(solved, pose, body, targets, sides) for pose, body in zip(solved.poses, bodies, strict=True)]
    ground = _ground(solved, bodies, seen)
    if len(bodies) > 1:
        lines = _arrows(_ways(solved, seen), panels[-1], _box(panels, ground), ground)
        panels[-1] = replace(panels[-1], arrows=lines)
    if overlaid and len(bodies) > 1:
        panels = [replace(panels[-1], left=bodies[0])]
    matted = any(prop.kind == "mat" for prop in solved.props)
    left, top, right, bottom = _box(panels, ground)
    wider = max(0.0, narrowest - (right - left)) / 2
    return Sheet(tuple(panels), (left - wider, top, right + wider, bottom), ground, matted)


def one_sided(solved: SolvedFigure) -> bool:
    """Whether a figure says right or left of anything that moves; it is written for the right side then."""
    for pose in solved.poses:
        if pose.pose.forward:
            return True
        for statement in pose.pose.statements:
            if isinstance(statement, Angle) and statement.side:
                return True
            if isinstance(statement, (Lift, Contact, Touch)) and statement.part.side:
                return True
    return any(arrow.part.side for arrow in solved.figure.arrows)


def ground_layers(page: Sheet, pen: Pen) -> list[Layer]:
    """The floor and what stands on it behind the body: the same in every panel."""
    left, _, right, _ = page.box
    found = []
    if not page.matted:
        found.append(
            Layer(pen.fresh().lines([(left, page.ground), (right, page.ground)]).data, "", ink.GROUND, ink.THIN)
        )
    return found + [layer for one in page.panels[0].things if one.fixed and not one.before for layer in one.paint(pen)]


def layers(panel: Panel, pen: Pen) -> list[Layer]:
    """The body of a panel with what it holds and what stands before it, bottom first."""
    found = ghost(panel.left, pen) if panel.left else []
    found += [layer for one in panel.things if not one.fixed and not one.before for layer in one.paint(pen)]
    found += body_layers(panel.body, pen, works.marks(panel.body, panel.marks, pen))
    found += [layer for one in panel.things if one.before for layer in one.paint(pen)]
    for line in panel.arrows:
        found += arrows.painted(line, pen)
    return found


def size(page: Sheet) -> tuple[int, int]:
    """Width and height of a panel in units of the drawing."""
    left, top, right, bottom = (round(edge * UNITS) for edge in page.box)
    return right - left, bottom - top


def gap() -> int:
    """Units between two panels."""
    return round(_GAP * UNITS)


def _panel(solved: SolvedFigure, pose: SolvedPose, body: Body, targets: Sequence[str], sides: Sequence[str]) -> Panel:
    return Panel(pose.pose.role, body, things(solved, pose, body.seen), works.regions(body, targets, sides))


def _ground(solved: SolvedFigure, bodies: Sequence[Body], seen: Camera) -> float:
    """Where the line of the floor is: below the pelvis, and not above the lowest sole that stands on it."""
    levels = []
    for pose, body in zip(solved.poses, bodies, strict=True):
        x, y, _ = pose.frames["pelvis"].origin
        level, lowest = seen.point((x, y, 0.0))[1], body.box()[3]
        levels.append(max(level, lowest) if abs(lowest - level) < _FLOATING else level)
    return max(levels)


def _box(panels: Sequence[Panel], ground: float) -> tuple[float, float, float, float]:
    boxes = [panel.body.box() for panel in panels]
    boxes += [panel.left.box() for panel in panels if panel.left]
    corners = [corner for panel in panels for one in panel.things for corner in one.corners]
    boxes += [(x, y, x, y) for x, y in corners]
    boxes += [arrows.reach(line) for panel in panels for line in panel.arrows]
    return (
        min(box[0] for box in boxes) - _MARGIN,
        min(box[1] for box in boxes) - _MARGIN,
        max(box[2] for box in boxes) + _MARGIN,
        max(*(box[3] for box in boxes), ground) + _MARGIN,
    )


def _along(corners: Sequence[Point]) -> list[Point]:
    """Places along a line of corners, none far from the next: a stick is more than its ends."""
    found = [corners[0]]
    for (ax, ay), (bx, by) in pairwise(corners):
        steps = max(1, ceil(hypot(bx - ax, by - ay) / 6.0))
        found += [(ax + (bx - ax) * at / steps, ay + (by - ay) * at / steps) for at in range(1, steps + 1)]
    return found


def _ways(solved: SolvedFigure, seen: Camera) -> tuple[arrows.Path, ...]:
    """The ways of the arrows that are written, or of what moves where none is and it can hardly be seen."""
    found = tuple(path for arrow in solved.figure.arrows for path in arrows.paths(arrow, solved.poses, seen))
    return found or arrows.unsaid(solved.poses, seen)


def _arrows(
    paths: Sequence[arrows.Path], panel: Panel, box: tuple[float, float, float, float], ground: float
) -> tuple[arrows.Path, ...]:
    """The arrows of the last panel, each beside the body, out of the ground and clear of those before it."""
    body = panel.body
    left, top, right, _ = box
    # One sees through under a table and between the posts of a chair; a wall or a step is solid.
    solid = [(3.0 if one.solid else 0.3, one.box()) for one in panel.things if one.fixed and not one.flat]
    held = [place for one in panel.things if not one.fixed for place in _along(one.corners)]
    head = body.parts["head"].solid
    near, far = (body.near_to(arrows.CLEAR, is_far) for is_far in (False, True))
    found: list[arrows.Path] = []
    for path in paths:

        def room(at: Point) -> float:
            x, y = at
            outside = max(0.0, left - 4 - x, x - right - 4) + max(0.0, top - _ABOVE - y) + max(0.0, y + 3 - ground)
            outside += sum(weight for weight, (a, b, c, d) in solid if a - 2 < x < c + 2 and b < y < d)
            taken = (*held, *(place for line in found for place in line))
            return outside + max(0.0, 8.0 - min((hypot(x - a, y - b) for a, b in taken), default=99.0))

        found.append(arrows.drawn(path, near, far, head.distance, room))
    return tuple(found)
