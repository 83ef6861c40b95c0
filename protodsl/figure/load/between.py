"""The body on its way from one pose to the next: what stays on its surface in both poses stays there all the way."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from math import asin, atan2, degrees, radians

from protodsl.figure.body.landmarks import LANDMARKS
from protodsl.figure.body.parts import limb_of
from protodsl.figure.body.positions import Position
from protodsl.figure.body.skeleton import ANGLES
from protodsl.figure.body.vectors import after, dot
from protodsl.figure.load.supports import normal_of
from protodsl.figure.posture import SEGMENTS, Frame, Matrix, SolvedPose
from protodsl.figure.solve.demands import Balance, Demand, Level, centre_of_mass, numbers_of, place, spread
from protodsl.figure.solve.least_squares import Wish, fit
from protodsl.figure.solve.motion import PELVIS, PITCH, Placement
from protodsl.figure.solve.scene import Scene

# How far off the straight way a number may be for one unit of cost: cm for the place of the pelvis, else degrees.
_SPREAD_PLACE, _SPREAD_TURN, _SPREAD_ANGLE = 10.0, 6.0, 8.0
_FIRM = 60.0
# How much the centre of mass over the feet counts, as a wish and where the body would fall otherwise.
_BALANCED, _LEANING = 0.5, 6.0


def placed(pose: SolvedPose, position: Position) -> Placement:
    """The numbers of a solved pose again, from its frames and angles."""
    pelvis = pose.frames["pelvis"]
    across, turned_by = pelvis.axes, _transposed(position.axes)
    pitch, roll, yaw = _turns(after(across, turned_by))
    state = (*pelvis.origin, pitch, roll, yaw, *(radians(pose.angles[name]) for name in ANGLES))
    return Placement(state, position.axes)


@dataclass(frozen=True, slots=True)
class Way:
    """The way between two poses of one position: `staying` are the landmarks that are on one surface in both, with that
    surface, `fixed` the numbers whose angles are written and equal in both, `upright` whether legs alone carry.
    """

    first: Placement
    last: Placement
    staying: Mapping[str, str]
    scene: Scene
    axes: Matrix
    fixed: frozenset[int]
    upright: bool

    def at(self, part: float, leaning: bool = False) -> Placement:
        """The body so far along (0 to 1), put right so that contacts hold; `leaning` over what carries it."""
        state = tuple(a + part * (b - a) for a, b in zip(self.first.state, self.last.state, strict=True))
        demands: list[Demand] = [*self._contacts(part), *self._balance(part, leaning)]
        if not demands:
            return Placement(state, self.axes)
        numbers: set[int] = set()
        for demand in demands:
            numbers |= numbers_of(demand.segments())
        wishes = [Wish(number, state[number], _spread(number)) for number in sorted(numbers - self.fixed)]
        return Placement(fit(state, self.axes, wishes, demands).state, self.axes)

    def _contacts(self, part: float) -> Iterator[Demand]:
        """Each landmark is as far along between its two places as the body is; on its surface it is all the way."""
        for name, surface in self.staying.items():
            ball = LANDMARKS[name]
            normal = normal_of(surface, self.scene)
            for along, weight in ((normal, _FIRM), *((one, _FIRM / 3) for one in spread(normal))):
                ends = [dot(body.centre(ball), along) for body in (self.first, self.last)]
                yield Level((place(ball, along),), ends[0] + part * (ends[1] - ends[0]), weight)

    def _balance(self, part: float, leaning: bool) -> Iterator[Demand]:
        feet = tuple(name for name in self.staying if limb_of(name)[1] == "leg")
        if not feet or not (self.upright or leaning):
            return
        if leaning:
            yield Balance(feet, 0.5, _LEANING, keeps_inside=True)
        else:
            shares = [_share(body, feet) for body in (self.first, self.last)]
            yield Balance(feet, shares[0] + part * (shares[1] - shares[0]), _BALANCED)


def _share(body: Placement, feet: tuple[str, ...]) -> float:
    """How far forward over the feet the centre of mass is: 0 at what is hindmost, 1 at what is foremost."""
    places = [body.centre(LANDMARKS[name])[0] for name in feet]
    low, high = min(places), max(places)
    return (centre_of_mass(body)[0] - low) / (high - low) if high - low > 1.0 else 0.5


def _spread(number: int) -> float:
    return _SPREAD_PLACE if number < PITCH else radians(_SPREAD_TURN if number < PELVIS else _SPREAD_ANGLE)


def frames_in(body: Placement) -> dict[str, Frame]:
    """The frame of each segment."""
    return {name: body.frame(number) for number, name in enumerate(SEGMENTS)}


def angles_in(body: Placement) -> dict[str, float]:
    """Each angle in degrees."""
    return {name: degrees(body.state[PELVIS + number]) for number, name in enumerate(ANGLES)}


def _transposed(m: Matrix) -> Matrix:
    return (m[0], m[3], m[6], m[1], m[4], m[7], m[2], m[5], m[8])


def _turns(m: Matrix) -> tuple[float, float, float]:
    """Pitch, roll and yaw of a turn that is made of them in this order."""
    return atan2(m[2], m[8]), asin(max(-1.0, min(1.0, -m[5]))), atan2(m[3], m[4])
