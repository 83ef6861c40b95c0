"""A figure solved: each pose from the one before it, with what is to be said about it."""

from __future__ import annotations

from collections.abc import Sequence
from functools import lru_cache
from math import degrees

from protodsl.diagnostics.diagnostic import Diagnostic, Severity
from protodsl.figure.body.skeleton import ANGLES
from protodsl.figure.posture import SEGMENTS, Frame, Matrix, SolvedFigure, SolvedPose, Vector
from protodsl.figure.solve.arrows import said_of_arrows
from protodsl.figure.solve.base_of_support import inside
from protodsl.figure.solve.demands import Balance, centre_of_mass
from protodsl.figure.solve.faults import slides_of
from protodsl.figure.solve.motion import PELVIS
from protodsl.figure.solve.posing import Posed, pose_body
from protodsl.figure.solve.scene import Scene, props_of, scene_of
from protodsl.figure.solve.telling import said_before, said_of
from protodsl.model.figure import MIDDLE_PARTS, Contact, Distance, Figure, Touch
from protodsl.outcome import Outcome
from protodsl.source import Span

# Whatever rests on a surface within this many cm touches it.
TOUCHES = 0.5


def solve(figure: Figure) -> Outcome[SolvedFigure]:
    """The body in every pose of a figure; no value where a pose cannot be, nor where nobody is, or at a thing that
    is not there.
    """
    return _solved_at(figure, tuple((pose.span, *(one.span for one in pose.statements)) for pose in figure.poses))


@lru_cache(maxsize=256)
def _solved_at(figure: Figure, places: tuple[tuple[Span, ...], ...]) -> Outcome[SolvedFigure]:
    """As `solve`; kept, for a library's figure is asked for by every protocol that uses it. Figures are equal
    wherever they stand, and what is said of them is not: `places` tell them apart.
    """
    said: list[Diagnostic] = [one for pose in figure.poses for one in said_before(pose)]
    scene = scene_of(figure)
    if not figure.poses or _errors(said) or not _is_whole(figure, scene):
        return Outcome(None, tuple(said))
    solved: list[Posed] = []
    for pose in figure.poses:
        posed = _posed(pose_body(pose, solved[-1].before if solved else None, scene), scene)
        solved.append(posed)
        said += said_of(posed, scene)
        if _errors(said):
            return Outcome(None, tuple(said))
    said += said_of_arrows(figure.arrows, solved)
    if _errors(said):
        return Outcome(None, tuple(said))
    props = props_of(figure, scene, [(one.body, one.asked.holding.holds, one.asked.position.name) for one in solved])
    return Outcome(SolvedFigure(figure, tuple(_solved(one) for one in solved), props), tuple(said))


def _is_whole(figure: Figure, scene: Scene) -> bool:
    """Whether the figure begins with a position and all it touches is there; if not, that was said where it was
    read.
    """
    touched = {one.surface for pose in figure.poses for one in pose.statements if isinstance(one, Contact | Distance)}
    return figure.poses[0].position is not None and touched - {""} <= scene.surfaces.keys()


def _posed(posed: Posed, scene: Scene) -> Posed:
    """A pose whose contacts would slide, once more with that allowed, so that all the rest holds."""
    if not slides_of(posed):
        return posed
    return pose_body(posed.asked.pose, posed.came_from, scene, sliding=True)


def _errors(said: Sequence[Diagnostic]) -> bool:
    return any(one.severity is Severity.ERROR for one in said)


def _solved(posed: Posed) -> SolvedPose:
    body, asked = posed.body, posed.asked
    frames = {name: _frame(body.frame(number)) for number, name in enumerate(SEGMENTS)}
    angles = {name: _tidy(degrees(body.state[PELVIS + number]), 2) for number, name in enumerate(ANGLES)}
    return SolvedPose(
        asked.pose, frames, angles, _contacts(posed), _vector(centre_of_mass(body)), _tidy(inside(posed), 2)
    )


def _contacts(posed: Posed) -> tuple[tuple[str, str], ...]:
    """What touches what: every landmark that lies on its surface, and of parts on parts the ball that touches."""
    found: list[tuple[str, str]] = []
    for asking in posed.asked.askings:
        if asking.hold is None or isinstance(asking.demand, Balance) or asking.kind == "stays":
            continue
        if abs(asking.demand.miss(posed.body)) <= TOUCHES:
            found.append((asking.landmark, asking.hold.surface))
    for asking in posed.asked.askings:
        if asking.kind == "touch" and isinstance(asking.statement, Touch):
            on = asking.statement.on
            side = on.side or asking.landmark.partition(" ")[0]
            found.append((asking.landmark, on.name if on.name in MIDDLE_PARTS else f"{side} {on.name}"))
    return tuple(found)


def _frame(frame: Frame) -> Frame:
    axes: Matrix = tuple(_tidy(value, 6) for value in frame.axes)  # type: ignore[assignment]
    return Frame(_vector(frame.origin), axes)


def _vector(vector: Vector) -> Vector:
    return (_tidy(vector[0], 3), _tidy(vector[1], 3), _tidy(vector[2], 3))


def _tidy(value: float, places: int) -> float:
    """Rounded, so that machines agree, and never minus zero."""
    return round(value, places) + 0.0
