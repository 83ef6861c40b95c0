"""What the statements of a pose ask of the body: the angles they fix, and relations as demands."""

from __future__ import annotations

from collections.abc import Iterator
from math import cos, radians, sin

from protodsl.figure.body import lengths as cm
from protodsl.figure.body.landmarks import LANDMARKS
from protodsl.figure.body.parts import measured, sides_of
from protodsl.figure.body.positions import Position
from protodsl.figure.body.skeleton import SEGMENT_NUMBER, SIDES
from protodsl.figure.body.vectors import FORWARD, LEFTWARD, UPWARD, column
from protodsl.figure.body.wordings import FIXED_BY, angles_of
from protodsl.figure.posture import STATURE, Sphere, Vector
from protodsl.figure.solve.contacts import Holding
from protodsl.figure.solve.demands import (
    REACH,
    Beneath,
    Demand,
    Level,
    Meeting,
    Term,
    place,
)
from protodsl.figure.solve.scene import Scene
from protodsl.figure.solve.weights import FIRM, HEADWARDS, UPRIGHT
from protodsl.model.figure import (
    MIDDLE_PARTS,
    Angle,
    Distance,
    Height,
    Lean,
    Line,
    Part,
    Pose,
    Posture,
    Statement,
    Under,
)


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


def demands_of(one: Statement, position: Position, holding: Holding, scene: Scene) -> Iterator[Demand]:
    """What one statement asks beyond fixing angles; nothing for what is asked elsewhere."""
    if isinstance(one, Under) and one.part.name == "hand":
        for side in sides_of(one.part.side):
            above = LANDMARKS[measured(one.other.name, one.other.side or side)]
            yield Beneath(LANDMARKS[f"{side} palm"], LANDMARKS[f"{side} fingertips"], above, FIRM)
    elif isinstance(one, Under):
        for lower, upper in pairs(one.part, one.other):
            for along in (FORWARD, LEFTWARD):
                yield Level((place(lower, along), place(upper, along, -1.0)), 0.0, FIRM)
    elif isinstance(one, Height):
        for lower, upper in pairs(one.part, one.other):
            yield Level((place(lower, UPWARD), place(upper, UPWARD, -1.0)), 0.0, FIRM)
    elif isinstance(one, Line):
        for term in _directions(one.part):
            for along in (UPWARD,) if one.direction == "horizontal" else (FORWARD, LEFTWARD):
                yield Level(tuple(term_along(part, along) for part in term), 0.0, FIRM)
    elif isinstance(one, Lean):
        yield _lean(float(one.degrees) * (1.0 if one.direction == "forward" else -1.0))
    elif isinstance(one, Distance):
        yield from _distance(one, position, holding, scene)
    elif isinstance(one, Posture) and one.name == "trunk upright":
        yield _lean(0.0)
        yield Level(tuple(term_along(part, LEFTWARD) for part in TRUNK), 0.0, FIRM)


def pairs(part: Part, other: Part) -> Iterator[tuple[Sphere, Sphere]]:
    """The places of two parts that belong together: side by side where neither, or only one, has a side."""
    sides = ("",) if part.name in MIDDLE_PARTS else sides_of(part.side)
    for side in sides:
        yield LANDMARKS[measured(part.name, side)], LANDMARKS[measured(other.name, other.side or side)]


_Direction = tuple[tuple[str, Vector, float, bool], ...]

# The trunk is the line from hips to shoulders; set so that it is upright in somebody who stands straight.
_TRUNK_LENGTH = cm.SHOULDER_HEIGHT - cm.HIP_HEIGHT
_SHOULDERS: Vector = (0.012 * STATURE, 0.0, cm.SHOULDER_IN_THORAX)
TRUNK: _Direction = (
    ("upper thorax", _SHOULDERS, REACH / _TRUNK_LENGTH, False),
    ("pelvis", (0.0, 0.0, 0.0), -REACH / _TRUNK_LENGTH, False),
)
_LEG_LENGTH = cm.THIGH + cm.SHANK


def term_along(part: tuple[str, Vector, float, bool], along: Vector) -> Term:
    """One end of a line of the body, as a term along a direction."""
    segment, own, factor, turns = part
    return Term(SEGMENT_NUMBER[segment], own, along, factor, turns)


def _directions(part: Part) -> Iterator[_Direction]:
    """The line of a part, as if it were REACH cm long; one for each side that is meant."""
    if part.name in ("trunk", "back", "upper back", "lower back", "chest", "pelvis"):
        yield TRUNK
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
    return Level(tuple(term_along(part, across) for part in TRUNK), 0.0, FIRM)


def _distance(one: Distance, position: Position, holding: Holding, scene: Scene) -> Iterator[Demand]:
    far = float(one.centimetres)
    if one.relation == "from" and one.surface:
        surface = scene.surfaces[one.surface]
        for name in _nearest(one.part, surface.normal, position):
            ball = LANDMARKS[name]
            yield Level((place(ball, surface.normal),), surface.offset + ball.radius + far, FIRM)
    elif one.relation == "apart" or _is_pair(one):
        right, left = (LANDMARKS[measured(one.part.name, side)] for side in SIDES)
        sideways = column(position.axes, 1)
        yield Level((place(left, sideways), place(right, sideways, -1.0)), far, FIRM)
    elif one.other is not None:
        ahead = FORWARD if position.name in (*UPRIGHT, *HEADWARDS) else column(position.axes, 0)
        for first, second in pairs(one.part, one.other):
            if one.relation == "from":
                yield Meeting(first, second, second, FIRM, slack=0.0) if far == 0 else _apart(first, second, far)
            else:
                sign = 1.0 if one.relation == "in front of" else -1.0
                yield Level((place(first, ahead), place(second, ahead, -1.0)), sign * far, FIRM)


def _is_pair(one: Distance) -> bool:
    """`right foot 50 cm from left foot`: as far apart, to the side."""
    return one.relation == "from" and one.other is not None and one.part.name == one.other.name


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
