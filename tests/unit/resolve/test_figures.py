"""Figures as they stand in protocols: read, made whole, and written again as they were."""

from __future__ import annotations

import re
from decimal import Decimal
from pathlib import Path

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from protodsl.model.exercise import Exercise
from protodsl.model.figure import Angle, Contact, Distance, Figure, Lift, Part, Prop
from protodsl.resolve import resolve
from protodsl.source import Source
from protodsl.syntax import format_source, format_tree, tree
from tests.properties import figures
from tests.unit.resolve.shelf import Files
from tests.unit.syntax.samples import parse

GOOD = Path(__file__).resolve().parents[2] / "cases" / "good" / "figures"
FILES = sorted(GOOD.glob("*.protocol"))
BRIDGE = """exercise bridge
  do
    Lift.
  figure
    chair 45 cm in front
    start lying on back, knees 100, feet flat on floor
    end hips 0, lift pelvis
    arrow pelvis up
"""


def exercises(text: str) -> dict[str, Exercise]:
    """The exercises of a text that must have no mistakes."""
    found = resolve("p.protocol", Files({"p.protocol": text}))
    said = [one.message for one in found.diagnostics if not one.code.id.startswith("N20")]
    assert found.value is not None and said == []
    return dict(found.value.scope.exercises)


def figure(text: str, name: str = "x") -> Figure:
    """The figure of one exercise, whole."""
    found = exercises(text)[name].figure
    assert found is not None
    return found


def codes(lines: str, head: str = "figure") -> list[str]:
    """The codes of what is said about a figure with these lines."""
    under = "".join(f"    {line}\n" for line in lines.strip().split("\n"))
    text = f"exercise x\n  do\n    Lift.\n  {head}\n{under}"
    found = resolve("p.protocol", Files({"p.protocol": text}))
    return [one.code.id for one in found.diagnostics if not one.code.id.startswith("N20")]


@pytest.mark.parametrize("path", FILES, ids=lambda path: path.stem)
def test_a_good_figure_is_read_whole_and_written_as_it_was(path: Path) -> None:
    text = path.read_text(encoding="utf-8")
    found = exercises(text)
    assert format_source(Source(path.name, text)).value == text
    for name, exercise in found.items():
        drawn = exercise.figure
        assert drawn is not None and len(drawn.poses) > 1, name
        assert drawn.poses[0].role == "start" and drawn.poses[0].position is not None
        assert not any(pose.but for pose in drawn.poses)


def test_there_are_thirty_and_more() -> None:
    """Every kind of exercise that the drawing was tried with stands among them."""
    assert sum(path.read_text(encoding="utf-8").count("  figure") for path in FILES) >= 30


def test_what_a_clinician_writes_comes_to_one_spelling() -> None:
    loose = (
        "exercise x\n  do\n    Lift.\n  figure\n    wall on the left\n"
        "    start Supine, the knees 100°, both feet flat on the floor,\n"
        "      right knees bent 90 degrees, trunk rotation right 30\n    end hips straight, lift the pelvis\n"
    )
    text = format_source(Source("p.protocol", loose)).value
    assert text is not None
    assert text.split("\n")[4:8] == [
        "    wall on left",
        "    start lying on back, knees 100, feet flat on floor",
        "      right knee flexion 90, trunk rotation 30 to right",
        "    end hips 0, lift pelvis",
    ]
    again = format_source(Source("p.protocol", text)).value
    assert again == text and figure(loose) == figure(text)


def test_but_changes_items_of_a_pose_side_by_side() -> None:
    text = f"{BRIDGE}exercise x\n  do\n    Lift.\n  figure like bridge\n    end but left hip 20, lift left foot\n"
    start, end = figure(text).poses
    assert start == figure(text, "bridge").poses[0]
    assert [one for one in end.statements if isinstance(one, Angle)] == [
        Angle("hip", "flexion", _number(0), "right"),
        Angle("hip", "flexion", _number(20), "left"),
    ]
    lifts = [one for one in end.statements if isinstance(one, Lift)]
    assert lifts == [Lift(Part("pelvis")), Lift(Part("foot", "left"))]


def test_what_is_restated_replaces_and_the_rest_is_taken() -> None:
    own = "    view front\n    chair 40 cm\n    end lift head\n"
    text = f"{BRIDGE}exercise x\n  do\n    Lift.\n  figure like bridge\n{own}"
    made = figure(text)
    assert made.view == "front" and [pose.role for pose in made.poses] == ["start", "end"]
    assert made.poses[1].statements == (Lift(Part("head")),)
    assert made.arrows == figure(text, "bridge").arrows
    assert made.props == (Prop("chair", "", _number(40)), Prop("mat"))
    assert [line.text for line in made.lines] == ["view front", "chair 40 cm", "end lift head"]


