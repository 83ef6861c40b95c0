"""What is only wished for in a pose: where arms and eyes point, that hands are under shoulders, balance."""

from __future__ import annotations

from collections.abc import Iterator

from protodsl.figure.body.landmarks import LANDMARKS
from protodsl.figure.body.parts import FOOT, limb_of, measured, sides_of
from protodsl.figure.body.positions import Position
from protodsl.figure.body.skeleton import SIDES
from protodsl.figure.body.vectors import FORWARD, LEFTWARD, column
from protodsl.figure.solve.contacts import Holding
from protodsl.figure.solve.demands import (
    Balance,
    Demand,
    Level,
    axis_of,
    place,
    spread,
)
from protodsl.figure.solve.scene import Scene
from protodsl.figure.solve.statements import pairs
from protodsl.figure.solve.weights import CAN_FALL, HEADWARDS, UPRIGHT, WISH
from protodsl.model.figure import Angle, Lean, Pose, Posture, Under


def wishes_for(pose: Pose, position: Position, holding: Holding, scene: Scene, fresh: bool) -> Iterator[Demand]:
    """What a pose wishes for beyond what must be; `fresh` where no pose is before it."""
    ahead = FORWARD if position.name in HEADWARDS else column(position.axes, 0)
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
    if position.name in CAN_FALL and any(isinstance(one, Lean) for one in pose.statements):
        yield from _hanging(pose, holding)
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
            for hand, above in pairs(one.part, one.other):
                yield Level((place(hand, FORWARD), place(above, FORWARD, -1.0)), 0.0, 0.2, hard=False)
    feet, weight = _carrying(position, holding, scene)
    if feet:
        forefeet = all(name.partition(" ")[2] in FOOT[1:] for name in feet)
        yield Balance(feet, 0.3 if forefeet else 0.48, weight, keeps_inside=position.name != "standing")


def _hanging(pose: Pose, holding: Holding) -> Iterator[Demand]:
    """Arms of which nothing is said hang down from a trunk that leans."""
    shoulders = [one for one in pose.statements if isinstance(one, Angle) and one.joint == "shoulder"]
    written = {side for one in shoulders for side in sides_of(one.side)}
    for side in SIDES:
        words = holding.arms.get(side, "arms by sides")
        if side in written or words != "arms by sides" or any(limb_of(name) == (side, "arm") for name in holding.holds):
            continue
        if not any(side in sides_of(touch.part.side) for touch, _ in holding.touches):
            yield Level((axis_of(f"{side} upper arm", 2, FORWARD),), 0.0, WISH, hard=False)


def held_between(position: Position, scene: Scene) -> Iterator[Demand]:
    """Two parts are as far apart as what they hold between them is broad."""
    for one, other, breadth in scene.between:
        first, second = (LANDMARKS[measured(part.name, part.side)] for part in (one, other))
        sign = 1.0 if one.side == "left" else -1.0
        sideways = column(position.axes, 1)
        terms = (place(first, sideways, sign), place(second, sideways, -sign))
        yield Level(terms, breadth + first.radius + second.radius, 2.0, hard=False)


def _carrying(position: Position, holding: Holding, scene: Scene) -> tuple[tuple[str, ...], float]:
    """The landmarks that carry somebody upright, and how much that counts: less where a hand helps, not at all where
    a wall or a chair does.
    """
    if position.name not in CAN_FALL:
        return (), 0.0
    firm = {name: hold for name, hold in holding.holds.items() if hold.firm}
    carrying = tuple(name for name, hold in firm.items() if limb_of(name)[1] == "leg" and hold.surface != "wall")
    others = [name for name in firm if name not in carrying]
    leans = "wall" in scene.surfaces and abs(scene.surfaces["wall"].normal[0]) > 0.5
    if any(limb_of(name)[1] != "arm" or (leans and firm[name].surface == "wall") for name in others):
        return (), 0.0
    return carrying, 0.8 * WISH if others else WISH
