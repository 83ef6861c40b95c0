"""Poses that nobody would write: whatever the joints do and whatever stands around, there is a drawing."""

from __future__ import annotations

from random import Random
from xml.etree import ElementTree

import pytest

from protodsl.figure.body.kinematics import frames_of
from protodsl.figure.body.positions import position_of
from protodsl.figure.body.skeleton import ANGLES
from protodsl.figure.draw.draw import draw
from protodsl.figure.draw.targets import PATCHES
from protodsl.figure.posture import PlacedProp, SolvedPose
from protodsl.model.figure import MIDDLE_PARTS, PAIRED_PARTS, PROPS, VIEWS, Pose
from protodsl.model.lists import POSITIONS
from tests.unit.figure.draw.bodies import figure

_ENDS = ((), ("right hand", "left hand"), ("hand",), ("right foot", "anchor"), ("knee",), ("nothing known",))
_WAYS = ((1.0, 0.0, 0.0), (0.0, 1.0, 0.0), (-1.0, 0.0, 0.0), (0.0, -1.0, 0.0))


@pytest.mark.parametrize("seed", range(16))
def test_there_is_a_drawing(seed: int) -> None:
    """Joints anywhere between -40 and 120 degrees, any three things, any arrow: an SVG that parses."""
    chance = Random(seed)
    paired = [(name, side) for name in PAIRED_PARTS for side in ("", "right")]
    part = chance.choice([*paired, *((name, "") for name in MIDDLE_PARTS)])
    solved = figure(
        _pose("start", chance),
        _pose("end", chance),
        view=chance.choice(VIEWS),
        props=[_prop(kind, chance) for kind in chance.sample(PROPS, 3)],
        arrows=((*part, "up"),),
    )
    svg = draw(solved, chance.sample(sorted(PATCHES), 2), mirror=chance.random() < 0.5).svg
    ElementTree.fromstring(svg)
    assert "nan" not in svg and "inf" not in svg


def _pose(role: str, chance: Random) -> SolvedPose:
    position = position_of(chance.choice(POSITIONS))
    angles = dict(position.angles) | {name: chance.uniform(-40, 120) for name in chance.sample(ANGLES, 20)}
    frames = frames_of(angles, (chance.uniform(-30, 30), 0.0, position.height), position.axes)
    return SolvedPose(Pose(role, position.name, "", ()), frames, angles, (), (0.0, 0.0, 0.0), 0.0)


def _prop(kind: str, chance: Random) -> PlacedProp:
    at = (chance.uniform(-60, 60), chance.uniform(-60, 60), 0.0)
    return PlacedProp(kind, at, chance.choice(_WAYS), chance.uniform(3, 80), chance.choice(_ENDS))
