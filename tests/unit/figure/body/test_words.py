"""Every word for a part, a joint or a posture means something for the body, and limits are those that are published."""

import pytest

from protodsl.figure.body.landmarks import LANDMARKS
from protodsl.figure.body.limits import CONFIRMED, FROM_MEMORY, LIMITS, beyond_anatomy, normal_range, plain_name
from protodsl.figure.body.parts import lifted, measured, touching
from protodsl.figure.body.skeleton import ANGLES
from protodsl.figure.body.wordings import ARMS, FIXED_BY, REACHES, RELEASED, angles_of
from protodsl.model.figure import JOINTS, MIDDLE_PARTS, PAIRED_PARTS, POSTURES
from protodsl.model.lists import POSITIONS
from tests.evidence.rows import oracle

# Directions, not angles: what the solver does with them is in tests/unit/figure/solve.
DIRECTED = {"trunk upright", "look ahead"}


@pytest.mark.parametrize("position", POSITIONS)
def test_every_part_has_landmarks_in_every_position(position: str) -> None:
    for part in PAIRED_PARTS:
        for side in ("right", "left", ""):
            assert touching(part, side, position) and set(touching(part, side, position)) <= LANDMARKS.keys()
            assert lifted(part, side, position) <= LANDMARKS.keys()
            assert measured(part, side) in LANDMARKS
    for part in MIDDLE_PARTS:
        assert touching(part, "", position) and set(touching(part, "", position)) <= LANDMARKS.keys()
        assert lifted(part, "", position) <= LANDMARKS.keys()
        assert measured(part, "") in LANDMARKS


@pytest.mark.parametrize(("joint", "movement"), [(joint, one) for joint, several in JOINTS.items() for one in several])
def test_every_movement_fixes_angles_of_the_body(joint: str, movement: str) -> None:
    fixed = angles_of(joint, movement, 30.0, "", "right")
    assert fixed and set(fixed) <= set(ANGLES)
    assert sum(abs(value) for value in fixed.values()) == pytest.approx(
        60.0 if any(name.startswith("right ") for name in fixed) else 30.0
    )


def test_opposite_movements_and_sides_have_opposite_signs() -> None:
    assert angles_of("hip", "extension", 15.0, "right") == {"right hip flexion": -15.0}
    assert angles_of("ankle", "plantarflexion", 30.0, "left") == {"left ankle dorsiflexion": -30.0}
    assert angles_of("neck", "rotation", 40.0, "", "left") == {"neck rotation right": -40.0}
    trunk = angles_of("trunk", "side bending", 30.0, "", "left")
    assert trunk == {"lower back side bending right": -15.0, "upper back side bending right": -15.0}


def test_every_posture_means_something() -> None:
    assert FIXED_BY.keys() | ARMS.keys() | DIRECTED == set(POSTURES)


def test_tables_name_angles_of_the_body() -> None:
    for table in (*ARMS.values(), *REACHES.values(), *RELEASED.values(), *FIXED_BY.values()):
        assert {name if name in ANGLES else f"right {name}" for name in table} <= set(ANGLES) | {"right pelvis forward"}


@pytest.mark.parametrize("name", sorted({plain_name(angle) for angle in ANGLES}))
def test_a_limit_that_names_the_regulation_is_confirmed_there(name: str) -> None:
    """38 CFR 4.71, plates I and II; every other limit says that it is from memory."""
    limit = LIMITS[name]
    ends = ((limit.above, limit.high, limit.source_high), (limit.below, -limit.low, limit.source_low))
    for movement, degrees, source in ends:
        assert source in (CONFIRMED, FROM_MEMORY)
        if source == CONFIRMED:
            assert degrees == float(oracle("05_rom", f"va_{limit.joint}_{movement}".replace(" ", "_")))


def test_what_no_body_does() -> None:
    """The project's own rule: 20 degrees past the normal range, a few joints more."""
    assert beyond_anatomy("right knee flexion", 165) and not beyond_anatomy("right knee flexion", 155)
    assert beyond_anatomy("left elbow flexion", -40) and not beyond_anatomy("left elbow flexion", -10)


def test_weight_pushes_a_joint_further() -> None:
    assert normal_range("right ankle dorsiflexion")[1] == 20
    assert normal_range("right ankle dorsiflexion", loaded=True)[1] == 40
    assert normal_range("right ankle dorsiflexion", instep=True)[0] == -65