def test_like_goes_through_several_exercises_in_any_order() -> None:
    text = (
        "exercise x\n  do\n    Lift.\n  figure like y\n    end but left knee 10\n"
        "exercise y\n  do\n    Lift.\n  figure like bridge\n    start but feet on chair\n" + BRIDGE
    )
    start, end = figure(text).poses
    assert start.statements[-1] == Contact(Part("foot"), "chair") and len(start.statements) == 2
    assert end.statements[-1] == Angle("knee", "flexion", _number(10), "left")


def test_positions_bring_their_chair_and_mat() -> None:
    head = "exercise x\n  do\n    Lift.\n  figure\n"
    assert figure(f"{head}    start sitting\n").props == (Prop("chair", centimetres=_number(45)),)
    assert figure(f"{head}    chair 40 cm\n    start sitting\n").props == (Prop("chair", centimetres=_number(40)),)
    assert figure(f"{head}    start lying face down\n").props == (Prop("mat"),)
    assert figure(f"{head}    start standing\n").props == ()


def test_a_band_is_fixed_in_front_or_on_the_side_that_is_said() -> None:
    """Any wording of the side comes to one spelling, and a hand is no place on the floor."""
    text = "exercise x\n  do\n    Pull.\n  figure\n    band from right hand to {}\n    start standing\n"
    for written, where in (("anchor", ""), ("anchor on left", "left"), ("anchor on the right side", "right")):
        (band,) = figure(text.format(written)).props
        assert (band.where, band.ends[1]) == (where, "anchor")
    formatted = format_source(Source("p.protocol", text.format("anchor on the right side"))).value
    assert formatted is not None and "to anchor on right\n" in formatted
    assert codes("band from right hand to left hand on right\nstart standing") == ["F102"]


def test_a_variant_inherits_the_figure_and_a_restated_one_replaces_it() -> None:
    text = f"{BRIDGE}exercise x like bridge\nexercise y like bridge\n  figure\n    start standing\n"
    assert figure(text) == figure(text, "bridge")
    assert [pose.position for pose in figure(text, "y").poses] == ["standing"]


def test_a_variant_may_have_no_picture() -> None:
    """`no figure` takes the inherited one away, for the variants of the variant too, until one is stated anew."""
    text = (
        f"{BRIDGE}\nexercise x like bridge\n  no figure\n\nexercise y like x\n"
        "\nexercise z like y\n  figure like bridge\n\nexercise w like z\n"
    )
    found = exercises(text)
    figures = {name: one.figure for name, one in found.items()}
    assert figures["x"] is figures["y"] is None
    bridge, own = figures["bridge"], figures["z"]
    assert bridge is not None and own is not None
    assert own.poses == bridge.poses and figures["w"] == own
    assert format_source(Source("p.protocol", text)).value == text


def test_no_picture_and_one_are_one_line_too_many() -> None:
    text = BRIDGE + "exercise x like bridge\n  no figure\n  figure like bridge\n"
    assert [one.code.id for one in parse(text).diagnostics] == ["T125"]


def test_a_way_to_a_side_is_no_angle() -> None:
    lines = "    start standing\n    end the right foot 12 in to the right\n"
    text = f"{BRIDGE}exercise x\n  do\n    Hop.\n  figure\n{lines}"
    figure = exercises(text)["x"].figure
    assert figure is not None
    end = figure.poses[1]
    assert end.statements == (Distance(Part("foot", "right"), Decimal("30.48"), "right"),)


def test_a_change_may_be_like_what_it_changes() -> None:
    """`change` acts as if the text had been edited, so that the figure of before is the one to start from."""
    text = f"""{BRIDGE}
exercise low bridge like bridge
protocol hips
  version 1.0.0
  review 2026-10-05 by lead, next by 2027-10-05
  source Common practice, no source
  goal lift them
  give bridge
  change bridge
    figure like bridge
      end but left knee 0
    because  one leg is enough
"""
    found = resolve("p.protocol", Files({"p.protocol": text}))
    assert found.value is not None
    assert not [one.message for one in found.diagnostics if one.code.id.startswith("F")]
    changed = found.value.protocols[0].scope.exercises
    knee = Angle("knee", "flexion", _number(0), "left")
    for name in ("bridge", "low bridge"):
        drawn, before = changed[name].figure, found.value.scope.exercises[name].figure
        assert drawn is not None and before is not None
        assert knee in drawn.poses[1].statements and knee not in before.poses[1].statements
        assert drawn.poses[0] == before.poses[0]


