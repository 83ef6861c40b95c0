"""What works, striped: inside its part, on the side it belongs to, named or said to be missing."""

from __future__ import annotations

import re
from math import hypot
from pathlib import Path

import pytest

from protodsl.figure.draw.camera import camera
from protodsl.figure.draw.figure_body import INSET, Body, body_of
from protodsl.figure.draw.targets import PATCHES
from protodsl.figure.draw.works import regions, shown
from protodsl.model.figure import VIEWS
from tests.unit.figure.draw.bodies import pose

_LIBRARY = Path(__file__).parents[4] / "protocols_demo" / "library"
# Targets of the demo that are no place on the skin.
_NO_PLACE = {"balance", "fitness", "landing", "joint movement", "warm-up"}


def _seen(view: str, position: str = "standing") -> Body:
    return body_of(pose("start", position).frames, camera(view), view)


@pytest.mark.parametrize("view", VIEWS)
def test_patches_and_stripes_stay_inside_their_part(view: str) -> None:
    """No place of a patch lies past the line of its part, none of a stripe past the patch's own border."""
    body = _seen(view)
    # One name for each patch: several names may mean the same.
    for target in {patch: name for name, patch in PATCHES.items()}.values():
        for region in regions(body, [target]):
            solid = body.parts[region.part].solid
            for x, y in (at for loop in region.loops for at in loop):
                assert solid.distance(x, y) < 0.25 - INSET / 2, target
            for (ax, ay), (bx, by) in region.stripes:
                for share in (0.0, 0.25, 0.5, 0.75, 1.0):
                    assert solid.distance(ax + (bx - ax) * share, ay + (by - ay) * share) < 0, target


@pytest.mark.parametrize(
    ("target", "visible", "hidden"),
    [
        ("quadriceps", "front", "back"),
        ("hamstrings", "back", "front"),
        ("calf", "back", "front"),
        ("gluteals", "back", "front"),
        ("abdominals", "front", "back"),
        ("back extensors", "back", "front"),
        ("chest", "front", "back"),
        ("shoulder blade", "back", "front"),
        ("biceps", "front", "back"),
        ("triceps", "back", "front"),
        ("shin", "front", "back"),
    ],
)
def test_a_muscle_is_seen_from_its_own_side(target: str, visible: str, hidden: str) -> None:
    """Muscles of the front are seen from the front and not from the back, and the other way round."""
    assert shown(_seen(visible), regions(_seen(visible), [target]))
    assert not shown(_seen(hidden), regions(_seen(hidden), [target]))


@pytest.mark.parametrize("target", ["quadriceps", "hamstrings", "calf", "deltoid", "outer hip", "rotator cuff"])
def test_the_right_side_alone(target: str) -> None:
    """A one-sided exercise marks the right limb, seen from the front on the left of the page."""
    for view, sign in (("front", -1), ("back", 1)):
        body = _seen(view)
        middle = body.seen.point(body.frames["pelvis"].origin)[0]
        for region in regions(body, [target], ("right",)):
            assert all(sign * (x - middle) > -1.0 for loop in region.loops for x, _ in loop)


def test_what_an_arm_covers_does_not_count_as_shown() -> None:
    """A belly seen from the side behind an arm is striped where it is seen, and only that counts."""
    body = _seen("side")
    found = regions(body, ["side of the waist"])
    whole = sum(hypot(b[0] - a[0], b[1] - a[1]) for region in found for a, b in region.stripes)
    assert whole > 8


def test_every_target_of_the_demo_is_known_or_no_place() -> None:
    """The table knows the targets that the demo's library declares."""
    names = {
        found[1].strip()
        for file in _LIBRARY.glob("*.protocol")
        for found in re.finditer(r"^target ([^:\n]+):", file.read_text(encoding="utf-8"), re.MULTILINE)
    }
    assert len(names) > 15
    assert {name for name in names if name not in PATCHES} == _NO_PLACE


def test_an_unknown_target_has_no_region() -> None:
    """What the table does not know is not drawn."""
    assert regions(_seen("front"), ["balance", "something else"]) == ()
