"""A figure written for the other side comes out as the mirror image."""

from re import sub

import pytest

from protodsl.figure.posture import SEGMENTS, SolvedPose
from protodsl.figure.solve.solve import solve
from tests.unit.figure.solve.reading import figure

# World axes of somebody on the other side are those of a mirror turned round: only what lies in the body is compared
# there.
UPRIGHT = [
    "start standing\nend lift right foot, right hip 40, right knee 80",
    "table 90 cm on left\nstart standing, left hand on table\nend lift right foot, right hip abduction 30",
    "start half-kneeling right foot forward, trunk upright\nend right knee 110",
    "start on all fours\nend right hip 0, right knee 0, lift right leg, lift left hand, left shoulder 170",
    "start sitting, right hand on right thigh, trunk rotation 20 to right\nend lift right foot, right knee 0",
    "start lying on back, knees 100, feet flat on floor\nend hips 0, lift pelvis, lift left foot, left knee 0",
]
SIDE_LYING = ["start lying on right side, knees 90, hips 45\nend left hip external rotation 30"]


def mirrored(text: str) -> str:
    """The same for the other side."""
    return sub(r"\b(right|left)\b", lambda found: "left" if found[0] == "right" else "right", text)


def other(name: str) -> str:
    """The name of what is on the other side; a bend to the right becomes one to the left by its sign."""
    side, _, rest = name.partition(" ")
    return f"{'left' if side == 'right' else 'right'} {rest}" if side in ("right", "left") else name


def both(text: str) -> list[tuple[SolvedPose, SolvedPose]]:
    """Each pose with its mirror image."""
    one, two = solve(figure(text)).value, solve(figure(mirrored(text))).value
    assert one is not None and two is not None
    return list(zip(one.poses, two.poses, strict=True))


@pytest.mark.parametrize("text", UPRIGHT + SIDE_LYING)
def test_angles_are_mirrored(text: str) -> None:
    for one, two in both(text):
        for name, value in one.angles.items():
            sign = -1 if name.endswith("right") else 1
            assert two.angles[other(name)] == pytest.approx(sign * value, abs=0.2), name


@pytest.mark.parametrize("text", UPRIGHT)
def test_places_are_mirrored(text: str) -> None:
    for one, two in both(text):
        for name in SEGMENTS:
            x, y, z = one.frames[name].origin
            assert two.frames[other(name)].origin == pytest.approx((x, -y, z), abs=0.2), name
