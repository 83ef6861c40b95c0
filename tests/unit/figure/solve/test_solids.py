"""No thigh goes through the seat that is sat on, and no foot stands in the step that the other is on."""

from __future__ import annotations

import pytest

from protodsl.figure.body.landmarks import LANDMARKS
from protodsl.figure.solve.solve import solve
from tests.unit.figure.solve.reading import figure
from tests.unit.figure.solve.test_statements import at, lowest, poses


def test_a_thigh_does_not_go_through_the_seat() -> None:
    (one,) = solve(figure("start sitting\nend right knee 0")).diagnostics
    assert one.code.id == "F203"
    facts = one.args["facts"]
    assert isinstance(facts, tuple) and any(fact.endswith("inside the chair") for fact in facts)


def test_a_foot_does_not_stand_in_a_step() -> None:
    close = "step 20 cm\nstart standing, left foot on step, left foot {} cm in front of right foot"
    (one,) = solve(figure(close.format(15))).diagnostics
    assert one.code.id == "F203"
    assert solve(figure(close.format(35))).diagnostics == ()


@pytest.mark.parametrize("height", [10, 20])
def test_who_steps_up_stands_behind_the_edge(height: int) -> None:
    found = solve(figure(f"step {height} cm\nstart standing\nend left foot on step")).value
    assert found is not None
    (step,) = found.props
    end = found.poses[-1]
    toes = at(end, "right toes")[0] + LANDMARKS["right toes"].radius
    # The step is 30 cm deep, as it is drawn.
    assert toes < step.at[0] - 15 + 1


@pytest.mark.parametrize(("hip", "ahead"), [("", False), (", left hip 40", True)])
def test_who_steps_down_does_not_come_down_in_the_step(hip: str, ahead: bool) -> None:
    """Nothing says how far off the foot comes down: behind the step, or ahead of it where the leg is held out."""
    start = f"step 8 cm\nstart standing, right foot on step, lift left foot, right knee 0{hip}"
    found = solve(figure(f"{start}\nend left heel on floor, left knee 5")).value
    assert found is not None
    (step,) = found.props
    end = found.poses[-1]
    assert lowest(end, "left heel") == pytest.approx(0, abs=0.5)
    if ahead:
        assert at(end, "left heel")[0] - LANDMARKS["left heel"].radius > step.at[0] + 15 - 1
    else:
        assert at(end, "left toes")[0] + LANDMARKS["left toes"].radius < step.at[0] - 15 + 1


@pytest.mark.parametrize("start", ["right knee 10, left hip 40, left knee 20", "right knee 0"])
def test_a_leg_that_is_written_straight_leans_to_let_the_other_down(start: str) -> None:
    """8 cm lower: legs 83 cm long reach it in a long step, by Pythagoras."""
    _, end = poses(
        f"step 8 cm\nstart standing, right foot on step, lift left foot, trunk upright, {start}\n"
        "end left heel on floor, right knee 0, left knee 5, trunk upright"
    )
    assert lowest(end, "left heel") == pytest.approx(0, abs=0.5)
    assert end.angles["right knee flexion"] == 0 and end.angles["left knee flexion"] == 5


def test_the_outer_edge_of_a_foot_on_a_wall_leaves_it_flat() -> None:
    (pose,) = poses("wall on right\nstart sitting, feet flat on floor, right outer foot against wall")
    assert abs(pose.angles["right ankle inversion"]) < 5
    little_toe = LANDMARKS["right ball of little toe"]
    assert at(pose, "right ball of little toe")[1] - little_toe.radius == pytest.approx(0, abs=0.1)
