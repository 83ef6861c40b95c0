"""Masses and their centres are those of Dempster (1955) as Winter prints them (2009, table 4.1): one set, whole."""

import pytest

from protodsl.figure.body import lengths as cm
from protodsl.figure.body.kinematics import frames_of, point_of
from protodsl.figure.body.masses import MASSES
from protodsl.figure.posture import STATURE
from tests.evidence.rows import oracle, table

SET = "05_segments_dempster_winter"
TRUNK = ("pelvis", "lumbar", "lower thorax", "upper thorax")
STANDING = frames_of({}, (0.0, 0.0, cm.HIP_HEIGHT))


def share(segments: tuple[str, ...]) -> float:
    """The share of body mass of some segments."""
    return sum(mass.share for mass in MASSES if mass.segment in segments)


def height(segments: tuple[str, ...]) -> float:
    """How high the centre of mass of some segments is in somebody who stands straight."""
    chosen = [mass for mass in MASSES if mass.segment in segments]
    moments = sum(mass.share * point_of(STANDING[mass.segment], mass.at)[2] for mass in chosen)
    return moments / sum(mass.share for mass in chosen)


def from_row(row: str, column: str) -> float:
    """A number of a row that may serve as an oracle."""
    assert table(SET)[row]["status"] == "confirmed"
    return float(table(SET)[row][column])


def test_masses_sum_to_one() -> None:
    """Row dw_mass_close: head 0.081, trunk 0.497, two arms of 0.050, two legs of 0.161."""
    assert share(tuple(mass.segment for mass in MASSES)) == pytest.approx(
        float(oracle("05_lengths_closure", "dw_mass_close"))
    )


@pytest.mark.parametrize(
    ("row", "segments"),
    [
        ("dw_hand", ("right hand",)),
        ("dw_forearm", ("right forearm",)),
        ("dw_upper_arm", ("left upper arm",)),
        ("dw_foot", ("right foot",)),
        ("dw_leg", ("left shank",)),
        ("dw_thigh", ("left thigh",)),
        ("dw_head_neck", ("head",)),
        ("dw_thorax", ("lower thorax", "upper thorax")),
        ("dw_abdomen", ("lumbar",)),
        ("dw_pelvis", ("pelvis",)),
        ("dw_trunk", TRUNK),
        ("dw_total_arm", ("right upper arm", "right forearm", "right hand")),
        ("dw_total_leg", ("right thigh", "right shank", "right foot")),
        (
            "dw_hat",
            (*TRUNK, "head", *(f"{s} {n}" for s in ("right", "left") for n in ("upper arm", "forearm", "hand"))),
        ),
    ],
)
def test_a_segment_has_the_published_mass(row: str, segments: tuple[str, ...]) -> None:
    assert share(segments) == pytest.approx(from_row(row, "mass_frac"))


@pytest.mark.parametrize(
    ("row", "segment", "long"),
    [
        ("dw_upper_arm", "right upper arm", cm.UPPER_ARM),
        ("dw_forearm", "right forearm", cm.FOREARM),
        ("dw_thigh", "left thigh", cm.THIGH),
        ("dw_leg", "left shank", cm.SHANK),
        ("dw_hand", "left hand", cm.WRIST_TO_KNUCKLE),
    ],
)
def test_a_limb_has_its_centre_of_mass_at_the_published_fraction_from_its_proximal_joint(
    row: str, segment: str, long: float
) -> None:
    (mass,) = [one for one in MASSES if one.segment == segment]
    assert -mass.at[2] == pytest.approx(from_row(row, "com_prox") * long)


def test_the_foot_has_its_centre_of_mass_midway_from_ankle_to_ball() -> None:
    """Row dw_foot, end points LMAL-MT2."""
    (mass,) = [one for one in MASSES if one.segment == "right foot"]
    assert mass.at[0] == pytest.approx(from_row("dw_foot", "com_prox") * cm.ANKLE_TO_BALL)


def test_trunk_and_head_balance_where_the_set_says() -> None:
    """Row dw_trunk_head_neck: 0.66 of the way from the greater trochanter to the shoulder; with the arms (dw_hat)
    0.626.
    """
    hip_to_shoulder = cm.SHOULDER_HEIGHT - cm.HIP_HEIGHT
    with_head = (height((*TRUNK, "head")) - cm.HIP_HEIGHT) / hip_to_shoulder
    assert with_head == pytest.approx(from_row("dw_trunk_head_neck", "com_prox"), abs=0.002)
    arms = tuple(f"{side} {name}" for side in ("right", "left") for name in ("upper arm", "forearm", "hand"))
    with_arms = (height((*TRUNK, "head", *arms)) - cm.HIP_HEIGHT) / hip_to_shoulder
    assert with_arms == pytest.approx(from_row("dw_hat", "com_prox"), abs=0.005)
    assert STATURE == 170.0
