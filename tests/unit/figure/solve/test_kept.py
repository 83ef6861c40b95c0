"""What stays where it is while the body moves: hands on hips, a hand on a thigh, hands on a stick, things under a part.

Lengths that are asked for here are those of the body that is drawn; how close is close is the project's own rule.
"""

from __future__ import annotations

import pytest

from protodsl.figure.body.vectors import column, dot, length, minus
from protodsl.figure.posture import SolvedPose, Vector
from protodsl.figure.solve.solve import solve
from tests.unit.figure.solve.reading import figure
from tests.unit.figure.solve.test_statements import at, poses


def in_axes(pose: SolvedPose, landmark: str, segment: str) -> Vector:
    """Where a landmark is as a segment sees it: forward, to the left, up."""
    frame = pose.frames[segment]
    way = minus(at(pose, landmark), frame.origin)
    forward, left, up = (dot(way, column(frame.axes, axis)) for axis in (0, 1, 2))
    return forward, left, up


@pytest.mark.parametrize(
    "moves",
    ["trunk lean forward 40", "trunk side bending 25 to right", "trunk 30", "trunk rotation 30 to left", "knees 60"],
)
@pytest.mark.parametrize("words", ["hands on hips", "right hand on right hip"])
def test_hands_on_hips_stay_there(moves: str, words: str) -> None:
    start, end = poses(f"start standing, {words}\nend {moves}")
    before, after = (in_axes(pose, "right palm", "pelvis") for pose in (start, end))
    assert length(minus(after, before)) < 0.5
    # The rim of the pelvis is about half the breadth of the hips to the side: 0.191 of stature (Drillis and Contini).
    assert -after[1] > 0.191 * 170 / 2


def test_an_arm_whose_angles_are_written_is_where_they_put_it() -> None:
    (pose,) = poses("start standing, shoulders extension 40, hands on hips")
    assert pose.angles["right shoulder flexion"] == -40
    assert abs(pose.angles["upper back flexion"]) < 2


@pytest.mark.parametrize("lean", [30, 50])
def test_a_hand_on_a_thigh_stays_on_its_side_of_it(lean: int) -> None:
    start, end = poses(f"start sitting, left hand on left thigh\nend trunk lean forward {lean}")
    before, after = (in_axes(pose, "left palm", "left thigh") for pose in (start, end))
    assert length(minus(after, before)) < 1.0
    # Not through the seat of the chair, which is 45 cm high.
    assert at(end, "left palm")[2] > 45


def test_hands_that_slide_may_go_along_the_thighs() -> None:
    start, end = poses("start standing, hands on thighs\nend trunk lean forward 50, knees 40, elbows 5, slide hands")
    before, after = (in_axes(pose, "left palm", "left thigh") for pose in (start, end))
    assert after[2] < before[2] - 5


def test_hands_on_a_stick_stay_as_far_apart() -> None:
    """Only the right arm is written, and the left goes along."""
    start, end = poses(
        "stick in hands\nstart standing, elbows 90\nend right shoulder external rotation 40, right elbow 90"
    )
    apart = [length(minus(at(pose, "right palm"), at(pose, "left palm"))) for pose in (start, end)]
    assert apart[1] == pytest.approx(apart[0], abs=0.5)
    assert end.angles["left shoulder external rotation"] < -10


def test_hands_that_are_pulled_apart_on_a_stick_are_told_of() -> None:
    apart = (
        "start standing, elbows 90\nend elbows 90, shoulders external rotation 20, shoulders 0, shoulders abduction 9"
    )
    (one,) = solve(figure(f"stick in hands\n{apart}")).diagnostics
    assert one.code.id == "F208" and one.message.startswith("hands would slide ")
    assert solve(figure(f"stick in hands\n{apart}, slide hands")).diagnostics == ()
    # A band gives way.
    assert solve(figure(f"band from right hand to left hand\n{apart}")).diagnostics == ()


def test_a_thing_under_a_hand_lies_on_the_table_that_the_hand_is_put_on() -> None:
    text = "table 75 cm in front\ntowel 6 cm under right hand\nstart sitting, hands on table"
    found = solve(figure(text)).value
    assert found is not None
    props = {prop.kind: prop for prop in found.props}
    (pose,) = found.poses
    assert props["towel"].at[2] == 75
    palms = [at(pose, f"{side} palm")[2] for side in ("right", "left")]
    assert palms[0] - palms[1] == pytest.approx(6, abs=0.1)
    # The table stands under both hands.
    assert abs(props["table"].at[0] - at(pose, "left palm")[0]) < 25


def test_a_hand_that_comes_to_the_table_later_is_not_on_the_towel_before() -> None:
    start, end = poses("table 75 cm in front\ntowel under right hand\nstart sitting\nend right hand on table")
    assert ("right palm", "towel") not in start.contacts and ("right palm", "towel") in end.contacts


def test_a_thing_under_a_thigh_lies_on_the_chair() -> None:
    found = solve(figure("towel 6 cm under right thigh\nstart sitting, lift right foot, right knee 80")).value
    assert found is not None
    (towel,) = [prop for prop in found.props if prop.kind == "towel"]
    assert towel.at[2] == 45


def test_a_touch_leaves_other_limbs_forbidden() -> None:
    """A hand on the other shoulder, and the legs still do not go through each other."""
    _, end = poses("start standing, right hand on left shoulder\nend left hip adduction 20, lift left foot")
    # Two shanks as thick as they are drawn, 0.021 of stature at the ankle, less what flesh gives way.
    gap = length(minus(at(end, "left ankle"), at(end, "right ankle")))
    assert gap > 2 * 0.021 * 170 - 1.5
