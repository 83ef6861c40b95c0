"""Other places to start from where the first leads nowhere: least squares finds the hollow it starts in."""

from __future__ import annotations

from collections.abc import Iterator
from math import degrees, radians

from protodsl.figure.body.parts import limb_of
from protodsl.figure.body.skeleton import ANGLE_NUMBER, SIDES
from protodsl.figure.body.wordings import PROPPED_UP
from protodsl.figure.solve.asking import Asked, range_of, set_angle
from protodsl.figure.solve.contacts import WRITTEN
from protodsl.figure.solve.motion import PELVIS, PITCH

State = tuple[float, ...]

# A crouch to start from, and how much lower the hips are in it, in cm.
_BENT: dict[str, float] = {"hip flexion": 20, "knee flexion": 40, "ankle dorsiflexion": 20}
_LOWER = 5.0
# A straight leg that leans over its foot lowers the hips: by how many degrees, and how far the hips go, in cm.
_LEANING, _AHEAD, _DOWN = 35.0, 48.0, 15.0
# An angle this many degrees past its range has gone to the wrong side of its joint.
_WRONG_SIDE = 10.0


def other_starts(asked: Asked, reached: State) -> Iterator[State]:
    """Other states to start from, the likeliest first; `reached` is where the first start has led."""
    propped = [name for name, hold in asked.holding.holds.items() if name.endswith(" palm") and hold.surface == "floor"]
    if asked.position.name == "lying face down" and propped:
        yield _propped_up(asked, propped)
    elif (crouching := _with_knees_bent(asked)) is not None:
        yield crouching
    if (unfolded := _on_the_right_side(asked, reached)) is not None:
        yield unfolded
    yield from _leaning_over_a_foot(asked)


def _propped_up(asked: Asked, palms: list[str]) -> State:
    """The start propped up on the hands instead of lying between them."""
    state = list(asked.start)
    state[2], state[PITCH] = 30.0, radians(-12.0)
    for name in palms:
        side, _, mark = name.partition(" ")
        _put(state, asked, {f"{side} {angle}": value for angle, value in PROPPED_UP[mark].items()})
    return tuple(state)


def _with_knees_bent(asked: Asked) -> State | None:
    """The start in a crouch on the legs that stand where they stood and are straight, where their knees are free: a
    straight leg does not find out that bending would make it shorter.
    """
    straight = [
        side
        for side in _standing_straight(asked, _BENT["knee flexion"] / 2)
        if f"{side} knee flexion" not in asked.fixed
    ]
    if not straight:
        return None
    state = list(asked.start)
    state[2] -= _LOWER
    for side in straight:
        _put(state, asked, {f"{side} {angle}": value for angle, value in _BENT.items()})
    return tuple(state)


def _on_the_right_side(asked: Asked, reached: State) -> State | None:
    """The start with every joint that was bent backwards bent as much the way it goes."""
    state = list(asked.start)
    found = False
    for wish in asked.wishes:
        if wish.number < PELVIS:
            continue
        name = _NAMES[wish.number]
        low, high = range_of(name, asked.holding)
        value = degrees(reached[wish.number])
        if low - _WRONG_SIDE <= value <= high + _WRONG_SIDE:
            continue
        within = 2 * low - value if value < low else 2 * high - value
        set_angle(state, name, min(high, max(low, within)))
        found = True
    return tuple(state) if found else None


def _leaning_over_a_foot(asked: Asked) -> Iterator[State]:
    """Long steps from a straight leg that cannot bend, forward and back, so that the other foot comes down."""
    straight = [
        side for side in _standing_straight(asked, _BENT["knee flexion"] / 2) if f"{side} knee flexion" in asked.fixed
    ]
    if len(straight) != 1:
        return
    (side,) = straight
    for way in (1.0, -1.0):
        state = list(asked.start)
        state[0] += way * _AHEAD
        state[2] -= _DOWN
        for one, lean in ((side, way * _LEANING), ("left" if side == "right" else "right", -way * _LEANING)):
            _put(state, asked, {f"{one} ankle dorsiflexion": lean, f"{one} hip flexion": -lean})
        yield tuple(state)


def _standing_straight(asked: Asked, less_than: float) -> list[str]:
    """The sides of legs that stand where they stood, with a knee bent by less than some degrees."""
    stands = {limb_of(name) for name, hold in asked.holding.holds.items() if hold.because != WRITTEN}
    return [
        side
        for side in SIDES
        if (side, "leg") in stands and asked.start[PELVIS + ANGLE_NUMBER[f"{side} knee flexion"]] < radians(less_than)
    ]


def _put(state: list[float], asked: Asked, angles: dict[str, float]) -> None:
    for name, value in angles.items():
        if name not in asked.fixed:
            set_angle(state, name, value)


_NAMES: dict[int, str] = {PELVIS + number: name for name, number in ANGLE_NUMBER.items()}
