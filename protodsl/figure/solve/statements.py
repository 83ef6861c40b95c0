"""What each statement of a pose, and each contact, asks of the body."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from math import cos, radians, sin

from protodsl.figure.body import lengths as cm
from protodsl.figure.body.landmarks import LANDMARKS
from protodsl.figure.body.parts import FOOT, limb_of, measured, sides_of, touching
from protodsl.figure.body.positions import Position
from protodsl.figure.body.skeleton import SEGMENT_NUMBER, SIDES
from protodsl.figure.body.vectors import FORWARD, LEFTWARD, UPWARD, column
from protodsl.figure.body.wordings import FIXED_BY, angles_of
from protodsl.figure.posture import STATURE, Sphere, Vector
from protodsl.figure.solve.contacts import Hold, Holding
from protodsl.figure.solve.demands import (
    REACH,
    Balance,
    Beneath,
    Demand,
    Level,
    Meeting,
    Term,
    axis_of,
    on_plane,
    place,
    spread,
)
from protodsl.figure.solve.motion import Placement
from protodsl.figure.solve.scene import Scene
from protodsl.model.figure import (
    MIDDLE_PARTS,
    Angle,
    Distance,
    Height,
    Lean,
    Lift,
    Line,
    Part,
    Pose,
    Posture,
    Slide,
    Statement,
    Under,
)

# Weights in 1/cm: an equality that is kept; a foot that stays where it was; what merely rests; what is only a wish.
FIRM, STAYS, RESTS, WISH, LOOSE = 60.0, 20.0, 0.5, 0.5, 0.3
# How far a lifted part is at least from what it lay on, in cm: where angles say the rest, and where nothing else is
# said.
CLEAR, CLEARLY = 3.0, 12.0
UPRIGHT = ("standing", "sitting", "long sitting", "kneeling", "half-kneeling")
_HEADWARDS = ("lying face down", "on all fours")
_BALANCED = ("standing", "kneeling", "half-kneeling")


@dataclass(frozen=True, slots=True)
class Asking:
    """A demand with its kind (`contact`, `stays`, `touch`, `statement`, `wish`) and what it comes from."""

    demand: Demand
    kind: str
    landmark: str = ""
    hold: Hold | None = None
    statement: Statement | None = None
    because: str = ""


def fixed_angles(pose: Pose, position: str = "") -> dict[str, tuple[float, Statement]]:
    """The angles that a pose fixes, in degrees by name, each with the statement that does; a written angle goes
    before a word for the whole body.
    """
    fixed: dict[str, tuple[float, Statement]] = {}
    for one in pose.statements:
        if isinstance(one, Posture):
            for name, degrees in FIXED_BY.get(one.name, {}).items():
                names = (
                    (name,) if name.partition(" ")[0] in ("lower", "upper", "neck") else (f"{s} {name}" for s in SIDES)
                )
                fixed.update(dict.fromkeys(names, (degrees, one)))
            if one.name == "body straight" and position.endswith("side"):
                # The lower leg carries on the line of the trunk; the upper one lies on it.
                fixed[f"{position.split()[2]} hip abduction"] = (0.0, one)
    for one in pose.statements:
        if isinstance(one, Angle):
            for name, degrees in angles_of(one.joint, one.movement, float(one.degrees), one.side, one.towards).items():
                fixed[name] = (degrees, one)
    return fixed


def askings_of(
    pose: Pose,
    position: Position,
    holding: Holding,
    body_before: Placement | None,
    before: Holding | None,
    scene: Scene,
    loose: Part | None = None,
    sliding: bool = False,
) -> tuple[Asking, ...]:
    """Everything that a pose asks beyond its fixed angles."""
    return (
        *_contacts(position, holding, scene, loose),
        *_stays(holding, before, body_before, scene, position, LOOSE if sliding else STAYS),
        *_touches(holding, position),
        *_lifted(pose, holding, before, scene, position),
        *(
            Asking(demand, "statement", statement=one)
            for one in pose.statements
            for demand in _of_statement(one, position, holding, scene)
        ),
        *(Asking(demand, "wish") for demand in _wishes(pose, position, holding, fresh=body_before is None)),
        *(Asking(demand, "wish") for demand in _held_between(position, scene)),
    )


def _contacts(position: Position, holding: Holding, scene: Scene, loose: Part | None) -> Iterator[Asking]:
    for name, hold in holding.holds.items():
        surface = scene.surface(hold.surface, position.name)
        soft = not hold.firm or (hold.surface == "pillow" and hold.part.name == "head")
        weight = LOOSE if hold.part == loose else RESTS if soft else FIRM
        demand = on_plane(LANDMARKS[name], surface.normal, surface.offset, weight, hard=weight == FIRM)
        yield Asking(demand, "rest" if soft else "contact", name, hold, because=hold.because)


def _stays(
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
        for along in spread(scene.surface(hold.surface, position.name).normal):
            target = at[0] * along[0] + at[1] * along[1] + at[2] * along[2]
            yield Asking(
                Level((place(LANDMARKS[name], along),), target, weight, hard=weight == STAYS), "stays", name, hold
            )


def _lifted(pose: Pose, holding: Holding, before: Holding | None, scene: Scene, position: Position) -> Iterator[Asking]:
    """What lay on something in the pose before and is lifted is clear of it."""
    clear = CLEARLY if all(isinstance(one, Lift | Slide) for one in pose.statements) else CLEAR
    for name in sorted(holding.lifts & (before.holds.keys() if before is not None else set())):
        if before is None or name in holding.holds:
            continue
        surface = scene.surface(before.holds[name].surface, position.name)
        ball = LANDMARKS[name]
        target = surface.offset + ball.radius + clear
        yield Asking(Level((place(ball, surface.normal),), target, 5.0, hard=False, at_least=True), "wish", name)


def _follows_from_others(name: str, holding: Holding) -> bool:
    """Whether a landmark stays anyway because others of the same bone do: it would only cost time."""
    side, _, mark = name.partition(" ")
    there = {other.partition(" ")[2] for other in holding.holds if other.startswith(side)}
    if mark == "toes":
        return "ball of big toe" in there
    if mark == "ball of big toe":
        return {"heel", "ball of little toe"} <= there
    return mark == "little knuckle" and "palm" in there


def _touches(holding: Holding, position: Position) -> Iterator[Asking]:
    for touch, because in holding.touches:
        for side in sides_of(touch.part.side) if touch.part.name not in MIDDLE_PARTS else ("",):
            mark = _resting(touch.part, side, position)
            near, far, along = _rod(touch.on, side)
            demand = Meeting(LANDMARKS[mark], near, far, FIRM, along=along)
            yield Asking(demand, "touch", mark, statement=touch, because=because)


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


def _of_statement(one: Statement, position: Position, holding: Holding, scene: Scene) -> Iterator[Demand]:
    if isinstance(one, Under) and one.part.name == "hand":
        for side in sides_of(one.part.side):
            above = LANDMARKS[measured(one.other.name, one.other.side or side)]
            yield Beneath(LANDMARKS[f"{side} palm"], LANDMARKS[f"{side} fingertips"], above, FIRM)
    elif isinstance(one, Under):
        for lower, upper in _pairs(one.part, one.other):
            for along in (FORWARD, LEFTWARD):
                yield Level((place(lower, along), place(upper, along, -1.0)), 0.0, FIRM)
    elif isinstance(one, Height):
        for lower, upper in _pairs(one.part, one.other):
            yield Level((place(lower, UPWARD), place(upper, UPWARD, -1.0)), 0.0, FIRM)
    elif isinstance(one, Line):
        for term in _directions(one.part):
            for along in (UPWARD,) if one.direction == "horizontal" else (FORWARD, LEFTWARD):
                yield Level(tuple(_along(part, along) for part in term), 0.0, FIRM)
    elif isinstance(one, Lean):
        yield _lean(float(one.degrees) * (1.0 if one.direction == "forward" else -1.0))
    elif isinstance(one, Distance):
        yield from _distance(one, position, holding, scene)
    elif isinstance(one, Posture) and one.name == "trunk upright":
        yield _lean(0.0)
        yield Level(tuple(_along(part, LEFTWARD) for part in _TRUNK), 0.0, FIRM)


def _pairs(part: Part, other: Part) -> Iterator[tuple[Sphere, Sphere]]:
    """The places of two parts that belong together: side by side where neither, or only one, has a side."""
    sides = ("",) if part.name in MIDDLE_PARTS else sides_of(part.side)
    for side in sides:
        yield LANDMARKS[measured(part.name, side)], LANDMARKS[measured(other.name, other.side or side)]


_Direction = tuple[tuple[str, Vector, float, bool], ...]

# The trunk is the line from hips to shoulders; set so that it is upright in somebody who stands straight.
_TRUNK_LENGTH = cm.SHOULDER_HEIGHT - cm.HIP_HEIGHT
_SHOULDERS: Vector = (0.012 * STATURE, 0.0, cm.SHOULDER_IN_THORAX)
_TRUNK: _Direction = (
    ("upper thorax", _SHOULDERS, REACH / _TRUNK_LENGTH, False),
    ("pelvis", (0.0, 0.0, 0.0), -REACH / _TRUNK_LENGTH, False),
)
_LEG_LENGTH = cm.THIGH + cm.SHANK


def _along(part: tuple[str, Vector, float, bool], along: Vector) -> Term:
    segment, own, factor, turns = part
    return Term(SEGMENT_NUMBER[segment], own, along, factor, turns)


def _directions(part: Part) -> Iterator[_Direction]:
    """The line of a part, as if it were REACH cm long; one for each side that is meant."""
    if part.name in ("trunk", "back", "upper back", "lower back", "chest", "pelvis"):
        yield _TRUNK
        return
    if part.name in MIDDLE_PARTS:
        yield (("head", (0.0, 0.0, REACH), 1.0, True),)
        return
    down = (0.0, 0.0, -REACH)
    segments = {
        "thigh": "thigh", "shin": "shank", "calf": "shank", "knee": "shank", "ankle": "shank", "upper arm": "upper arm",
        "shoulder": "upper arm", "elbow": "forearm", "forearm": "forearm", "wrist": "hand",
        "hand": "hand", "fingers": "hand",
    }  # fmt: skip
    for side in sides_of(part.side):
        if part.name in ("leg", "hip"):
            reach = REACH / _LEG_LENGTH
            yield ((f"{side} foot", (0.0, 0.0, 0.0), reach, False), (f"{side} thigh", (0.0, 0.0, 0.0), -reach, False))
        elif part.name == "arm":
            reach = REACH / (cm.UPPER_ARM + cm.FOREARM)
            yield (
                (f"{side} hand", (0.0, 0.0, 0.0), reach, False),
                (f"{side} upper arm", (0.0, 0.0, 0.0), -reach, False),
            )
        elif part.name in segments:
            yield ((f"{side} {segments[part.name]}", down, 1.0, True),)
        else:
            yield ((f"{side} foot", (REACH, 0.0, 0.0), 1.0, True),)


def _lean(degrees: float) -> Level:
    """The trunk leans forward by an angle from upright."""
    across = (cos(radians(degrees)), 0.0, -sin(radians(degrees)))
    return Level(tuple(_along(part, across) for part in _TRUNK), 0.0, FIRM)


def _distance(one: Distance, position: Position, holding: Holding, scene: Scene) -> Iterator[Demand]:
    far = float(one.centimetres)
    if one.relation == "from" and one.surface:
        surface = scene.surfaces[one.surface]
        for name in _nearest(one.part, surface.normal, position):
            ball = LANDMARKS[name]
            yield Level((place(ball, surface.normal),), surface.offset + ball.radius + far, FIRM)
    elif one.relation == "apart":
        right, left = (LANDMARKS[measured(one.part.name, side)] for side in SIDES)
        sideways = column(position.axes, 1)
        yield Level((place(left, sideways), place(right, sideways, -1.0)), far, FIRM)
    elif one.other is not None:
        ahead = FORWARD if position.name in (*UPRIGHT, *_HEADWARDS) else column(position.axes, 0)
        for first, second in _pairs(one.part, one.other):
            if one.relation == "from":
                yield Meeting(first, second, second, FIRM, slack=0.0) if far == 0 else _apart(first, second, far)
            else:
                sign = 1.0 if one.relation == "in front of" else -1.0
                yield Level((place(first, ahead), place(second, ahead, -1.0)), sign * far, FIRM)


def _apart(first: Sphere, second: Sphere, far: float) -> Meeting:
    """Two places a distance from each other, flesh to flesh."""
    wider = Sphere(second.segment, second.centre, second.radius + far)
    return Meeting(first, wider, wider, FIRM)


def _nearest(part: Part, normal: Vector, position: Position) -> tuple[str, ...]:
    """The landmarks of a part that are nearest to a wall: the toes of a foot that points to it, else its heel."""
    sides = ("",) if part.name in MIDDLE_PARTS else sides_of(part.side)
    if part.name not in ("foot", "heel", "toes", "forefoot"):
        return tuple(measured(part.name, side) for side in sides)
    towards = sum(a * b for a, b in zip(column(position.axes, 0), normal, strict=True)) < -0.5
    mark = "heel" if part.name == "heel" or (part.name == "foot" and not towards) else "toes"
    return tuple(f"{side} {mark}" for side in sides)


def _wishes(pose: Pose, position: Position, holding: Holding, fresh: bool) -> Iterator[Demand]:
    ahead = FORWARD if position.name in _HEADWARDS else column(position.axes, 0)
    words = {one.name for one in pose.statements if isinstance(one, Posture)}
    if "look ahead" in words:
        for along in spread(ahead):
            yield Level((axis_of("head", 0, along),), 0.0, WISH, hard=False)
    for side, arm in holding.arms.items():
        forward = column(position.axes, 0)
        aim = {"arms forward": forward, "arms overhead": column(position.axes, 2)}.get(arm)
        if aim is not None and (arm == "arms forward" or position.name in UPRIGHT):
            for along in spread(aim):
                yield Level((axis_of(f"{side} upper arm", 2, along),), 0.0, 2 * WISH, hard=False)
    if position.name == "on all fours" and fresh:
        for side in SIDES:
            for lower, upper in ((f"{side} palm", f"{side} shoulder"), (f"{side} kneecap", f"{side} hip")):
                if lower in holding.holds:
                    yield Level(
                        (place(LANDMARKS[lower], FORWARD), place(LANDMARKS[upper], FORWARD, -1.0)), 0.0, 2.0, hard=False
                    )
    for touch, because in holding.touches:
        if because == position.name:
            top, bottom = (LANDMARKS[measured(part.name, part.side)] for part in (touch.part, touch.on))
            for along in (FORWARD, LEFTWARD):
                yield Level((place(top, along), place(bottom, along, -1.0)), 0.0, WISH, hard=False)
    for one in pose.statements:
        if isinstance(one, Under) and one.part.name == "hand":
            for hand, above in _pairs(one.part, one.other):
                yield Level((place(hand, FORWARD), place(above, FORWARD, -1.0)), 0.0, 0.2, hard=False)
    feet, weight = _carrying(position, holding)
    if feet:
        forefeet = all(name.partition(" ")[2] in FOOT[1:] for name in feet)
        yield Balance(feet, 0.3 if forefeet else 0.48, weight, keeps_inside=position.name != "standing")


def _held_between(position: Position, scene: Scene) -> Iterator[Demand]:
    """Two parts are as far apart as what they hold between them is broad."""
    for one, other, breadth in scene.between:
        first, second = (LANDMARKS[measured(part.name, part.side)] for part in (one, other))
        sign = 1.0 if one.side == "left" else -1.0
        sideways = column(position.axes, 1)
        terms = (place(first, sideways, sign), place(second, sideways, -sign))
        yield Level(terms, breadth + first.radius + second.radius, 2.0, hard=False)


def _carrying(position: Position, holding: Holding) -> tuple[tuple[str, ...], float]:
    """The landmarks that carry somebody upright, and how much that counts: less where a hand helps, not at all where
    a wall or a chair does.
    """
    if position.name not in _BALANCED:
        return (), 0.0
    firm = {name: hold for name, hold in holding.holds.items() if hold.firm}
    carrying = tuple(name for name, hold in firm.items() if limb_of(name)[1] == "leg" and hold.surface != "wall")
    others = [name for name in firm if name not in carrying]
    if any(limb_of(name)[1] != "arm" or firm[name].surface == "wall" for name in others):
        return (), 0.0
    return carrying, 0.8 * WISH if others else WISH
