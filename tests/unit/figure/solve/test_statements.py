"""Each kind of statement holds in the solved pose, to 0.5 cm or 0.5 degrees; looked at in the frames that come out."""

from math import atan2, degrees, hypot

import pytest

from protodsl.diagnostics.diagnostic import Severity
from protodsl.figure.body.kinematics import point_of
from protodsl.figure.body.landmarks import LANDMARKS
from protodsl.figure.body.vectors import length, minus
from protodsl.figure.posture import SolvedPose, Vector
from protodsl.figure.solve.solve import solve
from tests.unit.figure.solve.reading import figure

CLOSE = 0.5


def poses(text: str) -> tuple[SolvedPose, ...]:
    """The solved poses of a figure in which nothing is wrong."""
    found = solve(figure(text))
    errors = [one.message for one in found.diagnostics if one.severity is Severity.ERROR]
    assert found.value is not None and not errors, errors
    return found.value.poses


def at(pose: SolvedPose, landmark: str) -> Vector:
    """The middle of a landmark."""
    ball = LANDMARKS[landmark]
    return point_of(pose.frames[ball.segment], ball.centre)


def lowest(pose: SolvedPose, landmark: str) -> float:
    """How high the flesh of a landmark is above the floor."""
    return at(pose, landmark)[2] - LANDMARKS[landmark].radius


def test_an_angle_is_exact() -> None:
    start, end = poses("start sitting, knees 95\nend lift right foot, right knee 40, neck side bending 15 to left")
    assert start.angles["right knee flexion"] == start.angles["left knee flexion"] == 95
    assert end.angles["right knee flexion"] == 40
    assert end.angles["neck side bending right"] == -15


def test_an_angle_of_the_trunk_is_shared_by_lower_and_upper_back() -> None:
    (pose,) = poses("start on all fours, trunk 40")
    assert pose.angles["lower back flexion"] + pose.angles["upper back flexion"] == pytest.approx(40)
    assert pose.angles["lower back flexion"] > pose.angles["upper back flexion"] > 5


def test_feet_stand_flat_on_the_floor() -> None:
    (pose,) = poses("start standing, feet 50 cm apart")
    for side in ("right", "left"):
        for mark in ("heel", "ball of big toe", "ball of little toe", "toes"):
            assert lowest(pose, f"{side} {mark}") == pytest.approx(0, abs=0.1)
            assert (f"{side} {mark}", "floor") in pose.contacts


def test_a_seat_is_at_the_height_of_the_chair_and_feet_on_a_step_at_that_of_the_step() -> None:
    (seated,) = poses("chair 48 cm\nstart sitting")
    assert lowest(seated, "right seat") == pytest.approx(48, abs=0.1)
    (stood,) = poses("step 20 cm\nstart standing, right foot on step, right foot 30 cm in front of left foot")
    assert lowest(stood, "right heel") == pytest.approx(20, abs=0.1)
    assert at(stood, "right ankle")[0] - at(stood, "left ankle")[0] == pytest.approx(30, abs=CLOSE)


def test_a_foot_goes_to_a_side_of_where_it_was_and_the_body_with_it() -> None:
    """A side step, and a hop on one leg with a pose in the air between."""
    start, end = poses("start standing\nend right foot 30 cm to right")
    assert at(end, "right ankle")[1] - at(start, "right ankle")[1] == pytest.approx(-30, abs=CLOSE)
    assert at(end, "left ankle")[1] == pytest.approx(at(start, "left ankle")[1], abs=CLOSE)
    start, air, end = poses(
        "view front\nstart standing, lift left foot, left knee 60, right knee 30\n"
        "then lift right foot, toes 8 cm from floor, right foot 20 cm to left\n"
        "end right foot flat on floor, right foot 20 cm to left, right knee 40"
    )
    for before, after in ((start, air), (air, end)):
        assert at(after, "right ankle")[1] - at(before, "right ankle")[1] == pytest.approx(20, abs=CLOSE)
    assert at(end, "chin")[1] - at(start, "chin")[1] > 25
    assert lowest(end, "right heel") == pytest.approx(0, abs=0.1)


def test_heels_are_free_over_the_edge_of_a_step() -> None:
    (pose,) = poses("step 15 cm\nstart standing, forefeet on step edge, knees 0, ankles -10")
    assert lowest(pose, "right ball of big toe") == pytest.approx(15, abs=0.1)
    assert ("right heel", "step") not in pose.contacts


