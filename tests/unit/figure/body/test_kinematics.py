"""Forward kinematics against positions worked out by hand from the lengths, standing with the hips at 90.1 cm.

Neutral-zero method: each movement turns the part the way its name says.
"""

from math import cos, radians, sin

import pytest

from protodsl.figure.body import lengths as cm
from protodsl.figure.body.kinematics import frames_of, point_of
from protodsl.figure.body.positions import ON_BACK, position_of
from protodsl.figure.body.skeleton import ANGLES
from protodsl.figure.posture import SEGMENTS, Vector
from protodsl.model.lists import POSITIONS

HIP = (0.0, 0.0, cm.HIP_HEIGHT)


def origin(segment: str, **angles: float) -> Vector:
    """Where a segment's joint is with these angles of the right side, by names with _ for blanks."""
    named = {(f"right {name}" if not name.startswith(("lower", "upper", "neck")) else name): value for name, value in (
        (key.replace("_", " "), value) for key, value in angles.items())}  # fmt: skip
    return frames_of(named, HIP)[segment].origin


def test_every_segment_has_a_frame_and_there_are_37_angles() -> None:
    assert tuple(frames_of({}, HIP)) == SEGMENTS
    assert len(SEGMENTS) == 20
    assert len(ANGLES) == len(set(ANGLES)) == 37


def test_a_flexed_hip_points_the_thigh_forward() -> None:
    """Hip 90: the knee is 0.245 x 170 = 41.65 cm in front of the hip joint, level with it."""
    assert origin("right shank", hip_flexion=90) == pytest.approx((41.65, -8.5, 90.1))


def test_sitting_the_ankle_is_below_the_knee() -> None:
    """Hip 90, knee 90: the ankle is 0.246 x 170 = 41.82 cm below the knee."""
    assert origin("right foot", hip_flexion=90, knee_flexion=90) == pytest.approx((41.65, -8.5, 90.1 - 41.82))


def test_a_leg_half_out_to_the_side() -> None:
    """Hip abduction 30: knee 41.65 sin 30 further out, 41.65 cos 30 below the hip."""
    out = -8.5 - 41.65 * sin(radians(30))
    assert origin("right shank", hip_abduction=30) == pytest.approx((0.0, out, 90.1 - 41.65 * cos(radians(30))))


def test_abduction_of_a_flexed_hip_goes_out_to_the_side() -> None:
    """Hip 90 flexed and 90 abducted: the knee is straight out to the right."""
    assert origin("right shank", hip_flexion=90, hip_abduction=90) == pytest.approx((0.0, -8.5 - 41.65, 90.1))


def test_external_rotation_turns_the_toes_out() -> None:
    x, y, _ = origin("right toes", hip_external_rotation=90)
    assert (x, y) == pytest.approx((0.0, -8.5 - cm.ANKLE_TO_BALL))


def test_knee_flexion_takes_the_foot_back_and_dorsiflexion_the_toes_up() -> None:
    assert origin("right foot", knee_flexion=90) == pytest.approx((-41.82, -8.5, 90.1 - 41.65))
    raised = origin("right toes", ankle_dorsiflexion=20)[2] - origin("right toes")[2]
    assert raised == pytest.approx(cm.ANKLE_TO_BALL * sin(radians(20)) + 3.995 * (1 - cos(radians(20))), abs=1e-3)


def test_inversion_turns_the_sole_inwards() -> None:
    """The sole of the right foot, at its own -z, points to the left, at world +y."""
    frame = frames_of({"right ankle inversion": 30}, HIP)["right foot"]
    sole = [a - b for a, b in zip(point_of(frame, (0.0, 0.0, -1.0)), frame.origin, strict=True)]
    assert sole == pytest.approx([0.0, sin(radians(30)), -cos(radians(30))])


def test_elbow_and_forearm() -> None:
    """Elbow 90: the wrist is 0.146 x 170 = 24.82 cm in front of the elbow; pronated, the palm looks down.

    The shoulder is 0.012 x 170 = 2.04 cm behind the hip, as the spine is set into the pelvis.
    """
    assert origin("right hand", elbow_flexion=90) == pytest.approx((24.82 - 2.04, -17.85, 139.06 - 31.62))
    frame = frames_of({"right elbow flexion": 90, "right forearm pronation": 90}, HIP)["right hand"]
    palm = [a - b for a, b in zip(point_of(frame, (0.0, 1.0, 0.0)), frame.origin, strict=True)]
    assert palm == pytest.approx([0.0, 0.0, -1.0])


def test_wrist_extension_takes_the_back_of_the_hand_towards_the_forearm() -> None:
    """Elbow 90, palm down, wrist 70: the fingers point up and forward."""
    angles = {"right elbow flexion": 90.0, "right forearm pronation": 90.0, "right wrist extension": 70.0}
    frame = frames_of(angles, HIP)["right hand"]
    fingers = [a - b for a, b in zip(point_of(frame, (0.0, 0.0, -1.0)), frame.origin, strict=True)]
    assert fingers == pytest.approx([cos(radians(70)), 0.0, sin(radians(70))])


def test_the_trunk_bends_forward_to_the_right_and_turns_right() -> None:
    forward = frames_of({"lower back flexion": 40, "upper back flexion": 20}, HIP)["head"].origin
    assert forward[0] > 30 and forward[1] == pytest.approx(0.0)
    assert frames_of({"upper back side bending right": 20}, HIP)["head"].origin[1] < -5
    shoulder = frames_of({"upper back rotation right": 30}, HIP)["right upper arm"].origin
    assert shoulder[0] < -5


def test_angles_of_lower_and_upper_back_add_up_at_the_upper_thorax() -> None:
    axes = frames_of({"lower back flexion": 40, "upper back flexion": 20}, HIP)["upper thorax"].axes
    assert axes[2] == pytest.approx(sin(radians(60)))


def test_a_lifted_arm_lifts_its_shoulder() -> None:
    """The collarbone goes with the arm after about 30 degrees (Inman, Saunders and Abbott 1944): none before, most
    at the top.

    Overhead it is 20 degrees, from memory: 15.47 cm x sin 20 = 5.3 cm.
    """
    low, half, top = (origin("right upper arm", shoulder_flexion=flexed)[2] for flexed in (20, 90, 180))
    assert low == pytest.approx(139.06)
    assert 140.5 < half < 143
    assert top == pytest.approx(139.06 + 15.47 * sin(radians(20)), abs=0.01)


def test_lying_on_the_back_the_face_is_up_and_the_head_at_minus_x() -> None:
    frames = frames_of({}, (0.0, 0.0, 10.0), ON_BACK)
    assert frames["head"].origin[0] < -60
    assert point_of(frames["head"], (5.0, 0.0, 0.0))[2] > frames["head"].origin[2]


@pytest.mark.parametrize("name", POSITIONS)
def test_every_position_has_angles_that_the_body_has(name: str) -> None:
    position = position_of(name)
    assert set(position.angles) <= set(ANGLES)
    assert position.rests
    frames_of(position.angles, (0.0, 0.0, position.height), position.axes)


def test_an_angle_that_the_body_has_not_is_an_error() -> None:
    with pytest.raises(KeyError):
        frames_of({"right knee abduction": 10}, HIP)
