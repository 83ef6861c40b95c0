"""From joint angles and the place of the pelvis to the frames of all segments."""

from __future__ import annotations

from collections.abc import Mapping
from math import radians

from protodsl.figure.body.shoulder import joint_of_the_shoulder
from protodsl.figure.body.skeleton import ANGLE_NUMBER, ANGLES, BONES, Bone
from protodsl.figure.body.vectors import UNTURNED, add, after, turn, turned
from protodsl.figure.posture import Frame, Matrix, Vector


def frames_of(angles: Mapping[str, float], at: Vector, axes: Matrix = UNTURNED) -> dict[str, Frame]:
    """The frame of each segment: `angles` in degrees by their names in skeleton.ANGLES (zero where none is given),
    the pelvis `at` (cm) and turned by `axes`. KeyError for a name that is none.
    """
    turns = [0.0] * len(ANGLES)
    for name, degrees in angles.items():
        turns[ANGLE_NUMBER[name]] = radians(degrees)
    frames: list[Frame] = []
    for bone in BONES:
        frames.append(Frame(at, axes) if bone.parent < 0 else _frame(bone, frames[bone.parent], turns))
    return {bone.segment: frame for bone, frame in zip(BONES, frames, strict=True)}


def point_of(frame: Frame, own: Vector) -> Vector:
    """A point given in a segment's own axes, in the world (cm)."""
    return add(frame.origin, turned(frame.axes, own))


def _frame(bone: Bone, parent: Frame, turns: list[float]) -> Frame:
    axes = parent.axes
    for one in bone.turns:
        axes = after(axes, turn(one.axis, one.share * turns[one.angle]))
    joint = bone.joint
    if bone.segment.endswith("upper arm"):
        flexion, abduction = (turns[one.angle] for one in bone.turns[:2])
        joint = joint_of_the_shoulder(1.0 if joint[1] > 0 else -1.0, flexion, abduction)
    return Frame(point_of(parent, joint), axes)
