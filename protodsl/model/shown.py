"""What a drawn figure shows of a joint, for whoever holds it against what is allowed or said."""

from __future__ import annotations

from protodsl.frozen import frozen
from protodsl.model.condition import Placed


@frozen
class Shown(Placed):
    """A joint in one pose of a figure: degrees from the neutral-zero position, towards `movement`, never negative.

    Joints and movements are named as in `lists.MOVEMENTS`; `side` is right, left or "" (the spine). `written` says that
    the figure fixes the joint somewhere, else it follows from the rest. `pose` is start, then or end, and its place is
    the pose's.
    """

    joint: str
    movement: str
    side: str
    degrees: float
    written: bool
    pose: str