@pytest.mark.parametrize("written", ["half-kneeling", "half-kneeling right foot forward", "half kneeling"])
def test_half_kneeling_has_a_foot_in_front(written: str) -> None:
    made = figure(f"exercise x\n  do\n    Lift.\n  figure\n    start {written}\n")
    assert (made.poses[0].position, made.poses[0].forward) == ("half-kneeling", "right")


def test_lengths_and_weights_of_other_units_are_exact() -> None:
    """The international inch and pound: 2.54 cm and 0.45359237 kg by definition."""
    text = "exercise x\n  do\n    Lift.\n  figure\n    step 6 in\n    weight 5 lb on right ankle\n    start standing\n"
    step, weight = figure(text).props
    assert str(step.centimetres) == "15.2400" and str(weight.kilograms) == "2.26796185"


@pytest.mark.parametrize(
    ("lines", "code"),
    [
        ("start standing, hands undr shoulders", "F101"),
        ("start standing, handds on floor", "F102"),
        ("start standing, knes 100", "F103"),
        ("start standing, knees abduction 20", "F104"),
        ("start standing, knees ninety", "F105"),
        ("start standing, knees 400", "F105"),
        ("start standing\nend knees 90\narrow pelvis upp", "F106"),
        ("view sideways\nstart standing", "F107"),
        ("start lying on bak", "F108"),
        ("start standing, lying on back", "F108"),
        ("start knees 90", "F109"),
        ("chair", "F110"),
        ("end knees 90\nstart standing", "F111"),
        ("then knees 90", "F111"),
        ("start standing, hands on wall", "F112"),
        ("start standing, right pelvis on floor", "F113"),
        ("start standing, trunk rotation 30", "F114"),
        ("start standing, hip abduction 30 to left", "F114"),
        ("chair 45\nstart sitting", "F115"),
        ("start standing, knees 30 cm", "F115"),
        ("weight 2 cm on right ankle\nstart standing", "F115"),
        ("chair 45 m\nstart sitting", "F116"),
        ("wall\nstart standing", "F117"),
        ("wall under head\nstart standing", "F117"),
        ("start standing, hands behind pelvis", "F118"),
        ("start standing, knees horizontal", "F118"),
        ("start standing, right foot 30 cm apart", "F118"),
        ("start standing, right foot 30 cm to right", "F118"),
        ("start standing\nend right foot 30 kg to right", "F103"),
        ("start standing\nend right fot 30 cm to right", "F102"),
        ("start standing\nend right foot 300 cm to right", "F116"),
        ("start standing\nend but knees 90", "F119"),
        ("start standing\narrow pelvis up", "F123"),
    ],
)
def test_a_mistake_is_told_once(lines: str, code: str) -> None:
    assert codes(lines) == [code]


def test_every_mistake_of_a_pose_is_told_in_one_run() -> None:
    found = codes("start standing, knes 100, handds on floor, right pelvis on floor, knees abduction 20, hands on wall")
    assert sorted(found) == ["F102", "F103", "F104", "F112", "F113"]


@settings(max_examples=80, deadline=None, suppress_health_check=[HealthCheck.too_slow])
@given(figures.lines, st.booleans())
def test_any_figure_is_read_or_refused_and_written_anew_means_the_same(
    lines: tuple[tree.Statement, ...], like: bool
) -> None:
    """Whatever is put together of the words of a figure: nothing raises, and the formatter changes no meaning."""
    own = tree.FigureLine("figure", tree.Name("bridge") if like else None, lines)
    exercise = tree.Declaration("exercise", tree.Name("x"), None, (own,))
    text = BRIDGE + format_tree(tree.File("p.protocol", (exercise,)))
    loose = text.replace(" hands", " both hands").replace(" feet ", " the foot ")
    loose = re.sub(" on (?!all fours)", "  on the ", loose)
    one, other = (resolve("p.protocol", Files({"p.protocol": written})) for written in (text, loose))
    assert one.value is not None and other.value is not None
    assert one.value.scope.exercises["x"].figure == other.value.scope.exercises["x"].figure
    assert [said.code.id for said in one.diagnostics] == [said.code.id for said in other.diagnostics]


def _number(value: int) -> Decimal:
    return Decimal(value)