def test_hands_lie_flat_on_a_wall_at_the_height_of_the_shoulders() -> None:
    (pose,) = poses("wall in front\nstart standing, hands on wall, hands at shoulder height, elbows 20")
    for side in ("right", "left"):
        assert at(pose, f"{side} palm")[0] + LANDMARKS[f"{side} palm"].radius == pytest.approx(0, abs=0.1)
        assert at(pose, f"{side} palm")[2] == pytest.approx(at(pose, f"{side} shoulder")[2], abs=CLOSE)


def test_feet_stand_a_distance_from_the_wall() -> None:
    (pose,) = poses("wall behind\nstart standing, back against wall, feet 45 cm from wall")
    heel = at(pose, "right heel")[0] - LANDMARKS["right heel"].radius
    assert heel == pytest.approx(45, abs=CLOSE)
    assert at(pose, "upper back")[0] - LANDMARKS["upper back"].radius == pytest.approx(0, abs=0.1)


def test_feet_stand_apart() -> None:
    (pose,) = poses("start standing, feet 40 cm apart")
    assert at(pose, "left ankle")[1] - at(pose, "right ankle")[1] == pytest.approx(40, abs=CLOSE)


def test_one_part_rests_on_another() -> None:
    (pose,) = poses("start sitting, right hand on right thigh")
    hip, knee, hand = at(pose, "right hip"), at(pose, "right knee"), at(pose, "right palm")
    along = minus(knee, hip)
    share = sum(a * b for a, b in zip(minus(hand, hip), along, strict=True)) / length(along) ** 2
    assert 0.1 < share < 0.9
    foot = tuple(a + share * b for a, b in zip(hip, along, strict=True))
    gap = length(minus(hand, (foot[0], foot[1], foot[2]))) - LANDMARKS["right palm"].radius
    assert 0.031 * 170 < gap < 0.048 * 170
    assert hand[2] > foot[2]


def test_an_ankle_lies_on_the_other_knee() -> None:
    _, pose = poses(
        "start lying on back, knees 90, feet flat on floor\nend left ankle on right knee, left hip external rotation 40"
    )
    gap = length(minus(at(pose, "left ankle"), at(pose, "right knee")))
    assert gap == pytest.approx(LANDMARKS["left ankle"].radius + LANDMARKS["right knee"].radius, abs=CLOSE)


def test_a_part_is_straight_under_another() -> None:
    (pose,) = poses("start lying face down, lift chest, forearms on floor, elbows under shoulders")
    for side in ("right", "left"):
        assert at(pose, f"{side} elbow")[:2] == pytest.approx(at(pose, f"{side} shoulder")[:2], abs=CLOSE)


def test_some_part_of_a_hand_is_straight_under_the_shoulder() -> None:
    pose = poses("start lying face down, hands on floor, hands under shoulders\nend elbows 40, lift chest")[0]
    heel, tips, above = (at(pose, f"right {mark}") for mark in ("palm", "fingertips", "shoulder"))
    ahead, aside = tips[0] - heel[0], tips[1] - heel[1]
    share = ((above[0] - heel[0]) * ahead + (above[1] - heel[1]) * aside) / (ahead**2 + aside**2)
    assert -0.05 < share < 1.05
    assert hypot(heel[0] + share * ahead - above[0], heel[1] + share * aside - above[1]) < CLOSE


def test_a_limb_is_horizontal_or_vertical() -> None:
    wall = "wall behind\nstart standing, back against wall, feet 45 cm from wall\n"
    squat = poses(wall + "end thighs horizontal, slide back")[1]
    hip, knee = at(squat, "right hip"), at(squat, "right knee")
    assert degrees(atan2(hip[2] - knee[2], knee[0] - hip[0])) == pytest.approx(0, abs=CLOSE)
    (kneeling,) = poses("start half-kneeling right foot forward, right shin vertical")
    knee, ankle = at(kneeling, "right knee"), at(kneeling, "right ankle")
    assert degrees(atan2(hypot(knee[0] - ankle[0], knee[1] - ankle[1]), knee[2] - ankle[2])) < CLOSE


