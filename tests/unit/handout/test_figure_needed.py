"""What a figure in words leaves out: what its position brings and what is unchanged; never a contact or a side.

What a blind reader needs of a picture is common practice, no source; that a text alternative serves the picture's
purpose and is no list of all it shows: WCAG 2.2, success criterion 1.1.1, and its technique G94.
"""

from __future__ import annotations

from decimal import Decimal

import pytest

from protodsl.figure.body.positions import position_of
from protodsl.handout.figure_needed import RESTS, needed, things
from protodsl.model.figure import (
    Angle,
    Arrow,
    Contact,
    Distance,
    Figure,
    Lean,
    Lift,
    Part,
    Pose,
    Posture,
    Prop,
    Slide,
    Statement,
    Touch,
)
from protodsl.model.lists import POSITIONS

_FOOT, _HAND = Part("foot", "left"), Part("hand", "right")


def _angle(joint: str, movement: str, degrees: int, side: str = "") -> Angle:
    return Angle(joint, movement, Decimal(degrees), side)


def _said(*poses: tuple[Statement, ...], position: str = "standing", arrows: tuple[Arrow, ...] = ()) -> list[Statement]:
    """What is said of the last pose."""
    roles = ("start", "then", "end")
    made = tuple(Pose(roles[at], None if at else position, "", statements) for at, statements in enumerate(poses))
    return list(needed(Figure((), poses=made, arrows=arrows))[-1])


@pytest.mark.parametrize("position", POSITIONS)
def test_a_position_brings_its_own_angles(position: str) -> None:
    """What is left out as the position's own posture is that of the body that is drawn, to within 10 degrees."""
    body = position_of(position).angles
    for joint, movement in (("hip", "flexion"), ("knee", "flexion"), ("ankle", "dorsiflexion")):
        rest = RESTS.get(position, {}).get(joint, 0)
        sides = ("left",) if position == "half-kneeling" else ("right", "left")
        for side in sides:
            assert abs(body.get(f"{side} {joint} {movement}", 0.0) - rest) < 10, (joint, side)


def test_contacts_holds_and_slides_are_never_left_out() -> None:
    """Not even where the pose before says the same."""
    whole = (Contact(_HAND, "table"), Touch(_HAND, _FOOT), Lift(_FOOT), Slide(_HAND))
    assert _said(whole, whole) == list(whole)


def test_what_only_keeps_the_balance_is_left_out() -> None:
    """A few degrees sideways at the hip, and what hip and ankle do under a bent knee."""
    assert _said((_angle("hip", "adduction", 8, "right"), _angle("ankle", "dorsiflexion", 17))) == []
    squat = (_angle("knee", "flexion", 60), _angle("hip", "flexion", 15))
    assert _said(squat) == [squat[0]]
    back = _angle("hip", "extension", 15, "right")
    assert _said((), (back,)) == [back]


def test_what_changes_is_said() -> None:
    """A joint that comes back to where it was at first: the pose before said otherwise."""
    bent, straight = _angle("elbow", "flexion", 75), _angle("elbow", "flexion", 5)
    assert _said((straight,)) == []
    assert _said((bent,), (straight,)) == [straight]
    assert _said((bent,), (_angle("elbow", "flexion", 80),)) == []
    assert _said((bent,), (_angle("elbow", "flexion", 90, "left"),)) == [_angle("elbow", "flexion", 90, "left")]


def test_a_straight_hip_after_the_start_is_said() -> None:
    """Contacts bent it before without a word: the bridge."""
    straight = _angle("hip", "flexion", 0)
    flat = (_angle("knee", "flexion", 100), Contact(Part("foot"), "floor"))
    assert _said(flat, (straight, Lift(Part("pelvis"))), position="lying on back")[0] == straight
    assert _said((straight,), position="lying on back") == []


def test_an_upright_trunk_is_said_after_a_lean() -> None:
    """Only then; so are eyes ahead."""
    upright, lean = Posture("trunk upright"), Lean("forward", Decimal(35))
    assert _said((upright,)) == [] == _said((Posture("look ahead"),))
    assert _said((lean,), (upright,)) == [upright]
    assert _said((Posture("look ahead"),), position="lying face down") != []


def test_a_straight_body_is_said_once_and_not_of_bent_knees() -> None:
    """Whoever bends the knees makes no one line."""
    straight = Posture("body straight")
    assert _said((straight,)) == [straight]
    assert _said((straight,), (straight,)) == []
    assert _said((straight, _angle("knee", "flexion", 25)))[0] != straight


def test_arms_that_swing_are_left_out_and_arms_that_work_are_not() -> None:
    """A little at the shoulder, where no arrow and no larger angle is of an arm."""
    swing = _angle("shoulder", "extension", 20, "right")
    assert _said((swing,)) == []
    assert _said((_angle("shoulder", "flexion", 65, "right"),), (swing,)) == [swing]
    assert _said((), (swing,), arrows=(Arrow(_HAND, "back"),)) == [swing]


def test_distances_are_said_once() -> None:
    """Where the feet stand, until they stand elsewhere."""
    far, near = (Distance(Part("foot"), Decimal(cm), "from", "wall") for cm in (45, 30))
    assert _said((far,)) == [far] and _said((far,), (far,)) == [] and _said((far,), (near,)) == [near]


def test_things_that_a_position_brings_are_not_named() -> None:
    """A mat, and the chair that is sat on; not the chair that is held on to, nor one of another height."""
    sitting = (Pose("start", "sitting", "", ()),)
    chair, low, beside = (Prop("chair", where, Decimal(cm)) for where, cm in (("", 45), ("", 35), ("in front", 45)))
    assert things(Figure((), props=(Prop("mat"), chair), poses=sitting)) == ()
    assert things(Figure((), props=(low,), poses=sitting)) == (low,)
    assert things(Figure((), props=(beside,), poses=sitting)) == (beside,)
    assert things(Figure((), props=(chair,), poses=(Pose("start", "standing", "", ()),))) == (chair,)
