"""What a reader could take for something else: a cuff for a boot, a far limb that turns dark, an arrow on a wall.

Each was seen on a sheet printed in grey; there is no source but the eye.
"""

from __future__ import annotations

from collections.abc import Mapping
from math import hypot

import pytest

from protodsl.figure.draw import ink
from protodsl.figure.draw.camera import camera
from protodsl.figure.draw.curve import Pen
from protodsl.figure.draw.layers import Layer
from protodsl.figure.draw.panels import Panel, sheet
from protodsl.figure.draw.regions import angle_from
from protodsl.figure.draw.solid import Skin
from protodsl.figure.posture import PlacedProp, SolvedFigure
from tests.unit.figure.draw.bodies import figure, pose
from tests.unit.figure.draw.test_drawing import _luminance

_WALL = PlacedProp("wall", (30.0, 0.0, 0.0), (-1.0, 0.0, 0.0), 184.0)


def _weight(*ends: str) -> PlacedProp:
    return PlacedProp("weight", (0.0, 0.0, 0.0), (1.0, 0.0, 0.0), 0.0, ends, 1.0)


def _panels(solved: SolvedFigure) -> tuple[Panel, ...]:
    return sheet(solved, ()).panels


def _painted(panel: Panel) -> list[Layer]:
    return [layer for one in panel.things for layer in one.paint(Pen(0, 0))]


def test_a_cuff_has_neither_the_tone_of_a_shoe_nor_that_of_skin() -> None:
    """In grey, by relative luminance (WCAG 2.2, definition); and it sits above the shoe."""
    (panel,) = _panels(figure(pose("start", "standing"), props=(_weight("right ankle"),)))
    cuff = _painted(panel)[0]
    assert _luminance(cuff.fill) - _luminance(ink.NEAR.shoe) > 0.3
    assert _luminance(ink.NEAR.skin) - _luminance(cuff.fill) > 0.3
    (thing,) = panel.things
    assert thing.box()[3] < panel.body.box()[3] - 8


def test_of_two_hand_weights_the_far_one_is_behind_the_body() -> None:
    """And fainter; from the front both are alike."""
    side = _panels(figure(pose("start", "standing"), props=(_weight("right hand", "left hand"),)))[0]
    assert [(one.before, one.paint(Pen(0, 0))[0].line) for one in side.things] == [(True, ink.INK), (False, ink.FAINT)]
    front = _panels(figure(pose("start", "standing"), view="front", props=(_weight("right hand", "left hand"),)))[0]
    assert all(one.before for one in front.things)


@pytest.mark.parametrize("adduction", [0.0, -3.0, -6.0])
def test_a_far_limb_has_one_tone_in_a_figure(adduction: float) -> None:
    """A few degrees at the hip, which only keep the balance, turn no leg dark from one panel to the next."""
    start = pose("start", "standing", {"hip abduction": adduction})
    end = pose("end", "standing", {"right hip flexion": 70.0, "right knee flexion": 80.0})
    first, second = _panels(figure(start, end))
    assert first.body.far == second.body.far == {"left arm", "left leg"}


@pytest.mark.parametrize("part", ["knee", "toes", "elbow"])
def test_an_arrow_keeps_off_a_wall(part: str) -> None:
    """What goes towards a wall has its arrow behind or beside it, not on the wall."""
    end = pose("end", "standing", at=(6.0, 0.0))
    last = _panels(figure(pose("start", "standing"), end, props=(_WALL,), arrows=((part, "right", "forward"),)))[-1]
    (line,), (wall,) = last.arrows, last.things
    left, _, right, _ = wall.box()
    assert all(not left < x < right for x, _ in line)


def test_an_arrow_keeps_off_a_stick_all_along() -> None:
    """Not only off its ends."""
    held: Mapping[str, float] = {"elbow flexion": 90.0, "shoulder abduction": 20.0}
    stick = PlacedProp("stick", (0.0, 0.0, 0.0), (1.0, 0.0, 0.0), 0.0, ("right hand", "left hand"))
    start = pose("start", "standing", held)
    end = pose("end", "standing", {**held, "right shoulder external rotation": 30.0})
    last = _panels(figure(start, end, view="front", props=(stick,), arrows=(("hand", "right", "out"),)))[-1]
    (ax, ay), (bx, by) = last.things[0].corners
    along = [(ax + (bx - ax) * at / 20, ay + (by - ay) * at / 20) for at in range(21)]
    assert min(hypot(x - a, y - b) for x, y in last.arrows[0] for a, b in along) > 5


def test_two_poses_much_alike_have_an_arrow_that_nobody_wrote() -> None:
    """Of the hand that moves; none where the movement is plain, nor where there is hardly any."""
    rest = {"elbow flexion": 60.0}
    start = pose("start", "standing", rest)
    lifted = pose("end", "standing", {**rest, "right elbow flexion": 75.0})
    assert len(_panels(figure(start, lifted))[-1].arrows) == 1
    assert _panels(figure(start, pose("end", "standing", {"elbow flexion": 130.0})))[-1].arrows == ()
    assert _panels(figure(start, pose("end", "standing", rest)))[-1].arrows == ()


def test_a_patch_seen_edge_on_counts_as_facing_the_viewer_a_little() -> None:
    """One that faces away does not."""
    frame, seen = pose("start", "standing").frames["right shank"], camera("side")
    towards = Skin("right shank", 0.5, (0.0, 0.0, 1.0), (0.0, 0.0, 0.0))
    assert angle_from(frame, seen, (-1.0, 0.0, 0.0))(towards) < 79
    assert angle_from(frame, seen, (0.0, 1.0, 0.0))(towards) > 150
