"""What a figure shows, held against limits and against what the exercise says."""

from __future__ import annotations

from pathlib import Path

import pytest

from protodsl.diagnostics.diagnostic import Diagnostic
from tests.unit.figure.clinic import checked, project

PROTOCOL = """\
question knee pain: Does your knee hurt?

exercise lift
  {said}
  dose 2 x 10, {dose}daily
  figure
    {figure}
  do
    Do it.
  stop sharp pain

protocol sore knee
  title After a sore knee
  version 1.0.0
  review 2026-10-05 by outpatient lead, next by 2027-10-05
  source Common practice, no source.
  for adults
  emergency if knee pain
  phase early
    title First weeks
    limit {limit}
    give lift
    until weeks since start >= 2 weeks
"""
SQUAT = "start standing, arms forward\n    end knees 60"
SITTING = "start sitting, trunk upright\n    end lift right foot, right knee 10"


def said(folder: Path, figure: str, limit: str, said: str = "still ankle, knee", dose: str = "") -> list[Diagnostic]:
    """What is said of what is drawn."""
    text = PROTOCOL.format(figure=figure, limit=limit, said=said, dose=dose)
    _, found = checked(project(folder / "p", "target calf: calf\n", text))
    return [one for one in found.diagnostics if one.code.id in ("S617", "S618")]


def test_a_pose_past_a_limit_names_both_places(tmp_path: Path) -> None:
    """An error at the give, with the limit and the pose; `moves` that stays within is no excuse, and is said, too."""
    found = said(tmp_path, SQUAT, "knee flexion <= 45 deg", "moves knee flexion to 40 deg")
    error = next(one for one in found if one.code.id == "S617")
    assert [label.words for label in error.secondary] == ["the limit", "drawn so in the `end` pose"]
    assert error.args["drawn"] == 60
    warning = next(one for one in found if one.code.id == "S618")
    assert warning.args == {"exercise": "lift", "movement": "knee flexion", "to": 40, "drawn": 60}


@pytest.mark.parametrize(
    ("limit", "past"),
    [("knee flexion <= 60 deg", False), ("knee flexion < 60 deg", True), ("knee flexion <= 59 deg", True)],
)
def test_a_written_angle_counts_to_the_degree(limit: str, past: bool, tmp_path: Path) -> None:
    found = said(tmp_path, SQUAT, limit, "moves knee flexion to 60 deg")
    assert [one.code.id for one in found] == (["S617"] if past else [])


@pytest.mark.parametrize(("limit", "past"), [("hip flexion <= 85 deg", False), ("hip flexion <= 60 deg", True)])
def test_what_follows_from_a_pose_has_some_slack(limit: str, past: bool, tmp_path: Path) -> None:
    """Nobody wrote how far the hips bend on a chair; that they bend to about a right angle is drawn all the same."""
    found = said(tmp_path, SITTING, limit, "still hip")
    assert ("S617" in [one.code.id for one in found]) is past


@pytest.mark.parametrize(("dose", "past"), [("affected side, ", False), ("each side, ", True), ("", True)])
def test_the_other_leg_counts_unless_the_drawn_side_is_the_affected_one(dose: str, past: bool, tmp_path: Path) -> None:
    """The left knee is bent far here, and the right one not: for the affected side that is the sound knee."""
    figure = "start lying on back, left knee 90, left foot flat on floor, right knee 0\n"
    figure += "    end right hip 30, lift right foot"
    found = said(
        tmp_path, figure, "knee flexion <= 60 deg", "moves knee flexion to 95 deg, hip flexion to 30 deg", dose
    )
    assert ("S617" in [one.code.id for one in found]) is past


def test_a_limit_of_a_stronger_kind_lets_a_weaker_one_be_drawn(tmp_path: Path) -> None:
    """The kind of a drawn movement is that of its `moves` line; without one it could be any."""
    limit = "resisted knee flexion <= 45 deg"
    assert said(tmp_path, SQUAT, limit, "moves passive knee flexion to 60 deg") == []
    assert [one.code.id for one in said(tmp_path, SQUAT, limit, "moves knee flexion to 60 deg")] == ["S617"]


@pytest.mark.parametrize(("to", "told"), [(60, False), (55, False), (54, True)])
def test_moves_that_say_less_by_more_than_five_degrees(to: int, told: bool, tmp_path: Path) -> None:
    found = said(
        tmp_path, SQUAT, "ankle inversion <= 10 deg", f"moves knee flexion to {to} deg, ankle dorsiflexion to 40 deg"
    )
    assert [one.code.id for one in found] == (["S618"] if told else [])


def test_a_joint_that_is_still_is_not_moved(tmp_path: Path) -> None:
    """Held bent it may be, on the side that is drawn; the other leg is not spoken of."""
    hip = "hip abduction <= 40 deg"
    assert said(tmp_path, SITTING, hip, "still hip, ankle") == []
    (found,) = said(tmp_path, SITTING, hip, "still knee, hip")
    assert found.args["joint"] == "knee" and "`still knee`" in found.message


def test_joints_that_no_body_has_are_let_be(tmp_path: Path) -> None:
    """Fingers are not drawn."""
    assert said(tmp_path, SQUAT, "finger flexion <= 10 deg", "still finger, thumb") == []
