"""What carries a body in a pose: points that can press, parts that only lie there, and weights that were added.

Assumptions, each the project's own: flesh carries on a patch of the same size as in the solver's base of support; what
merely rests on a surface is carried where it lies and loads no joint; of somebody upright a hand on a support only
steadies, where the legs alone can carry.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass, field

from protodsl.figure.body.kinematics import point_of
from protodsl.figure.body.landmarks import LANDMARKS
from protodsl.figure.body.parts import limb_of, measured, sides_of
from protodsl.figure.body.skeleton import SIDES
from protodsl.figure.body.vectors import UPWARD, add, dot, length, minus, times
from protodsl.figure.posture import Frame, Vector
from protodsl.figure.solve.base_of_support import PATCH, hull
from protodsl.figure.solve.contacts import Hold, Holding
from protodsl.figure.solve.demands import spread
from protodsl.figure.solve.scene import Scene
from protodsl.model.figure import Figure, Part

# A part within this many cm of the surface that its neighbours lie on is carried, too; one that merely rests there is
# drawn within so many.
NEAR, RESTS = 2.5, 5.0
UPRIGHT = ("standing", "sitting", "long sitting", "kneeling", "half-kneeling")
_ARM = ("upper arm", "forearm", "hand")
_LEG = ("thigh", "shank", "foot", "toes")
_HIPS = ("right seat", "left seat", "right side of hip", "left side of hip", "pubis", "sacrum")
_BACK = ("sacrum", "lower back", "middle back")
_FRONT = ("belly",)


@dataclass(frozen=True, slots=True)
class Support:
    """A point of a segment (cm) that a surface can press on along `normal`."""

    segment: str
    at: Vector
    normal: Vector


@dataclass(frozen=True, slots=True)
class Weight:
    """A mass in kg that was added at a point of a segment, in its own axes (cm)."""

    segment: str
    own: Vector
    kilograms: float


@dataclass(frozen=True, slots=True)
class Carried:
    """How a pose is carried: landmarks with the surface of each, and the segments whose weight the surfaces take.

    `steadying` are the marks of hands that hold on; `lying` are those of what rests, which can press if need be.
    """

    marks: Mapping[str, str]
    resting: frozenset[str]
    steadying: frozenset[str] = frozenset()
    lying: Mapping[str, str] = field(default_factory=dict)

    def pressed(self) -> Carried:
        """The same with all that lies pressing as well, and carried no more."""
        limbs = {LANDMARKS[name].segment.partition(" ")[0] + " " + limb_of(name)[1] for name in self.lying}
        still = frozenset(one for one in self.resting if f"{one.partition(' ')[0]} {_limb(one)}" not in limbs)
        return Carried({**self.marks, **self.lying}, still, self.steadying)


def carried(holding: Holding, position: str, frames: Mapping[str, Frame]) -> Carried:
    """What of the contacts carries."""
    holds = holding.holds
    firm = {name: hold.surface for name, hold in holds.items() if hold.firm and hold.part.name not in ("head",)}
    resting = set(_resting_head(holds)) | set(_resting_arms(holds))
    below = {firm[name] for name in _HIPS if name in firm}
    for side in SIDES:
        if _leg_lies(side, holds, below, position):
            resting |= {f"{side} {name}" for name in _LEG if name != "thigh" or below}
    if position.endswith("side") and f"{position.split()[2]} shank" in resting:
        lower = position.split()[2]
        upper = next(side for side in SIDES if side != lower)
        touching = any(because == position for _, because in holding.touches)
        if touching and not _firm_leg(upper, holds) and _knees_together(frames):
            resting |= {f"{upper} {name}" for name in _LEG}
    marks = {name: surface for name, surface in firm.items() if LANDMARKS[name].segment not in resting}
    lying = {
        name: hold.surface
        for name, hold in holds.items()
        if LANDMARKS[name].segment in resting and LANDMARKS[name].segment != "head"
    }
    marks |= {name: surface for name, surface in _beside(marks, position, frames) if name not in marks}
    steadying = frozenset(name for name in marks if position in UPRIGHT and limb_of(name)[1] == "arm")
    return Carried(marks, frozenset(resting), steadying, lying)


def _resting_head(holds: Mapping[str, Hold]) -> Iterator[str]:
    if any(LANDMARKS[name].segment == "head" for name in holds):
        yield "head"


def _resting_arms(holds: Mapping[str, Hold]) -> Iterator[str]:
    for side in SIDES:
        own = [hold for name, hold in holds.items() if limb_of(name) == (side, "arm") and not name.endswith("shoulder")]
        if own and not any(hold.firm for hold in own):
            on_shoulder = f"{side} shoulder" in holds
            yield from (f"{side} {name}" for name in _ARM if not (on_shoulder and name == "upper arm"))


def _knees_together(frames: Mapping[str, Frame]) -> bool:
    """Whether one knee lies on the other."""
    balls = [LANDMARKS[f"{side} knee"] for side in SIDES]
    way = minus(*(point_of(frames[ball.segment], ball.centre) for ball in balls))
    return length(way) <= sum(ball.radius for ball in balls) + NEAR


def _limb(segment: str) -> str:
    """`arm` or `leg`; neither for the middle."""
    name = segment.partition(" ")[2]
    return "arm" if name in _ARM else "leg" if name in _LEG else ""


def _firm_leg(side: str, holds: Mapping[str, Hold]) -> bool:
    return any(hold.firm for name, hold in holds.items() if limb_of(name) == (side, "leg"))


def _leg_lies(side: str, holds: Mapping[str, Hold], below: set[str], position: str) -> bool:
    """Whether a leg only lies there: nothing was said of it, or the calf lies beside the heel, or it is underneath."""
    own = {name.partition(" ")[2]: hold for name, hold in holds.items() if limb_of(name) == (side, "leg")}
    if not own:
        return False
    if not any(hold.firm for hold in own.values()):
        return True
    if "calf" in own and not own["calf"].firm:
        return own["calf"].surface in below
    return position == f"lying on {side} side" and own.keys() == {"ankle"} and own["ankle"].surface in below


def _beside(marks: Mapping[str, str], position: str, frames: Mapping[str, Frame]) -> Iterator[tuple[str, str]]:
    """Flesh beside what carries, where it lies on the same surface: the trunk of who lies, thighs on a seat."""
    names: tuple[str, ...] = ()
    beside = ""
    if position == "lying on back" and {"upper back", "right seat"} <= marks.keys():
        names, beside = _BACK, "right seat"
    elif position == "lying face down" and {"chest", "pubis"} <= marks.keys():
        names, beside = _FRONT, "pubis"
    elif position == "sitting" and "right seat" in marks:
        names, beside = ("right thigh", "left thigh"), "right seat"
    for name in names:
        if abs(_underside(name, UPWARD, frames) - _underside(beside, UPWARD, frames)) <= NEAR:
            yield name, marks[beside]


def _underside(landmark: str, normal: Vector, frames: Mapping[str, Frame]) -> float:
    """How far along a normal the flesh of a landmark begins: where it touches, that is where the surface is."""
    ball = LANDMARKS[landmark]
    return dot(point_of(frames[ball.segment], ball.centre), normal) - ball.radius


def is_near(landmark: str, surface: str, frames: Mapping[str, Frame]) -> bool:
    """Whether what merely rests on a surface is there, as far as a drawing of stiff parts shows it."""
    return surface != "floor" or _underside(landmark, UPWARD, frames) <= RESTS


def normal_of(surface: str, scene: Scene) -> Vector:
    """Which way a surface presses: a wall from where it stands, everything else upwards."""
    return scene.surfaces["wall"].normal if surface == "wall" else UPWARD


def supports(
    marks: Mapping[str, str], frames: Mapping[str, Frame], scene: Scene, more: float = 0.0
) -> tuple[Support, ...]:
    """The corners of all that carries, segment by segment: no force within them does what one at them cannot.

    The toes count with the foot, whose joint to them is taken as stiff. `more` (cm) makes each patch larger.
    """
    found: dict[tuple[str, str], list[Vector]] = {}
    for name, surface in marks.items():
        ball = LANDMARKS[name]
        normal = normal_of(surface, scene)
        on_plane = add(point_of(frames[ball.segment], ball.centre), times(normal, -ball.radius))
        patch = PATCH * ball.radius + more
        first, second = spread(normal)
        found.setdefault((ball.segment.replace("toes", "foot"), surface), []).extend(
            add(on_plane, add(times(first, a * patch), times(second, b * patch))) for a in (-1, 1) for b in (-1, 1)
        )
    return tuple(
        Support(segment, point, normal_of(surface, scene))
        for (segment, surface), points in found.items()
        for point in _corners(points, normal_of(surface, scene))
    )


def _corners(points: list[Vector], normal: Vector) -> list[Vector]:
    first, second = spread(normal)
    flat = {(round(dot(point, first), 6), round(dot(point, second), 6)): point for point in points}
    return [flat[corner] for corner in hull(tuple(flat))]


def weights_of(figure: Figure) -> tuple[Weight, ...]:
    """The weights that the figure shows; one on a pair of parts is shared between them."""
    found: list[Weight] = []
    for prop in figure.props:
        part = prop.ends[0] if prop.ends else None
        if prop.kind != "weight" or prop.kilograms is None or not isinstance(part, Part):
            continue
        names = [measured(part.name, side) for side in sides_of(part.side)]
        names = list(dict.fromkeys(names))
        for name in names:
            ball = LANDMARKS[name]
            found.append(Weight(ball.segment, ball.centre, float(prop.kilograms) / len(names)))
    return tuple(found)
