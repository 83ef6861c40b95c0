"""Whatever a person writes, the solver answers: it raises nothing and gives no number that is none."""

from decimal import Decimal
from math import isfinite

from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from protodsl.diagnostics.diagnostic import Severity
from protodsl.figure.body.kinematics import frames_of
from protodsl.figure.body.skeleton import ANGLES
from protodsl.figure.solve.solve import solve
from protodsl.model.figure import (
    JOINTS,
    MIDDLE_PARTS,
    PAIRED_PARTS,
    POSTURES,
    Angle,
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
    Slide,
    Touch,
    Under,
)
from protodsl.model.lists import POSITIONS

SIDES = st.sampled_from(("right", "left", ""))
PARTS = st.one_of(
    st.builds(Part, st.sampled_from(PAIRED_PARTS), SIDES), st.builds(Part, st.sampled_from(MIDDLE_PARTS), st.just(""))
)
NUMBERS = st.integers(-200, 200).map(Decimal)
ANGLE = st.sampled_from([(joint, one) for joint, several in JOINTS.items() for one in several]).flatmap(
    lambda named: st.builds(Angle, st.just(named[0]), st.just(named[1]), st.integers(0, 60).map(Decimal), SIDES, SIDES)
)
STATEMENTS = st.one_of(
    ANGLE,
    st.builds(Contact, PARTS, st.sampled_from(("floor", "chair", "pillow", "wall", "ball"))),
    st.builds(Touch, PARTS, PARTS),
    st.builds(Lift, PARTS),
    st.builds(Slide, PARTS),
    st.builds(Under, PARTS, PARTS),
    st.builds(Line, PARTS, st.sampled_from(("horizontal", "vertical"))),
    st.builds(Lean, st.sampled_from(("forward", "back")), NUMBERS),
    st.builds(
        Distance,
        PARTS,
        NUMBERS,
        st.sampled_from(("apart", "from", "in front of", "behind", "right")),
        st.just(""),
        PARTS,
    ),
    st.builds(Height, PARTS, PARTS),
    st.builds(Posture, st.sampled_from(POSTURES), SIDES),
)
POSES = st.builds(
    Pose,
    st.just("start"),
    st.sampled_from(POSITIONS),
    st.sampled_from(("right", "left", "")),
    st.lists(STATEMENTS, max_size=3).map(tuple),
)


@settings(max_examples=25, deadline=None, suppress_health_check=list(HealthCheck))
@given(POSES, st.lists(STATEMENTS, max_size=2).map(tuple))
def test_any_figure_is_answered(start: Pose, more: tuple[Angle, ...]) -> None:
    found = solve(Figure((), poses=(start, Pose("end", None, "", more))))
    if found.value is None:
        return
    assert not any(one.severity is Severity.ERROR for one in found.diagnostics)
    for pose in found.value.poses:
        assert all(isfinite(value) for frame in pose.frames.values() for value in (*frame.origin, *frame.axes))
        assert all(isfinite(value) for value in (*pose.angles.values(), *pose.centre_of_mass, pose.balanced))


@given(st.dictionaries(st.sampled_from(ANGLES), st.floats(-720, 720)))
def test_any_angles_have_frames(angles: dict[str, float]) -> None:
    """Axes stay at right angles and of length one."""
    for frame in frames_of(angles, (0.0, 0.0, 0.0)).values():
        rows = [frame.axes[at : at + 3] for at in (0, 3, 6)]
        for first in range(3):
            for second in range(3):
                product = sum(a * b for a, b in zip(rows[first], rows[second], strict=True))
                assert abs(product - (first == second)) < 1e-9


def test_a_figure_at_a_wall_that_is_not_there_or_without_a_position_has_no_solution() -> None:
    """Both were said where the figure was read."""
    wall = Pose("start", "standing", "", (Contact(Part("hand"), "wall"),))
    assert solve(Figure((), poses=(wall,))).value is None
    assert solve(Figure((), poses=(Pose("start", None, "", ()),))).value is None
    assert solve(Figure(())).value is None
