"""Loads of drawn movements against closed forms worked out here, and what must hold whatever the figure."""

from __future__ import annotations

from dataclasses import replace
from math import hypot

import pytest

from protodsl.figure.body import lengths as cm
from protodsl.figure.body.kinematics import frames_of
from protodsl.figure.body.masses import MASSES
from protodsl.figure.body.skeleton import SIDES
from protodsl.figure.load.held import BODY_MASS, GRAVITY, Held
from protodsl.figure.load.moments import loads_at
from protodsl.figure.load.movement import movement, peaks
from protodsl.figure.posture import STATURE
from protodsl.figure.solve.solve import solve
from tests.unit.figure.load.movements import FIGURES, JOINTS, moving, peak
from tests.unit.figure.solve.reading import figure
from tests.unit.figure.solve.test_mirror import mirrored

WEIGHT = BODY_MASS * GRAVITY
M = 0.01


def share(*names: str) -> float:
    return sum(mass.share for mass in MASSES if mass.segment in names)


def test_a_leg_held_out_from_a_chair() -> None:
    """Shank horizontal, foot upright: 0.0465 of the weight at 0.433 of the shank, 0.0145 at the foot's own centre."""
    foot = cm.SHANK + 0.5 * (cm.ANKLE_HEIGHT - cm.BALL_RADIUS)
    most = WEIGHT * M * (0.0465 * 0.433 * cm.SHANK + 0.0145 * foot)
    load = peak("seated knee extension", "knee", "extension")
    assert load.estimate == pytest.approx(most, rel=0.02)
    assert load.most - load.least < 1e-6


def test_an_arm_held_out_in_front() -> None:
    """Upper arm, forearm and hand on one line."""
    arm = (
        0.028 * 0.436 * cm.UPPER_ARM
        + 0.016 * (cm.UPPER_ARM + 0.43 * cm.FOREARM)
        + 0.006 * (cm.UPPER_ARM + cm.FOREARM + 0.506 * cm.WRIST_TO_KNUCKLE)
    )
    assert peak("arm forward", "shoulder", "flexion").estimate == pytest.approx(WEIGHT * M * arm, rel=0.01)


def test_a_weight_in_the_hand_adds_its_own_moment() -> None:
    """2 kg at the palm's mark, 0.014 of stature beyond the wrist."""
    lever = M * (cm.UPPER_ARM + cm.FOREARM + 0.014 * STATURE)
    loaded = "weight 2 kg on right hand\n" + FIGURES["arm forward"]
    more = peak(loaded, "shoulder", "flexion").estimate - peak("arm forward", "shoulder", "flexion").estimate
    assert more == pytest.approx(2 * GRAVITY * lever, rel=0.01)


def test_rising_on_the_toes_needs_the_weight_times_the_lever_of_the_centre_of_mass() -> None:
    """In the last pose: half the weight at the distance of the centre of mass from the ankle, less that of the foot."""
    text = FIGURES["heel raise both legs"]
    solved = solve(figure(text)).value
    assert solved is not None
    pose = solved.poses[-1]
    ankle = pose.frames["right foot"]
    toes = cm.ANKLE_TO_BALL * 0.5, 0.5 * (cm.BALL_RADIUS - cm.ANKLE_HEIGHT)
    foot = toes[0] * ankle.axes[0] + toes[1] * ankle.axes[2]
    lever = pose.centre_of_mass[0] - ankle.origin[0]
    by_hand = WEIGHT * M * (0.5 * lever - 0.0145 * foot)
    found = next(
        one
        for one in loads_at("ankle", "right", moving("heel raise both legs").held[-1])
        if one.movement == "plantarflexion"
    )
    assert found.estimate == pytest.approx(by_hand, rel=0.01)


def test_standing_on_one_leg_the_hip_holds_the_rest_of_the_body() -> None:
    """All but the standing leg, about the hip's own axis: the free leg and the trunk, in the frontal plane."""
    held = moving("stance on one leg").held[-1]
    joint = held.frames["right thigh"].origin
    leg = {f"right {name}" for name in ("thigh", "shank", "foot")}
    beyond = sum(newtons * (at[1] - M * joint[1]) for name, at, newtons in held.pulls() if name not in leg)
    found = next(one for one in loads_at("hip", "right", held) if one.movement == "abduction")
    assert found.estimate == pytest.approx(beyond, rel=0.03)


def test_a_squat_is_half_the_weight_times_the_way_from_the_knee_to_the_centre_of_mass() -> None:
    held = moving("squat to 60").held[-1]
    pulls = list(held.pulls())
    centre = sum(newtons * at[0] for _, at, newtons in pulls) / WEIGHT
    knee = M * held.frames["right shank"].origin[0]
    below = sum(newtons * (at[0] - knee) for name, at, newtons in pulls if name in ("right shank", "right foot"))
    by_hand = 0.5 * WEIGHT * (knee - centre) + below
    found = next(one for one in loads_at("knee", "right", held) if one.movement == "extension")
    assert found.estimate == pytest.approx(by_hand, rel=0.01)


