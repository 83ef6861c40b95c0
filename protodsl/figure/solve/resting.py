"""What lies on something, as demands: contacts, what stays where it was, what is lifted, parts on parts."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, replace

from protodsl.figure.body.kinematics import frames_of, point_of
from protodsl.figure.body.landmarks import LANDMARKS
from protodsl.figure.body.parts import measured, sides_of, touching
from protodsl.figure.body.positions import Position
from protodsl.figure.body.skeleton import SEGMENT_NUMBER, SIDES
from protodsl.figure.body.vectors import FORWARD, LEFTWARD, UPWARD, column, dot, length, minus
from protodsl.figure.body.wordings import ARMS
from protodsl.figure.posture import STATURE, Sphere
from protodsl.figure.solve.contacts import KEPT, Hold, Holding
from protodsl.figure.solve.demands import (
    Demand,
    Level,
    Meeting,
    on_plane,
    place,
    spread,
)
from protodsl.figure.solve.motion import Placement
from protodsl.figure.solve.scene import Scene
from protodsl.figure.solve.weights import CLEAR, CLEARLY, FIRM, LOOSE, RESTS, SAME_PLACE, SAME_SIDE, STAYS, WISH
from protodsl.model.figure import (
    MIDDLE_PARTS,
    Angle,
    Distance,
    Lift,
    Part,
    Pose,
    Posture,
    Slide,
    Statement,
)

ON_HIPS = "hands on hips"


@dataclass(frozen=True, slots=True)
class Asking:
    """A demand with its kind (`contact`, `stays`, `touch`, `statement`, `wish`) and what it comes from."""

    demand: Demand
    kind: str
    landmark: str = ""
    hold: Hold | None = None
    statement: Statement | None = None
    because: str = ""


def lying(position: Position, holding: Holding, scene: Scene, loose: Part | None) -> Iterator[Asking]:
    """Landmarks on their surfaces: equalities, but for what merely rests there; of a part that is `loose` only a
    pull.
    """
    for name, hold in holding.holds.items():
        surface = scene.surface(hold.surface, position.name, name)
        soft = not hold.firm or (hold.surface == "pillow" and hold.part.name in ("head", "forehead"))
        weight = LOOSE if hold.part == loose else RESTS if soft else FIRM
        demand = on_plane(LANDMARKS[name], surface.normal, surface.offset, weight, hard=weight == FIRM)
        yield Asking(demand, "rest" if soft else "contact", name, hold, because=hold.because)


def staying(
    holding: Holding, before: Holding | None, body: Placement | None, scene: Scene, position: Position, weight: float
) -> Iterator[Asking]:
    """Contacts of the pose before, where they were, unless they are said to slide."""
    if before is None or body is None:
        return
    for name, hold in holding.holds.items():
        known = before.holds.get(name)
        if known is None or known.surface != hold.surface or name in holding.slides or not (known.firm and hold.firm):
            continue
        if _follows_from_others(name, holding):
            continue
        at = body.centre(LANDMARKS[name])
        for along in spread(scene.surface(hold.surface, position.name, name).normal):
            target = at[0] * along[0] + at[1] * along[1] + at[2] * along[2]
            yield Asking(
                Level((place(LANDMARKS[name], along),), target, weight, hard=weight == STAYS), "stays", name, hold
            )


def holding_a_stick(
    holding: Holding, body: Placement | None, scene: Scene, position: Position, weight: float
) -> Iterator[Asking]:
    """Hands on a stick stay where they hold it, as far apart as in the pose before, unless they slide along it."""
    if body is None:
        return
    for one, other in scene.rigid:
        first, second = (LANDMARKS[measured(part.name, part.side)] for part in (one, other))
        if any(holding.slides & set(touching(part.name, part.side, position.name)) for part in (one, other)):
            continue
        far = length(minus(body.centre(first), body.centre(second)))
        there = replace(second, radius=far - first.radius)
        demand = Meeting(first, there, there, weight, hard=weight == STAYS)
        hold = Hold("stick", Part(one.name) if one.name == other.name else one, KEPT)
        yield Asking(demand, "stays", measured(one.name, one.side), hold)


def lifted_parts(
    pose: Pose, holding: Holding, before: Holding | None, scene: Scene, position: Position
) -> Iterator[Asking]:
    """What lay on something in the pose before and is lifted is clear of it."""
    clear = CLEARLY if all(isinstance(one, Lift | Slide) for one in pose.statements) else CLEAR
    for name in sorted(holding.lifts & (before.holds.keys() if before is not None else set())):
        if before is None or name in holding.holds:
            continue
        surface = scene.surface(before.holds[name].surface, position.name, name)
        ball = LANDMARKS[name]
        target = surface.offset + ball.radius + clear
        yield Asking(Level((place(ball, surface.normal),), target, 5.0, hard=False, at_least=True), "wish", name)


def moved_aside(pose: Pose, body: Placement | None, position: Position) -> Iterator[Asking]:
    """What is so far to a side of where it was in the pose before."""
    if body is None:
        return
    leftward = column(position.axes, 1)
    for one in pose.statements:
        if isinstance(one, Distance) and one.relation in SIDES:
            far = float(one.centimetres) * (1.0 if one.relation == "left" else -1.0)
            for side in ("",) if one.part.name in MIDDLE_PARTS else sides_of(one.part.side):
                ball = LANDMARKS[measured(one.part.name, side)]
                target = dot(body.centre(ball), leftward) + far
                yield Asking(Level((place(ball, leftward),), target, FIRM), "statement", statement=one)


def _follows_from_others(name: str, holding: Holding) -> bool:
    """Whether a landmark stays anyway because others of the same bone do: it would only cost time."""
    side, _, mark = name.partition(" ")
    there = {other.partition(" ")[2] for other in holding.holds if other.startswith(side)}
    if mark == "toes":
        return "ball of big toe" in there
    if mark == "ball of big toe":
        return {"heel", "ball of little toe"} <= there
    return mark == "little knuckle" and "palm" in there


def touching_parts(holding: Holding, position: Position, body: Placement | None) -> Iterator[Asking]:
    """Parts that rest on other parts."""
    for touch, because in holding.touches:
        for side in sides_of(touch.part.side) if touch.part.name not in MIDDLE_PARTS else ("",):
            mark = _resting(touch.part, side, position)
            near, far, along = _rod(touch.on, side)
            demand = Meeting(LANDMARKS[mark], near, far, FIRM, along=along)
            yield Asking(demand, "touch", mark, statement=touch, because=because)
            if body is not None and because == KEPT:
                weight = SAME_SIDE if along is None or mark in holding.slides else SAME_PLACE
                yield from _same_place(LANDMARKS[mark], near.segment, body, weight)


def _same_place(ball: Sphere, segment: str, body: Placement, weight: float) -> Iterator[Asking]:
    """What rests on a limb stays about where it was on it in the pose before, and on the same side of it."""
    number = SEGMENT_NUMBER[segment]
    way = minus(body.centre(ball), body.origins[number])
    own = tuple(dot(way, column(body.axes[number], axis)) for axis in (0, 1, 2))
    there = Sphere(segment, (own[0], own[1], own[2]), 0.0)
    for along in (FORWARD, LEFTWARD, UPWARD):
        yield Asking(Level((place(ball, along), place(there, along, -1.0)), 0.0, weight, hard=False), "wish")


def on_the_hips(pose: Pose, holding: Holding) -> Iterator[Asking]:
    """Hands on hips stay at their place on the rim of the pelvis, whatever the trunk does; an arm whose angles are
    written is where they put it.
    """
    bent = {side for one in pose.statements if isinstance(one, Angle) and one.joint in ("shoulder", "elbow")
            for side in sides_of(one.side)}  # fmt: skip
    for side, words in holding.arms.items():
        if words != ON_HIPS or side in bent:
            continue
        written = (one for one in pose.statements if isinstance(one, Posture) and one.name == ON_HIPS)
        statement = next((one for one in written if one.side in ("", side)), Posture(ON_HIPS, side))
        for mark in ("palm", "fingertips"):
            ball, there = LANDMARKS[f"{side} {mark}"], _ON_THE_HIPS[f"{side} {mark}"]
            firm = mark == "palm"
            for along in (FORWARD, LEFTWARD, UPWARD):
                terms = (place(ball, along), place(there, along, -1.0))
                demand = Level(terms, 0.0, FIRM if firm else WISH, hard=firm)
                yield Asking(demand, "touch" if firm else "wish", f"{side} {mark}", statement=statement)


def _resting(part: Part, side: str, position: Position) -> str:
    """The one landmark of a part that rests on another part."""
    return f"{side} palm" if part.name == "hand" else touching(part.name, side, position.name)[0]


def _rod(part: Part, side: str) -> tuple[Sphere, Sphere, float | None]:
    """The flesh that is touched: the two ends of a limb, or one ball; and where along it."""
    on = part.side or side
    ends = {
        "thigh": (f"{on} thigh", (0.0, -0.015, -0.225), (0.048, 0.033), 0.55),
        "shin": (f"{on} shank", (0.0, -0.02, -0.225), (0.030, 0.023), 0.5),
        "upper arm": (f"{on} upper arm", (0.0, -0.02, -0.17), (0.031, 0.024), 0.5),
        "forearm": (f"{on} forearm", (0.0, -0.02, -0.13), (0.024, 0.017), 0.5),
    }
    if part.name in ends:
        segment, (x, top, bottom), (wide, narrow), along = ends[part.name]
        near = Sphere(segment, (x, 0.0, top * STATURE), wide * STATURE)
        return near, Sphere(segment, (x, 0.0, bottom * STATURE), narrow * STATURE), along
    ball = LANDMARKS[measured(part.name, on)]
    return ball, ball, None


def _places_on_the_hips() -> dict[str, Sphere]:
    """Where heel and tips of the hands are on the pelvis of somebody who stands straight, hands on hips."""
    angles = {f"{side} {name}": degrees for side in SIDES for name, degrees in ARMS[ON_HIPS].items()}
    frames = frames_of(angles, (0.0, 0.0, 0.0))
    found: dict[str, Sphere] = {}
    for name in (f"{side} {mark}" for side in SIDES for mark in ("palm", "fingertips")):
        ball = LANDMARKS[name]
        found[name] = Sphere("pelvis", point_of(frames[ball.segment], ball.centre), 0.0)
    return found


_ON_THE_HIPS: dict[str, Sphere] = _places_on_the_hips()
