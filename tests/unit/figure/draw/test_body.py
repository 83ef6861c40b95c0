"""The body as it is seen: proportions, the order of its parts, far limbs, seams and flesh where things touch it."""

from __future__ import annotations

import pytest

from protodsl.figure.body.kinematics import point_of
from protodsl.figure.body.landmarks import LANDMARKS
from protodsl.figure.draw.camera import camera
from protodsl.figure.draw.contour import area, inside
from protodsl.figure.draw.figure_body import Body, body_of, creases
from protodsl.figure.draw.shape import PARTS
from protodsl.model.figure import VIEWS
from protodsl.model.lists import POSITIONS
from tests.unit.figure.draw.bodies import pose

# What a surface touches must lie where the solver has it: within so many centimetres of paper-thin truth.
_NEAR = 1.0


def _seen(position: str, view: str, angles: dict[str, float] | None = None) -> Body:
    return body_of(pose("start", position, angles or {}).frames, camera(view), view)


@pytest.mark.parametrize("view", VIEWS)
@pytest.mark.parametrize("position", POSITIONS)
def test_every_part_has_one_closed_outline(position: str, view: str) -> None:
    """In all ten positions and four views each part is one region with an area."""
    body = _seen(position, view)
    assert set(body.outlines) == set(PARTS) == set(body.order)
    for name, loops in body.outlines.items():
        assert len(loops) == 1, name
        assert -area(loops[0]) > 60, name


def test_standing_is_a_stature_high() -> None:
    """From crown to sole 170 cm, the hair not counted, within 2 cm."""
    _, top, _, bottom = _seen("standing", "front").box()
    assert bottom - top == pytest.approx(170, abs=3)


def test_the_near_side_is_the_right_one() -> None:
    """A side view is from the right: the right arm is painted after the trunk, the left one before it and fainter."""
    body = _seen("standing", "side")
    at = body.order.index
    assert at("left arm") < at("trunk") < at("right arm")
    assert body.far == {"left arm", "left leg"}


@pytest.mark.parametrize("view", ["front", "back"])
def test_no_limb_is_far_where_both_face_the_camera(view: str) -> None:
    """From the front and from the back both sides are drawn alike."""
    assert _seen("standing", view).far == frozenset()


def test_arms_before_the_chest_and_behind_the_back() -> None:
    """From the front, forearms held before the trunk cover it; from the back the trunk covers them."""
    angles = {"elbow flexion": 110.0, "shoulder external rotation": -70.0}
    front, back = _seen("standing", "front", angles), _seen("standing", "back", angles)
    assert front.order.index("trunk") < front.order.index("right arm")
    assert back.order.index("right arm") < back.order.index("trunk")


@pytest.mark.parametrize("position", POSITIONS)
def test_flesh_is_drawn_where_it_touches(position: str) -> None:
    """The undersides of landmarks that can touch a surface lie on or in the drawn outline, not in the air beside it."""
    start = pose("start", position)
    body = body_of(start.frames, camera("side"), "side")
    for name in ("heel", "toes", "palm", "seat", "upper back", "chest", "kneecap", "back of head", "forehead"):
        for side in ("right ",) if f"right {name}" in LANDMARKS else ("",):
            ball = LANDMARKS[side + name]
            x, y, z = point_of(start.frames[ball.segment], ball.centre)
            px, py, _ = body.seen.point((x, y, z - ball.radius))
            assert body.distance(px, py) < _NEAR, name


def test_a_folded_arm_shows_its_fold() -> None:
    """A bent elbow whose forearm lies over the upper arm has a line within the arm; a straight one has none."""
    folded = _seen("standing", "side", {"elbow flexion": 150.0})
    assert creases(folded.parts["right arm"])
    assert creases(_seen("standing", "side").parts["right arm"]) == []


def test_hair_and_nose_say_where_the_face_is() -> None:
    """The head's outline reaches farthest forward at the nose, below the hair."""
    body = _seen("standing", "side")
    (loop,) = body.outlines["head"]
    nose = max(loop)
    crown = min(loop, key=lambda at: at[1])
    assert nose[1] > crown[1] + 8 and not inside(loop, (nose[0] + 0.5, nose[1]))