@pytest.mark.parametrize(
    ("words", "lean"), [("trunk upright", 0), ("trunk lean forward 40", 40), ("trunk lean back 10", -10)]
)
def test_the_trunk_leans(words: str, lean: float) -> None:
    """From hips to shoulders; zero is how the trunk of somebody is who stands straight, 2.4 degrees back (2.04 in
    48.96 cm).
    """
    (pose,) = poses(f"start sitting, {words}, lower back 0, upper back 0")
    shoulders = [(a + b) / 2 for a, b in zip(at(pose, "right shoulder"), at(pose, "left shoulder"), strict=True)]
    hips = [(a + b) / 2 for a, b in zip(at(pose, "right hip"), at(pose, "left hip"), strict=True)]
    set_back = degrees(atan2(2.04, 48.96))
    assert degrees(atan2(shoulders[0] - hips[0], shoulders[2] - hips[2])) + set_back == pytest.approx(lean, abs=CLOSE)


def test_words_for_the_whole_body() -> None:
    _, end = poses(
        "start lying face down, lift chest, forearms on floor\n"
        "end body straight, toes on floor, lift pelvis, slide toes"
    )
    for name in ("lower back flexion", "upper back rotation right", "right hip flexion", "left knee flexion"):
        assert end.angles[name] == 0
    assert lowest(end, "pubis") > 3
    (kneeling,) = poses("start kneeling, trunk straight, arms overhead")
    assert at(kneeling, "right palm")[2] > at(kneeling, "back of head")[2]
    (standing,) = poses("start standing, hands on hips")
    # On the rim of the pelvis: half the breadth of the hips out (16 cm) and a hand above.
    assert length(minus(at(standing, "right palm"), at(standing, "right side of hip"))) < 22
    (seated,) = poses("start sitting, hands behind head")
    assert length(minus(at(seated, "right fingertips"), at(seated, "back of head"))) < 18
    (forward,) = poses("start standing, right arm forward")
    hand, shoulder = at(forward, "right palm"), at(forward, "right shoulder")
    assert abs(hand[2] - shoulder[2]) < 6 and hand[0] - shoulder[0] > 45
    assert at(forward, "left palm")[2] < shoulder[2] - 30
    (looking,) = poses("start lying face down, lift chest, forearms on floor, elbows under shoulders, look ahead")
    face = looking.frames["head"].axes
    assert degrees(atan2(-face[6], face[0])) < 20


def test_what_is_lifted_is_clear_and_what_stays_does_not_move() -> None:
    start, end = poses(
        "start lying on back, knees 100, feet flat on floor\nend hips 0, lift pelvis, lift left foot, left knee 0"
    )
    assert lowest(end, "right seat") > 3
    assert lowest(end, "left heel") > 3
    assert at(end, "right heel") == pytest.approx(at(start, "right heel"), abs=CLOSE)
    assert at(end, "upper back")[2] == pytest.approx(at(start, "upper back")[2], abs=CLOSE)


def test_a_part_that_is_only_lifted_is_seen_to_be() -> None:
    """Without an angle that says how far, a hand's breadth and more."""
    _, bridge = poses("start lying on back, knees 100, feet flat on floor\nend lift pelvis")
    assert lowest(bridge, "right seat") == pytest.approx(12, abs=1)
    _, stance = poses("start standing\nend lift right foot")
    assert lowest(stance, "right heel") > 11 and lowest(stance, "right ball of big toe") > 11


def test_what_slides_may_move_and_touches_still() -> None:
    wall = "wall behind\nstart standing, back against wall, feet 45 cm from wall\n"
    start, end = poses(wall + "end knees 80, slide back")
    assert at(start, "upper back")[2] - at(end, "upper back")[2] > 10
    assert at(end, "upper back")[0] - LANDMARKS["upper back"].radius == pytest.approx(0, abs=0.1)


def test_the_foot_in_front_in_half_kneeling() -> None:
    for front, behind in (("right", "left"), ("left", "right")):
        (pose,) = poses(f"start half-kneeling {front} foot forward")
        assert at(pose, f"{front} heel")[0] > at(pose, f"{behind} kneecap")[0]
        assert lowest(pose, f"{behind} kneecap") == pytest.approx(0, abs=0.1)


