"""One pose solved: fitted, looked at for what goes through what, and fitted again with that forbidden."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, replace

from protodsl.figure.body.landmarks import LANDMARKS
from protodsl.figure.body.skeleton import SIDES
from protodsl.figure.body.vectors import dot
from protodsl.figure.solve.asking import Asked, Before, ask, wishes_of
from protodsl.figure.solve.collisions import COLLISIONS, meant_to_meet
from protodsl.figure.solve.demands import Demand, not_through, numbers_of
from protodsl.figure.solve.least_squares import fit
from protodsl.figure.solve.motion import Placement
from protodsl.figure.solve.scene import Scene
from protodsl.figure.solve.solids import into_solids
from protodsl.figure.solve.starts import other_starts
from protodsl.model.figure import Part, Pose

# Two landmarks of one knee: where the one lies on something the other may be pressed in.
_SAME: dict[str, str] = {
    f"{side} {one}": f"{side} {other}" for side in SIDES for one, other in (("knee", "kneecap"), ("kneecap", "knee"))
}
# Going this far through something is corrected, in cm.
NOTICED = 0.2
ROUNDS = 4
# A cost from which another start is tried.
HARDLY = 60.0


@dataclass(frozen=True, slots=True)
class Posed:
    """A pose as the body does it best, what it came from, how many steps that took, and at what cost."""

    asked: Asked
    body: Placement
    came_from: Before | None
    steps: int
    cost: float

    @property
    def before(self) -> Before:
        """What the next pose starts from."""
        return Before(self.asked, self.body)


def pose_body(
    pose: Pose,
    before: Before | None,
    scene: Scene,
    without: frozenset[str] = frozenset(),
    loose: Part | None = None,
    sliding: bool = False,
) -> Posed:
    """The body in a pose, as near to all that is asked as it comes; `without`, `loose` and `sliding` as in `ask`."""
    asked = ask(pose, before, scene, without, loose, sliding)
    best = _settled(asked, asked.start, before, scene)
    if best.cost < HARDLY:
        return best
    for start in other_starts(asked, tuple(best.body.state)):
        tried = _settled(asked, start, before, scene)
        best = tried if tried.cost < best.cost else best
        if best.cost < HARDLY:
            break
    return best


def _settled(asked: Asked, start: tuple[float, ...], before: Before | None, scene: Scene) -> Posed:
    """Fitted from a start, until nothing goes through anything or it cannot be helped."""
    state, steps = start, 0
    forbidden: dict[str, Demand] = {}
    for _ in range(ROUNDS):
        fitted = fit(state, asked.axes, asked.wishes, (*asked.demands, *forbidden.values()))
        state, steps, cost = fitted.state, steps + fitted.steps, fitted.cost
        body = Placement(state, asked.axes)
        fresh = {name: demand for name, demand in through(body, asked, scene) if name not in forbidden}
        if not fresh:
            break
        forbidden |= fresh
        asked = _widened(asked, tuple(fresh.values()))
    return Posed(asked, body, before, steps, cost)


def through(body: Placement, asked: Asked, scene: Scene, more_than: float = NOTICED) -> Iterator[tuple[str, Demand]]:
    """What goes through the floor, a wall or another limb by more than some cm, and the demand that forbids it."""
    held = asked.holding.holds
    for surface in ("floor", "wall"):
        if surface not in scene.surfaces:
            continue
        plane = scene.surfaces[surface]
        for name, ball in LANDMARKS.items():
            if any(one in held and held[one].surface == surface for one in (name, _SAME.get(name, name))):
                continue
            if ball.radius and dot(body.centre(ball), plane.normal) - ball.radius - plane.offset < -more_than:
                yield f"{name}, {surface}", not_through(ball, plane.normal, plane.offset, 5.0)
    yield from into_solids(body, held, asked.position.name, scene, more_than)
    meant = meant_to_meet(asked.askings)
    for name, meeting in COLLISIONS.items():
        if name not in meant and meeting.miss(body) < -more_than:
            yield name, meeting


def _widened(asked: Asked, demands: tuple[Demand, ...]) -> Asked:
    """What is asked, with wishes for the numbers too that only matter because of what is forbidden."""
    numbers = {wish.number for wish in asked.wishes}
    for demand in demands:
        numbers |= numbers_of(demand.segments())
    if numbers <= {wish.number for wish in asked.wishes}:
        return asked
    wishes = wishes_of(asked.start, asked.fixed, numbers, asked.pose, asked.holding, asked.position)
    return replace(asked, wishes=wishes)
