"""A figure in words: every position, statement, part and prop has its words, on either side."""

from __future__ import annotations

import itertools
from decimal import Decimal

import pytest

from protodsl.handout.figure_clauses import clause
from protodsl.handout.figure_words import alternative, captions
from protodsl.handout.phrase import Phrase
from protodsl.localise.catalogue import catalogue
from protodsl.localise.phrases import phrase
from protodsl.localise.voice import Voice
from protodsl.model.figure import (
    DIRECTIONS,
    JOINTS,
    MIDDLE_PARTS,
    PAIRED_PARTS,
    POSTURES,
    PROPS,
    SURFACES,
    Angle,
    Arrow,
    Contact,
    Distance,
    Figure,
    Height,
    Lean,
    Lift,
    Line,
    Part,
    Pose,
    Posture,
    Prop,
    Slide,
    Statement,
    Touch,
    Under,
)
from protodsl.model.lists import POSITIONS
from protodsl.model.protocol import Scope
from protodsl.model.text import Prose

_SIDES = ("", "right", "left")
_PARTS = (*(Part(name, side) for name in PAIRED_PARTS for side in _SIDES), *(Part(name) for name in MIDDLE_PARTS))
_HAND, _FOOT = Part("hand", "right"), Part("foot", "left")


def _said(one: Phrase) -> str:
    spoken = catalogue("en")
    assert spoken is not None
    return phrase(Voice(spoken, Scope(), "cm", {}), one)


def _of(*statements: Statement, position: str | None = "standing", mirror: bool = False) -> str:
    return _said(alternative(Figure((), poses=(Pose("start", position, "", statements),)), mirror))


def test_a_whole_figure() -> None:
    """Poses in order, then what is used, what moves and what the stripes mark: sentences, every one."""
    figure = Figure(
        (),
        props=(Prop("mat"), Prop("pillow", "under", ends=(Part("head"),))),
        poses=(
            Pose(
                "start", "lying on back", "", (Angle("knee", "flexion", Decimal(100)), Contact(Part("foot"), "floor"))
            ),
            Pose("end", None, "", (Angle("hip", "flexion", Decimal(0)), Lift(Part("pelvis")))),
        ),
        arrows=(Arrow(Part("pelvis"), "up"),),
    )
    assert _said(alternative(figure, shaded=(Prose("buttocks", "library/target"),))) == (
        "Start: lying on the back, both knees bend to 100 degrees and both feet rest on the floor. "
        "End: both hips are straight and the pelvis lifts off. Things used: a pillow under the head. "
        "Movement: the pelvis moves up. Stripes mark what works: buttocks."
    )


@pytest.mark.parametrize("position", POSITIONS)
def test_every_position(position: str) -> None:
    """Each position has words of its own."""
    assert _of(position=position)[0].isupper()
    assert len({_of(position=one) for one in POSITIONS}) == len(POSITIONS)


@pytest.mark.parametrize("joint", JOINTS)
def test_every_movement(joint: str) -> None:
    """Each movement of each joint, on each side, from above to below nought, is said with its angle."""
    sides = ("",) if joint in ("neck", "trunk", "lower back", "upper back") else _SIDES
    for movement, side, degrees in itertools.product(JOINTS[joint], sides, (-10, 0, 35)):
        for towards in ("right", "left") if movement in ("side bending", "rotation") else ("",):
            text = _said(clause(Angle(joint, movement, Decimal(degrees), side, towards)))
            assert str(abs(degrees)) in text or degrees == 0
            assert side in text


def test_below_nought_is_the_movement_the_other_way() -> None:
    """Minus 15 degrees of dorsiflexion are 15 of plantarflexion (neutral-zero method)."""
    below = _of(Angle("ankle", "dorsiflexion", Decimal(-15), "right"))
    assert below == _of(Angle("ankle", "plantarflexion", Decimal(15), "right"))


@pytest.mark.parametrize("part", _PARTS, ids=str)
def test_every_part(part: Part) -> None:
    """Each part can lift, slide, touch, be above, be level, be measured and move; one part is said in the singular."""
    several = (not part.side and part.name not in MIDDLE_PARTS) or part.name in ("toes", "fingers")
    assert ("lift off" if several else "lifts off") in _of(Lift(part))
    for statement in (
        Slide(part), Touch(part, _HAND), Touch(_HAND, part), Under(part, _FOOT), Line(part, "horizontal"),
        Line(part, "vertical"), Height(part, _HAND), Distance(part, Decimal(30), "apart"),
        Distance(part, Decimal(30), "in front of", other=_FOOT), Distance(part, Decimal(30), "behind", other=_FOOT),
        Distance(part, Decimal(30), "from", other=_FOOT),
    ):  # fmt: skip
        assert part.side in _of(statement)
    for surface in SURFACES:
        assert surface in _of(Contact(part, surface))
        assert surface in _of(Distance(part, Decimal(10), "from", surface))
    assert "edge" in _of(Contact(part, "step", edge=True))


@pytest.mark.parametrize("name", POSTURES)
def test_every_posture(name: str) -> None:
    """Words for the whole body are said, those for the arms of one side or both."""
    assert _of(Posture(name))
    if name.startswith(("arms", "hands")):
        assert "right" in _of(Posture(name, "right")) and "both" in _of(Posture(name))


@pytest.mark.parametrize("kind", [kind for kind in PROPS if kind != "mat"])
def test_every_prop(kind: str) -> None:
    """Each thing is named, with where it stands, how high it is, what it weighs and what holds it."""
    for prop in (
        Prop(kind),
        *(Prop(kind, where) for where in ("in front", "behind", "left", "right")),
        Prop(kind, "", Decimal(15)),
        Prop(kind, "", None, Decimal(2), (_HAND,)),
        Prop(kind, "", None, None, (_HAND, _FOOT)),
        *(Prop(kind, where, None, None, (_HAND,)) for where in ("under", "around")),
        Prop(kind, "between", None, None, (_HAND, _FOOT)),
        Prop(kind, "", None, None, (_HAND, "anchor")),
    ):
        text = _said(alternative(Figure((), props=(prop,), poses=(Pose("start", "standing", "", ()),))))
        assert kind in text and (not prop.ends or "hand" in text)


@pytest.mark.parametrize("direction", DIRECTIONS)
def test_every_arrow(direction: str) -> None:
    """Each direction of an arrow is said of the part that it belongs to."""
    poses = (Pose("start", "standing", "", ()), Pose("end", None, "", ()))
    text = _said(alternative(Figure((), poses=poses, arrows=(Arrow(_FOOT, direction),))))
    assert "the left foot moves" in text


def test_the_other_side() -> None:
    """For a left prescription every side is the other one, degrees and centimetres stay."""
    statements = (
        Angle("knee", "flexion", Decimal(90), "right"), Angle("trunk", "rotation", Decimal(20), "", "left"),
        Touch(_HAND, _FOOT), Lean("forward", Decimal(10)),
    )  # fmt: skip
    plain, mirrored = _of(*statements), _of(*statements, mirror=True)
    swapped = plain.replace("right", "?").replace("left", "right").replace("?", "left")
    assert mirrored == swapped != plain
    assert "right side" in _of(position="lying on left side", mirror=True)


def test_captions() -> None:
    """A caption a panel, with its number; none for a single one; one for a pose over the shadow of another."""
    assert [_said(one) for one in captions(("start", "then", "end"))] == ["1 Start", "2 Then", "3 End"]
    assert captions(("start",)) == ()
    assert len(captions(("end",), overlaid=True)) == 1