def test_things_stand_where_they_are_needed() -> None:
    found = solve(figure("wall behind\nchair 45 cm\npillow under head\nstart lying on back, calves on chair")).value
    assert found is not None
    props = {prop.kind: prop for prop in found.props}
    assert props["wall"].at[0] == 0 and props["wall"].facing == (1, 0, 0)
    assert props["chair"].height == 45 and props["chair"].at[0] > at(found.poses[0], "right knee")[0] - 10
    assert props["pillow"].at[0] == pytest.approx(at(found.poses[0], "back of head")[0], abs=0.01)
    beside = solve(figure("wall on right\nstart sitting, feet flat on floor, right outer foot against wall")).value
    assert beside is not None
    chair = next(prop for prop in beside.props if prop.kind == "chair")
    assert chair.at[1] == pytest.approx(at(beside.poses[0], "sacrum")[1], abs=0.5) and chair.at[1] > 10
    brought = solve(figure("start sitting")).value
    assert brought is not None and [prop.kind for prop in brought.props] == ["chair"]


def test_a_table_at_the_side_stands_along_the_body() -> None:
    """Under the hand that is put on it, and not in front of the person, whatever way the arm reaches."""
    found = solve(figure("table 90 cm on left\nstart standing, left hand on table")).value
    assert found is not None
    (table,) = found.props
    body, hand = at(found.poses[0], "sacrum"), at(found.poses[0], "left palm")
    assert table.facing == (0, -1, 0) and table.at[1] > body[1] + 20
    # Half of what a table is long and deep: the hand is on it.
    assert abs(table.at[0] - body[0]) < 10 and abs(table.at[0] - hand[0]) < 36 and abs(table.at[1] - hand[1]) < 25


def test_who_stands_holds_a_chair_by_its_back() -> None:
    """40 cm above the seat: common practice, no source. The chair is turned away."""
    found = solve(figure("chair 45 cm in front\nstart standing, hands on chair")).value
    assert found is not None
    assert lowest(found.poses[0], "right palm") == pytest.approx(85, abs=0.1)
    (chair,) = found.props
    assert chair.facing == (1, 0, 0) and chair.at[0] > at(found.poses[0], "right palm")[0]


def test_arms_of_which_nothing_is_said_hang_from_a_trunk_that_leans() -> None:
    _, pose = poses("start standing\nend trunk lean forward 60, knees 10")
    shoulder, elbow = at(pose, "right shoulder"), at(pose, "right elbow")
    assert abs(elbow[0] - shoulder[0]) < 6 and elbow[2] < shoulder[2] - 25


def test_a_foot_a_distance_from_the_other_is_to_the_side() -> None:
    _, pose = poses("start standing\nend right foot 50 cm from left foot")
    assert at(pose, "left ankle")[1] - at(pose, "right ankle")[1] == pytest.approx(50, abs=CLOSE)


def test_a_ball_between_the_knees_keeps_them_apart() -> None:
    (pose,) = poses("ball 20 cm between knees\nstart lying on back, knees 90, feet flat on floor")
    gap = at(pose, "left knee")[1] - at(pose, "right knee")[1] - 2 * LANDMARKS["left knee"].radius
    assert gap == pytest.approx(20, abs=2)


def test_a_leg_that_stands_straight_bends_where_the_other_is_put_lower() -> None:
    step = "step 10 cm\nstart standing, right foot on step, right knee 0, lift left foot, left hip 40, left knee 20\n"
    _, down = poses(step + "end left heel on floor, left knee 5")
    assert lowest(down, "left heel") == pytest.approx(0, abs=CLOSE)
    assert lowest(down, "right heel") == pytest.approx(10, abs=CLOSE)
    assert down.angles["right knee flexion"] > 30


@pytest.mark.parametrize("start", ["lying face down", "lying face down, arms by sides", "on all fours"])
def test_elbows_that_prop_bend_the_way_they_go(start: str) -> None:
    """Wherever the arms come from."""
    _, end = poses(f"start {start}\nend lift chest, forearms on floor")
    assert end.angles["right elbow flexion"] > 45
    assert at(end, "right wrist")[0] > at(end, "right elbow")[0] + 15


@pytest.mark.parametrize("text", ["start kneeling, hands on floor", "start kneeling\nend hands on floor"])
def test_who_kneels_puts_the_hands_on_the_floor_in_front(text: str) -> None:
    end = poses(text)[-1]
    assert at(end, "right palm")[0] > at(end, "right kneecap")[0]
    assert -20 < end.angles["lower back flexion"] < 40


def test_who_sits_with_long_legs_leans_on_the_hands_behind() -> None:
    _, end = poses("start long sitting\nend hands on floor")
    assert at(end, "right palm")[0] < at(end, "right hip")[0]
    assert end.angles["right hip flexion"] < 92