@pytest.mark.parametrize(
    ("name", "joint", "movement", "newton_metres"),
    [
        ("seated knee extension", "knee", "extension", 10.4),
        ("bridge both legs", "hip", "extension", 29),
        ("bridge one leg", "hip", "extension", 94),
        ("squat to 60", "knee", "extension", 50),
        ("squat to 90", "knee", "extension", 68),
        ("stance on one leg", "hip", "abduction", 53),
    ],
)
def test_orders_of_magnitude(name: str, joint: str, movement: str, newton_metres: float) -> None:
    """Numbers of an earlier, separate calculation with other drawings of the same poses: near, not equal."""
    assert peak(name, joint, movement).estimate == pytest.approx(newton_metres, rel=0.08)


def test_rising_on_the_toes_is_hardest_as_the_heels_come_off() -> None:
    """The whole foot is the lever then: half the weight over the balls of the feet, less the foot's own weight."""
    balls = WEIGHT * M * (0.5 * cm.ANKLE_TO_BALL - 0.0145 * 0.5 * cm.ANKLE_TO_BALL)
    both, one = (peak(f"heel raise {legs}", "ankle", "plantarflexion").estimate for legs in ("both legs", "one leg"))
    assert both == pytest.approx(balls, rel=0.12)
    assert one == pytest.approx(2 * both, rel=0.05)
    last = [
        next(load.estimate for load in loads_at("ankle", "right", moving(f"heel raise {legs}").held[-1])
             if load.movement == "plantarflexion")
        for legs in ("both legs", "one leg")
    ]  # fmt: skip
    assert last == [pytest.approx(27, rel=0.08), pytest.approx(54, rel=0.08)]


@pytest.mark.parametrize("name", FIGURES)
def test_twice_the_mass_is_twice_the_load(name: str) -> None:
    """Row ident_sum of the static moments: k times the mass is k times the moment."""
    one, two = moving(name), moving(name, 140.0)
    for light, heavy in zip(one.held, two.held, strict=True):
        for joint in JOINTS:
            for first, second in zip(loads_at(joint, "right", light), loads_at(joint, "right", heavy), strict=True):
                assert second.estimate == pytest.approx(2 * first.estimate, abs=1e-4)
                assert second.most == pytest.approx(2 * first.most, abs=1e-4)


@pytest.mark.parametrize(
    "name", [name for name in FIGURES if "right" in FIGURES[name] and "lying on right" not in FIGURES[name]]
)
def test_a_figure_for_the_other_side_loads_the_other_side(name: str) -> None:
    """As far as the solver comes to the mirrored pose: some tenths of a degree, and up to 700 N at a metre."""
    for joint in ("hip", "knee", "ankle", "shoulder", "elbow"):
        one = peaks(figure(FIGURES[name]), joint, "right") or ()
        other = peaks(figure(mirrored(FIGURES[name])), joint, "left") or ()
        theirs = {load.movement: load for load in other}
        assert len(one) == len(theirs)
        for load in one:
            assert theirs[load.movement].estimate == pytest.approx(load.estimate, abs=1.5, rel=0.02), (joint, load)


def test_both_sides_of_an_even_body_carry_the_same() -> None:
    for held in moving("squat to 90").held:
        assert held.even
        for joint in ("hip", "knee", "ankle"):
            for right, left in zip(loads_at(joint, "right", held), loads_at(joint, "left", held), strict=True):
                assert right.estimate == pytest.approx(left.estimate, abs=1e-6)


def test_arms_and_legs_that_hang_straight_down_load_nothing() -> None:
    held = moving("squat to 60").held[0]
    straight = dict.fromkeys(held.angles, 0.0)
    hanging = replace(held, frames=frames_of(straight, (0.0, 0.0, cm.HIP_HEIGHT)), angles=straight)
    for side in SIDES:
        for joint in ("shoulder", "elbow", "wrist"):
            assert all(abs(load.estimate) < 1e-9 for load in loads_at(joint, side, hanging))


def test_the_upper_leg_that_lies_on_the_lower_loads_nothing_until_it_is_lifted() -> None:
    clam = movement(figure("start lying on right side, knees 90, hips 45\nend left hip external rotation 30"))
    assert clam is not None
    first, last = (
        {load.movement: load.estimate for load in loads_at("hip", "left", held)}
        for held in (clam.held[0], clam.held[-1])
    )
    assert max(first.values()) == 0.0
    assert last["abduction"] > 15.0


def test_a_hand_on_a_table_only_steadies() -> None:
    """Where a leg can carry alone, no hand is counted on."""
    found = movement(
        figure("table 90 cm on left\nstart standing, left hand on table\nend lift left foot, left knee 60")
    )
    assert found is not None and found.falling == 0
    assert {one.segment for held in found.held for one in held.supports} == {"right foot", "left foot"}
    load = next(one for one in loads_at("hip", "right", found.held[-1]) if one.movement == "abduction")
    assert load.most - load.least < 1e-6


def test_someone_who_lies_flat_needs_nothing_at_hip_and_knee() -> None:
    lying = movement(figure("start lying on back"))
    assert lying is not None
    for joint in ("hip", "knee", "ankle", "shoulder", "elbow"):
        assert all(load.estimate == 0.0 for load in loads_at(joint, "right", lying.held[0])), joint


def test_loads_of_the_spine_name_their_side() -> None:
    held: Held = moving("arm and leg").held[-1]
    turned = [load for load in loads_at("lumbar", "", held) if load.movement == "rotation"]
    assert {load.towards for load in turned} == {"right", "left"}
    assert turned[0].estimate == pytest.approx(-turned[1].estimate)
    assert hypot(*(load.estimate for load in turned)) > 0
