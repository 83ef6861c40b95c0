"""The seat of a chair that is sat on and a step that is stood on: no thigh or hand through the one, no foot in the
other. Both stand where the body that touches them has put them.
"""

from __future__ import annotations

from collections.abc import Iterator

from protodsl.figure.body.landmarks import LANDMARKS
from protodsl.figure.body.parts import FOOT
from protodsl.figure.body.skeleton import SIDES
from protodsl.figure.body.vectors import FORWARD, UPWARD
from protodsl.figure.posture import Sphere
from protodsl.figure.solve.contacts import Hold
from protodsl.figure.solve.demands import Demand, Level, not_through, place
from protodsl.figure.solve.motion import Placement
from protodsl.figure.solve.scene import (
    BEHIND_FOREFOOT,
    BEHIND_HEEL,
    DEPTHS,
    HALF_SEAT,
    HALF_STEP,
    SEAT_AHEAD,
    Scene,
)

# How much the flesh of thighs and the seat itself give way together, and that of a hand beside them, in cm.
_SOFT, _HARDER = 3.0, 1.5
_WEIGHT = 0.6


def into_solids(
    body: Placement, holds: dict[str, Hold], position: str, scene: Scene, more_than: float
) -> Iterator[tuple[str, Demand]]:
    """What is in a seat or a step by more than some cm, and the demand that it gets out of it."""
    if position == "sitting":
        yield from _into_seat(body, holds, scene, more_than)
    if scene.step_ahead:
        yield from _into_step(body, holds, scene, more_than)


def _into_seat(body: Placement, holds: dict[str, Hold], scene: Scene, more_than: float) -> Iterator[tuple[str, Demand]]:
    seats = [name for name in ("right seat", "left seat") if name in holds and holds[name].surface == "chair"]
    if not seats:
        return
    middle = [sum(body.centre(LANDMARKS[name])[axis] for name in seats) / len(seats) for axis in (0, 1)]
    front = middle[0] + (SEAT_AHEAD + 0.5) * DEPTHS["chair"]
    seat = scene.surfaces["chair"]
    for side in SIDES:
        for mark, slack in (("thigh", _SOFT), ("palm", _HARDER), ("wrist", _HARDER)):
            name = f"{side} {mark}"
            ball = LANDMARKS[name]
            x, y, z = body.centre(ball)
            deep = seat.offset - slack - (z - ball.radius)
            # What is nearer to an edge than to the top hangs beside the chair.
            inside = min(front - x, x - front + DEPTHS["chair"], HALF_SEAT - abs(y - middle[1])) + ball.radius
            if name not in holds and more_than < deep < inside and (mark == "thigh" or z > seat.offset - _THICK):
                yield f"{name}, chair", not_through(ball, seat.normal, seat.offset - slack, _WEIGHT)


def _into_step(body: Placement, holds: dict[str, Hold], scene: Scene, more_than: float) -> Iterator[tuple[str, Demand]]:
    on = [name for name, hold in holds.items() if hold.surface == "step" and name.partition(" ")[2] in FOOT]
    if not on:
        return
    hindmost = LANDMARKS[min(on, key=lambda name: body.centre(LANDMARKS[name])[0])]
    behind = BEHIND_HEEL if any(name.endswith("heel") for name in on) else BEHIND_FOREFOOT
    at = body.centre(hindmost)
    edge, height = at[0] - behind, scene.surfaces["step"].offset
    for side in SIDES:
        if any(name.startswith(side) for name in on):
            continue
        # Of a foot that is beside the other, all goes ahead; of one that is behind it, back.
        ahead = body.centre(LANDMARKS[f"{side} ankle"])[0] > at[0]
        stands = any(name.startswith(side) and name.partition(" ")[2] in FOOT for name in holds)
        for mark in (*FOOT, "instep", "ankle"):
            ball = LANDMARKS[f"{side} {mark}"]
            x, y, z = body.centre(ball)
            level = ball.radius + (edge + DEPTHS["step"] - x if ahead else x - edge)
            through = ball.radius + (x - edge if ahead else edge + DEPTHS["step"] - x)
            up = height - (z - ball.radius)
            if min(level, through, up) > more_than and abs(y - at[1]) < HALF_STEP:
                out: Demand = _beyond_edge(ball, hindmost, behind, ahead)
                if not stands and up <= level:
                    out = not_through(ball, UPWARD, height, _WEIGHT)
                yield f"{side} {mark}, step", out


def _beyond_edge(ball: Sphere, hindmost: Sphere, behind: float, ahead: bool) -> Level:
    """A ball is ahead of the step, or behind it."""
    sign = 1.0 if ahead else -1.0
    far = DEPTHS["step"] - behind if ahead else behind
    terms = (place(ball, FORWARD, sign), place(hindmost, FORWARD, -sign))
    return Level(terms, far + ball.radius, _WEIGHT, hard=False, at_least=True)


# A seat is this thick, in cm.
_THICK = 8.0
