"""What is said of poses that cannot be, and that the likeliest way out is said first."""

from __future__ import annotations

import pytest

from protodsl.diagnostics.diagnostic import Diagnostic
from protodsl.figure.solve.solve import solve
from tests.unit.figure.solve.reading import figure


def said(text: str) -> tuple[Diagnostic, ...]:
    """What is said of a figure."""
    return solve(figure(text)).diagnostics


def only(text: str) -> Diagnostic:
    """The one thing that is said of a figure."""
    (one,) = said(text)
    return one


@pytest.mark.parametrize(
    ("text", "code", "first"),
    [
        (
            "start lying on back, knees 100, feet flat on floor\nend hips 0",
            "F203",
            "possible without `pelvis on floor` (implied by lying on back)",
        ),
        (
            "start lying face down, forearms on floor, elbows under shoulders",
            "F201",
            "possible without `chest on floor` (implied by lying face down)",
        ),
        ("start sitting\nend right knee 0", "F203", "possible without `right foot on floor` (implied by sitting)"),
        (
            "start long sitting, feet flat on floor, knees 20",
            "F204",
            "possible without `seat on floor` (implied by long sitting)",
        ),
    ],
    ids=["hips straight on the floor", "chest on the floor over forearms", "foot left on the floor", "past anatomy"],
)
def test_the_contact_in_the_way_comes_first(text: str, code: str, first: str) -> None:
    one = only(text)
    assert one.code.id == code
    hints = one.args["hints"]
    assert isinstance(hints, tuple) and hints[0] == first
    assert one.help.startswith("write `lift ")
    assert first in one.message


def test_what_is_lifted_as_the_hint_says_can_be() -> None:
    good = "start lying on back, knees 100, feet flat on floor\nend hips 0, lift pelvis"
    assert solve(figure(good)).value is not None and said(good) == ()
    assert said("start sitting\nend lift right foot, right knee 0") == ()


def test_an_angle_in_the_way_is_named_with_what_it_would_be() -> None:
    one = only("start lying on back, knees 100, feet flat on floor\nend hips 0")
    hints = one.args["hints"]
    assert isinstance(hints, tuple)
    (angle,) = [words for words in hints if "is not fixed" in words]
    assert angle.startswith("possible if hip flexion is not fixed (it would be 4")
    assert angle.endswith(" instead of 0)")


def test_how_far_a_part_is_from_its_surface_is_measured_with_all_else_in_place() -> None:
    """Forearms on the floor, upper arms upright: the chest hangs as high as the upper arms are long, less the
    chest's depth.
    """
    facts = only("start lying face down, forearms on floor, elbows under shoulders").args["facts"]
    assert isinstance(facts, tuple)
    assert any(fact == "chest cannot reach the floor: 20 cm short of it" for fact in facts)


def test_an_angle_that_no_body_has_is_an_error_before_anything_is_solved() -> None:
    """Knee flexion 165: the normal range is 140 (38 CFR 4.71, plate II)."""
    one = only("start lying on back, knees 165, feet flat on floor")
    assert (one.code.id, one.args["normal"]) == ("F204", 140)
    assert only("start standing, right elbow extension 40").code.id == "F204"


def test_an_angle_that_only_follows_and_that_no_body_has_is_an_error_too() -> None:
    """Plantarflexion 77, with weight on the foot; one that is a little past the range is a warning."""
    one = only("start long sitting, feet flat on floor, knees 20")
    facts = one.args["facts"]
    assert isinstance(facts, tuple) and len(facts) == 1
    assert facts[0].startswith("ankle plantarflexion 77, implied by the contacts, is more than any body does")
    assert only("start lying on back, feet flat on floor, knees 40, hips 0").code.id == "F205"


def test_past_the_normal_range_is_a_warning_with_its_source() -> None:
    one = only("table 90 cm on left\nstart standing, left hand on table\nend lift right foot, right hip extension 45")
    assert one.code.id == "F205" and one.message == "right hip extension 45 is beyond the normal range (30)"
    assert one.notes == ("the normal range: 38 CFR 4.71, plates I and II",)
    from_memory = only("start sitting\nend neck flexion 60")
    assert from_memory.notes == ("the normal range: from memory, no source",)


def test_a_foot_that_carries_bends_further_before_a_word_is_said() -> None:
    assert said("start standing, ankles 30, knees 60") == ()
    (one,) = [one for one in said("start standing, ankles 45, knees 90") if one.code.id == "F205"]
    assert one.args["normal"] == 40 and one.notes == ("the normal range: under load, from memory, no source",)


def test_what_nobody_wrote_is_implied_by_the_contacts() -> None:
    press_up = "start lying face down, hands on floor, hands under shoulders\nend elbows 0, lift chest"
    implied = [one for one in said(press_up) if one.code.id == "F205"]
    assert implied and all(one.message.endswith("implied by the contacts") for one in implied)
    assert all(one.args["written"] is False for one in implied)


def test_long_muscles() -> None:
    assert only("start long sitting\nend hips 110").args["muscle"] == "hamstrings"
    assert said("start long sitting\nend hips 88") == ()


def test_who_would_fall() -> None:
    one = only("start standing\nend body straight, ankles 15")
    assert one.code.id == "F207" and "centre of mass is 5 cm outside the base of support" in one.message


def test_two_angles_for_one_joint() -> None:
    assert only("start sitting, knees 90, right knee 60\nend right knee 40, lift right foot").code.id == "F211"
    assert "F211" not in {one.code.id for one in said("start sitting, knees 90, right knee 90")}


@pytest.mark.parametrize(
    ("text", "codes"),
    [
        ("start standing\nend knees 60\narrow pelvis down", []),
        ("start standing\nend knees 60\narrow pelvis up", ["F209"]),
        ("start standing\nend knees 60\narrow right foot up", ["F210"]),
        # A hand or foot that turns about its own joint moves, though it is measured from there.
        ("start sitting, elbows 90, forearms pronation 80\nend right wrist 40\narrow right hand up", []),
        ("start sitting, elbows 90, forearms pronation 80\nend right wrist 40\narrow right hand down", ["F209"]),
        ("start long sitting, right ankle -30\nend right ankle 10\narrow right foot back", []),
        ("start long sitting, right ankle -30\nend right ankle 10\narrow right foot forward", ["F209"]),
        ("view front\nstart standing\nend shoulders abduction 60\narrow hands out", []),
        ("view front\nstart standing\nend shoulders abduction 60\narrow hands in", ["F209"]),
        ("view front\nstart standing\nend shoulders abduction 60\narrow right hand left", ["F209"]),
        ("start standing\nend shoulders 80\narrow hands forward", []),
        ("start standing\nend shoulders 80\narrow hands back", ["F209"]),
        ("start lying on back\nend shoulders 160\narrow hands back", []),
        ("start lying on back\nend shoulders 90\narrow hands back", ["F209"]),
        ("start lying on back\nend shoulders 90\narrow hands forward", []),
        ("start lying on right side\nend left hip 60\narrow left foot forward", []),
        ("start lying on right side\nend left hip 60\narrow left foot back", ["F209"]),
    ],
)
def test_an_arrow_says_what_the_body_does(text: str, codes: list[str]) -> None:
    assert [one.code.id for one in said(text)] == codes
