"""The angles of a solved figure in the words of `moves` and `limit`."""

from __future__ import annotations

from collections.abc import Iterator
from functools import cache

from protodsl.figure.posture import SolvedFigure, SolvedPose
from protodsl.model.figure import Angle, Figure
from protodsl.model.figure_sides import SIDES
from protodsl.model.shown import Shown

# A joint of the spine, as a figure has it and as a protocol names it.
_SPINE = {"lower back": "lumbar", "upper back": "thoracic", "neck": "cervical"}
_PARTS = {"trunk": ("lower back", "upper back")}
# Below zero a movement is its opposite.
_OPPOSITES = {
    "flexion": "extension", "extension": "flexion", "dorsiflexion": "plantarflexion", "inversion": "eversion",
    "abduction": "adduction", "external rotation": "internal rotation", "pronation": "supination",
    "radial deviation": "ulnar deviation",
}  # fmt: skip
# To the right and to the left a spine bends and turns by one and the same movement.
_TO_BOTH = ("side bending", "rotation")


def shown(solved: SolvedFigure) -> tuple[Shown, ...]:
    """Every joint in every pose, in the order of the poses."""
    written = _written(solved.figure)
    return tuple(one for pose in solved.poses for one in _of_pose(pose, written))


def _of_pose(pose: SolvedPose, written: frozenset[tuple[str, str]]) -> Iterator[Shown]:
    for name, degrees in pose.angles.items():
        side, joint, movement = _parted(name)
        said = (side, joint) in written
        if degrees < 0:
            movement = _OPPOSITES.get(movement, movement)
        yield Shown(_SPINE.get(joint, joint), movement, side, abs(degrees), said, pose.pose.role, span=pose.pose.span)


@cache
def _parted(name: str) -> tuple[str, str, str]:
    """`right hip external rotation` as side, joint and movement."""
    first, _, rest = name.partition(" ")
    side = first if first in SIDES else ""
    words = rest if side else name
    joint = next((one for one in _SPINE if words.startswith(f"{one} ")), words.partition(" ")[0])
    movement = words[len(joint) + 1 :]
    return side, joint, next((one for one in _TO_BOTH if movement.startswith(one)), movement)


def _written(figure: Figure) -> frozenset[tuple[str, str]]:
    """The joints that some pose fixes, by side."""
    found: set[tuple[str, str]] = set()
    for pose in figure.poses:
        for one in pose.statements:
            if isinstance(one, Angle):
                for joint in _PARTS.get(one.joint, (one.joint,)):
                    sides = ("",) if joint in _SPINE else (one.side,) if one.side else SIDES
                    found |= {(side, joint) for side in sides}
    return frozenset(found)
