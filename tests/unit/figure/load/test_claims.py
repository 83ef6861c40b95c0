"""`harder than` in progressions: which levels are compared, what the verdict is, and what is said."""

from __future__ import annotations

from collections.abc import Mapping

import pytest

from protodsl.diagnostics.diagnostic import Diagnostic, Severity
from protodsl.figure.load.claims import comparisons, verdict
from protodsl.figure.load.joints import Load
from protodsl.figure.load.movement import peaks
from protodsl.figure.load.said import said_of_claims
from protodsl.model.exercise import Exercise, Progression
from protodsl.model.joint_load import Comparison, Verdict
from protodsl.resolve import resolve
from tests.unit.figure.load.movements import FIGURES
from tests.unit.resolve.shelf import Files


def exercise(name: str, figure: str = "", *lines: str) -> str:
    own = "".join(f"  {line}\n" for line in lines)
    drawn = "".join(f"    {line}\n" for line in figure.splitlines())
    return f"exercise {name}\n{own}  do\n    Move.\n" + (f"  figure\n{drawn}" if figure else "")


def read(text: str) -> tuple[Progression, Mapping[str, Exercise]]:
    found = resolve("p.protocol", Files({"p.protocol": text}))
    errors = [one.message for one in found.diagnostics if one.severity is Severity.ERROR]
    assert found.value is not None and not errors, errors
    (progression,) = found.value.scope.progressions.values()
    return progression, found.value.scope.exercises


def compared(text: str) -> Comparison:
    (found,) = comparisons(*read(text), peaks)
    return found


def said(text: str) -> list[Diagnostic]:
    return list(said_of_claims(*read(text), peaks))


BOTH, ONE = (exercise(f"heel raise {legs}", FIGURES[f"heel raise {legs}"]) for legs in ("both legs", "one leg"))
CHAIN = "progression calf\n  level heel raise both legs\n  level heel raise one leg\n"


def load(estimate: float, least: float, most: float) -> Load:
    return Load("extension", "", estimate, least, most)


@pytest.mark.parametrize(
    ("easier", "harder", "expected"),
    [
        (load(27, 27, 27), load(54, 54, 54), Verdict.CERTAIN),
        (load(30, 10, 50), load(90, 40, 140), Verdict.MATCHED),
        (load(30, 10, 50), load(31, 11, 51), Verdict.OPEN),
        (load(30, 10, 50), load(60, 5, 140), Verdict.OPEN),
        (load(0.4, 0.4, 0.4), load(0.9, 0.9, 0.9), Verdict.OPEN),
        (load(50, 50, 50), load(52, 52, 52), Verdict.OPEN),
        (load(90, 40, 140), load(30, 10, 50), Verdict.LESS),
        (load(54, 54, 54), load(27, 27, 27), Verdict.CERTAINLY_LESS),
    ],
)
def test_verdicts(easier: Load, harder: Load, expected: Verdict) -> None:
    """Apart; larger in least, estimate and most; neither; and the same the other way round."""
    assert verdict(easier, harder) is expected


def test_one_leg_is_certainly_harder_than_two() -> None:
    text = BOTH + ONE + CHAIN + "    harder than heel raise both legs at ankle\n"
    one = compared(text)
    assert one.verdict is Verdict.CERTAIN
    assert one.harder_load is not None and one.easier_load is not None
    assert one.harder_load.movement == one.easier_load.movement == "plantarflexion"
    assert one.harder_load.estimate == pytest.approx(2 * one.easier_load.estimate, rel=0.05)
    assert said(text) == []


def test_a_claim_of_the_progression_is_of_the_level_behind_the_one_it_names() -> None:
    one = compared(BOTH + ONE + CHAIN + "  harder than heel raise both legs at ankle\n")
    assert (one.easier, one.harder, one.verdict) == ("heel raise both legs", "heel raise one leg", Verdict.CERTAIN)


def test_the_other_order_is_an_error() -> None:
    turned = "progression calf\n  level heel raise one leg\n  level heel raise both legs\n"
    (one,) = said(BOTH + ONE + turned + "    harder than heel raise one leg at ankle\n")
    assert one.code.id == "F401" and one.severity is Severity.ERROR
    assert "N m" in one.message and one.help


def test_a_weight_in_the_figure_counts() -> None:
    arm = exercise("arm forward", FIGURES["arm forward"])
    loaded = exercise("loaded", "weight 2 kg on right hand\n" + FIGURES["arm forward"])
    one = compared(
        arm + loaded + "progression arm\n  level arm forward\n  level loaded\n    harder than arm forward at shoulder\n"
    )
    assert one.verdict is Verdict.CERTAIN and one.beyond == ()


def test_a_load_in_the_dose_does_not_and_is_named() -> None:
    loaded = exercise("loaded", FIGURES["arm forward"], "dose 3 x 8, load 2 kg, daily")
    arm = exercise("arm forward", FIGURES["arm forward"])
    text = (
        arm + loaded + "progression arm\n  level arm forward\n  level loaded\n    harder than arm forward at shoulder\n"
    )
    one = compared(text)
    assert one.verdict is Verdict.OPEN and one.beyond == ("loaded",)
    (told,) = said(text)
    assert told.code.id == "F403" and any("load in the dose of `loaded`" in note for note in told.notes)
    assert "weight 5 kg on right hand" in told.help


def test_a_band_leaves_it_open() -> None:
    pulled = "band from right hand to left hand\nstart standing\nend shoulders flexion 90, elbows 0"
    arm = exercise("arm forward", FIGURES["arm forward"])
    text = arm + exercise("pulled", pulled) + "progression arm\n  level arm forward\n  level pulled\n"
    one = compared(text + "    harder than arm forward at shoulder\n")
    assert one.verdict is Verdict.OPEN and one.bands == ("pulled",)
    (told,) = said(text + "    harder than arm forward at shoulder\n")
    assert any("band of `pulled`" in note for note in told.notes)


def test_of_several_exercises_of_a_level_the_one_that_loads_most_counts() -> None:
    arm = exercise("arm forward", FIGURES["arm forward"])
    text = BOTH + ONE + arm + "progression calf\n  level arm forward\n  level strong\n    give heel raise both legs\n"
    text += "    give heel raise one leg\n    harder than arm forward at ankle\n"
    one = compared(text)
    assert one.harder_load is not None and one.harder_load.estimate > 60


def test_a_figure_whose_pose_cannot_be_is_told_of_where_it_is_drawn() -> None:
    broken = exercise("broken", "start lying on back, knees 100, feet flat on floor\nend hips 0")
    text = BOTH + broken + "progression calf\n  level heel raise both legs\n  level broken\n"
    text += "    harder than heel raise both legs at ankle\n"
    assert compared(text).verdict is Verdict.NO_SOLUTION
    assert said(text) == []


def test_no_figure_no_joint_no_estimate() -> None:
    bare = exercise("bare")
    text = (
        BOTH
        + bare
        + "progression calf\n  level heel raise both legs\n  level bare\n    harder than heel raise both legs at {}\n"
    )
    assert [one.code.id for one in said(text.format("ankle"))] == ["F404"]
    assert [one.code.id for one in said(text.format("toe"))] == ["F406"]
