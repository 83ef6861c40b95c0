"""The same loads from another engine: MuJoCo (Todorov, Erez and Tassa 2012), where it is installed.

It gets the bones, the joints in their order, the masses and the forces at the supports, and gives back what is needed
at each hinge, and at the pelvis: nothing there, if the body is in balance.
"""

from __future__ import annotations

from dataclasses import replace
from math import radians, sqrt
from typing import Any

import pytest

from protodsl.figure.body.kinematics import frames_of
from protodsl.figure.body.masses import MASSES
from protodsl.figure.body.shoulder import joint_of_the_shoulder
from protodsl.figure.body.skeleton import ANGLES, BONES
from protodsl.figure.load.balance import Balance
from protodsl.figure.load.held import BODY_MASS, GRAVITY, Held
from protodsl.figure.load.joints import OF_A_SIDE, OF_THE_SPINE
from protodsl.figure.load.moments import loads_at
from protodsl.figure.posture import Matrix, Vector
from tests.unit.figure.load.movements import FIGURES, moving

mujoco = pytest.importorskip("mujoco")
numpy = pytest.importorskip("numpy")


@pytest.mark.parametrize("name", FIGURES)
def test_mujoco_needs_the_same_moments(name: str) -> None:
    """To a thousandth of a newton metre at every joint, and no more than that left over at the pelvis."""
    for held in (moving(name).held[1], moving(name).held[-1]):
        exact = _rebuilt(held)
        balance = Balance(exact)
        assert balance.possible
        forces = balance.forces()
        needed, left_over = _needed(exact, forces)
        assert max(abs(one) for one in left_over) < 1e-3
        for joint, segment in [*OF_A_SIDE.items(), *OF_THE_SPINE.items()]:
            for side in ("right", "left"):
                of = segment if joint in OF_THE_SPINE else f"{side} {segment}"
                for load in loads_at(joint, side, exact, balance)[::2]:
                    theirs = needed[_hinge(of, load.movement, joint)]
                    assert load.estimate == pytest.approx(theirs, abs=1e-3), (joint, side, load)


def _hinge(segment: str, movement: str, joint: str) -> str:
    """The name of the hinge of a segment that an upward movement of its joint turns."""
    bone = next(bone for bone in BONES if bone.segment == segment)
    names = [ANGLES[one.angle] for one in bone.turns]
    words = {"lumbar": "lower back", "thoracic": "upper back", "cervical": "neck"}.get(joint, joint)
    return next(f"{segment}: {name}" for name in names if f"{words} {movement}" in name)


def _rebuilt(held: Held) -> Held:
    """The body again from its angles alone, so that both engines have exactly the same."""
    pelvis = held.frames["pelvis"]
    axes = _orthonormal(pelvis.axes)
    return replace(held, frames=frames_of(held.angles, pelvis.origin, axes), even=False)


def _orthonormal(m: Matrix) -> Matrix:
    left, _, right = numpy.linalg.svd(numpy.array(m).reshape(3, 3))
    return tuple(float(value) for value in (left @ right).ravel())  # type: ignore[return-value]


def _needed(held: Held, forces: tuple[Vector, ...]) -> tuple[dict[str, float], list[float]]:
    model = mujoco.MjModel.from_xml_string(_xml(held))
    data = mujoco.MjData(model)
    pelvis = held.frames["pelvis"]
    data.qpos[:3] = [0.01 * value for value in pelvis.origin]
    quaternion = numpy.zeros(4)
    mujoco.mju_mat2Quat(quaternion, numpy.array(pelvis.axes))
    data.qpos[3:7] = quaternion
    for bone in BONES:
        for one in bone.turns:
            at = model.joint(_name(bone.segment, one.angle)).qposadr[0]
            data.qpos[at] = abs(one.share) * radians(held.angles[ANGLES[one.angle]])
    mujoco.mj_forward(model, data)
    for bone in BONES:
        assert data.body(bone.segment).xpos == pytest.approx(
            [0.01 * v for v in held.frames[bone.segment].origin], abs=1e-9
        )
    outside = numpy.zeros(model.nv)
    for support, force in zip(held.supports, forces, strict=True):
        at = numpy.array([0.01 * value for value in support.at])
        mujoco.mj_applyFT(model, data, numpy.array(force), numpy.zeros(3), at, model.body(support.segment).id, outside)
    left = data.qfrc_bias - outside
    found = {
        _name(bone.segment, one.angle): float(left[model.joint(_name(bone.segment, one.angle)).dofadr[0]])
        for bone in BONES
        for one in bone.turns
    }
    return found, [float(one) for one in left[:6]]


def _name(segment: str, angle: int) -> str:
    return f"{segment}: {ANGLES[angle]}"


def _xml(held: Held) -> str:
    """The body in MuJoCo's own notation, without contacts of its own."""
    return (
        f'<mujoco><compiler angle="radian" autolimits="false" inertiafromgeom="false"/>'
        f'<option gravity="0 0 {-GRAVITY}"><flag contact="disable"/></option>'
        f"<worldbody>{_body(0, held)}</worldbody></mujoco>"
    )


def _body(number: int, held: Held) -> str:
    bone = BONES[number]
    place: Vector = bone.joint
    if bone.segment.endswith("upper arm"):
        flexion, abduction = (radians(held.angles[ANGLES[one.angle]]) for one in bone.turns[:2])
        place = joint_of_the_shoulder(1.0 if bone.joint[1] > 0 else -1.0, flexion, abduction)
    joints = "<freejoint/>" if number == 0 else "".join(_joint(bone.segment, one) for one in bone.turns)
    inner = "".join(_body(at, held) for at, other in enumerate(BONES) if other.parent == number)
    return f'<body name="{bone.segment}" pos="{_metres(place)}">{joints}{_inertia(bone.segment, held)}{inner}</body>'


def _joint(segment: str, one: Any) -> str:
    axis = [0.0, 0.0, 0.0]
    axis[one.axis] = 1.0 if one.share > 0 else -1.0
    return f'<joint name="{_name(segment, one.angle)}" axis="{axis[0]} {axis[1]} {axis[2]}" armature="1"/>'


def _inertia(segment: str, held: Held) -> str:
    """The mass of a segment with what was added to it; next to none where it lies, or has none."""
    parts = [(mass.at, mass.share * BODY_MASS) for mass in MASSES if mass.segment == segment]
    parts += [(weight.own, weight.kilograms) for weight in held.weights if weight.segment == segment]
    parts = [] if segment in held.resting else parts
    whole = sum(kilograms for _, kilograms in parts)
    middle = [sum(kilograms * at[axis] for at, kilograms in parts) / whole if whole else 0.0 for axis in range(3)]
    size = sqrt(0.001)
    return (
        f'<inertial pos="{_metres((middle[0], middle[1], middle[2]))}" mass="{whole or 1e-9}" '
        f'diaginertia="{size} {size} {size}"/>'
    )


def _metres(place: Vector) -> str:
    return " ".join(repr(0.01 * value) for value in place)
