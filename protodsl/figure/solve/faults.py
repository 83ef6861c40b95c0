"""What a solved pose does not hold: facts in cm and degrees, without a sentence."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, replace
from math import degrees

from protodsl.figure.body.limits import LIMITS, UNDER_LOAD_SOURCE, beyond_anatomy, plain_name
from protodsl.figure.body.skeleton import ANGLES
from protodsl.figure.solve.asking import range_of
from protodsl.figure.solve.demands import REACH, Balance, Level
from protodsl.figure.solve.motion import PELVIS
from protodsl.figure.solve.posing import Posed, pose_body, through
from protodsl.figure.solve.resting import ON_HIPS, Asking
from protodsl.figure.solve.scene import Scene
from protodsl.model.figure import Lean, Line, Part, Posture, Statement

# An equality that is missed by more, in cm (a contact) or in cm at 40 cm (a direction: 0.7 degrees), does not hold.
MISSED = 0.5
# A contact that slides by more, and a part that goes further through something, in cm, is said.
SLIDES = 1.0
THROUGH = 1.0
# Degrees past the normal range that are said: of a written angle, and of one that only follows, where a drawn body of
# stiff parts errs by a few degrees itself.
PAST, PAST_IMPLIED = 0.5, 10.0


@dataclass(frozen=True, slots=True)
class OffSurface:
    """A part that does not lie on its surface: `cm` short of it, or negative, so far through it."""

    part: Part
    surface: str
    cm: float


@dataclass(frozen=True, slots=True)
class NotHeld:
    """A statement that does not hold, by `off` cm or degrees."""

    statement: Statement
    off: float
    in_degrees: bool


@dataclass(frozen=True, slots=True)
class GoesThrough:
    """A landmark that goes `cm` through a surface, or through another part of the body."""

    landmark: str
    what: str
    cm: float


@dataclass(frozen=True, slots=True)
class Beyond:
    """An angle past its normal range; `written` is what wrote it, None where it only follows."""

    angle: str
    degrees: float
    movement: str
    normal: float
    source: str
    written: Statement | None


Fault = OffSurface | NotHeld | GoesThrough | Beyond


def faults_of(posed: Posed, scene: Scene) -> tuple[Fault, ...]:
    """Everything that makes a pose one that cannot be, contacts first."""
    missed: dict[tuple[Part, str], float] = {}
    unheld: dict[int, NotHeld] = {}
    for asking in posed.asked.askings:
        if asking.kind == "contact" and asking.hold is not None:
            _keep_worst(missed, (asking.hold.part, asking.hold.surface), _miss(asking, posed))
        elif asking.kind in ("statement", "touch") and asking.statement is not None:
            off = abs(_miss(asking, posed))
            if off > MISSED and off > (unheld[id(asking.statement)].off if id(asking.statement) in unheld else 0.0):
                unheld[id(asking.statement)] = _not_held(asking.statement, off)
    off_surface = [OffSurface(part, surface, cm) for (part, surface), cm in missed.items() if abs(cm) > MISSED]
    past = [one for one in beyond_of(posed) if one.written is None and beyond_anatomy(one.angle, one.degrees)]
    return (*off_surface, *unheld.values(), *_through(posed, scene), *past)


def _miss(asking: Asking, posed: Posed) -> float:
    return 0.0 if isinstance(asking.demand, Balance) else asking.demand.miss(posed.body)


def _keep_worst(missed: dict[tuple[Part, str], float], key: tuple[Part, str], cm: float) -> None:
    if abs(cm) > abs(missed.get(key, 0.0)):
        missed[key] = cm


def _not_held(statement: Statement, off: float) -> NotHeld:
    if isinstance(statement, Line | Lean) or (isinstance(statement, Posture) and statement.name != ON_HIPS):
        return NotHeld(statement, degrees(off / REACH), in_degrees=True)
    return NotHeld(statement, off, in_degrees=False)


def _through(posed: Posed, scene: Scene) -> Iterator[GoesThrough]:
    for name, demand in through(posed.body, posed.asked, scene, more_than=THROUGH):
        landmark, _, what = name.partition(", ")
        if not isinstance(demand, Balance):
            yield GoesThrough(landmark, what, -demand.miss(posed.body))


def shortfall(posed: Posed, fault: OffSurface, again: Posed) -> OffSurface:
    """How far off a part really is: seen in the pose solved `again` with that part's contact loose."""
    worst = 0.0
    for asking in again.asked.askings:
        if asking.hold is not None and asking.hold.part == fault.part and isinstance(asking.demand, Level):
            cm = asking.demand.miss(again.body)
            worst = cm if abs(cm) > abs(worst) and asking.kind in ("contact", "rest") else worst
    return replace(fault, cm=worst) if abs(worst) > abs(fault.cm) else fault


def slides_of(posed: Posed) -> dict[Part, float]:
    """How far contacts kept from the pose before would slide, in cm, by part; those that are worth a word."""
    by_landmark: dict[str, tuple[Part, float]] = {}
    for asking in posed.asked.askings:
        if asking.kind == "stays" and asking.hold is not None:
            part, squared = by_landmark.get(asking.landmark, (asking.hold.part, 0.0))
            by_landmark[asking.landmark] = (part, squared + _miss(asking, posed) ** 2)
    found: dict[Part, float] = {}
    for part, squared in by_landmark.values():
        cm = squared**0.5
        if cm > SLIDES:
            found[part] = max(cm, found.get(part, 0.0))
    return found


def beyond_of(posed: Posed) -> tuple[Beyond, ...]:
    """The angles that lie past their normal range."""
    found: list[Beyond] = []
    for number, name in enumerate(ANGLES, PELVIS):
        value = degrees(posed.body.state[number])
        written = posed.asked.fixed.get(name)
        low, high = range_of(name, posed.asked.holding)
        margin = PAST if written else PAST_IMPLIED
        if low - margin <= value <= high + margin:
            continue
        movement, normal, source = LIMITS[plain_name(name)].ends(value)
        allowed = high if value > high else -low
        if allowed != normal:
            normal, source = allowed, UNDER_LOAD_SOURCE
        found.append(Beyond(name, value, movement, normal, source, written[1] if written else None))
    return tuple(found)


def looser(posed: Posed, fault: OffSurface, scene: Scene) -> Posed:
    """The pose with one part's contact only pulling, so that all else holds."""
    return pose_body(posed.asked.pose, posed.came_from, scene, loose=fault.part)
