"""Figures made by hand from joint angles, for whoever draws them: no solver stands between."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from decimal import Decimal

from protodsl.figure.body.kinematics import frames_of, point_of
from protodsl.figure.body.landmarks import LANDMARKS
from protodsl.figure.body.positions import position_of
from protodsl.figure.body.vectors import after, turn
from protodsl.figure.body.wordings import ARMS
from protodsl.figure.posture import Frame, PlacedProp, SolvedFigure, SolvedPose
from protodsl.model.figure import Angle, Arrow, Figure, Part, Pose, Prop
from protodsl.model.lists import POSITIONS

_SIDED = ("shoulder", "elbow", "forearm", "wrist", "hip", "knee", "ankle", "toe")


def pose(
    role: str,
    position: str,
    angles: Mapping[str, float] = {},
    *,
    lean: float = 0.0,
    at: tuple[float, float] = (0.0, 0.0),
    height: float | None = None,
    sides: Sequence[str] = (),
    forward: str = "",
) -> SolvedPose:
    """A pose: angles by name, for both sides where none is named; the lowest landmark on the floor unless `height`
    is given.

    `lean` pitches the whole body forward in degrees, `at` moves it, `sides` are those that its statements name.
    """
    start = position_of(position, forward)
    found = dict(start.angles)
    for name, degrees in angles.items():
        for side in ("right ", "left ") if name.startswith(_SIDED) else ("",):
            found[side + name] = degrees
    axes = after(turn(1, lean * 3.14159265 / 180), start.axes)
    frames = frames_of(found, (at[0], at[1], 0.0), axes)
    up = -lowest(frames) if height is None else height
    frames = {name: Frame((f.origin[0], f.origin[1], f.origin[2] + up), f.axes) for name, f in frames.items()}
    said = tuple(Angle("knee", "flexion", Decimal(0), side) for side in sides)
    return SolvedPose(Pose(role, position, forward, said), frames, found, (), (0.0, 0.0, 0.0), 5.0)


def lowest(frames: Mapping[str, Frame]) -> float:
    """The height of the lowest landmark."""
    return min(point_of(frames[ball.segment], ball.centre)[2] - ball.radius for ball in LANDMARKS.values())


def figure(
    *poses: SolvedPose,
    view: str = "side",
    props: Sequence[PlacedProp] = (),
    arrows: Sequence[tuple[str, str, str]] = (),
) -> SolvedFigure:
    """A figure of poses; an arrow is a part, its side and a direction."""
    model = Figure(
        (),
        view=view,
        props=tuple(Prop(prop.kind) for prop in props),
        poses=tuple(one.pose for one in poses),
        arrows=tuple(Arrow(Part(name, side), direction) for name, side, direction in arrows),
    )
    return SolvedFigure(model, poses, tuple(props))


CHAIR = PlacedProp("chair", (4.0, 0.0, 0.0), (1.0, 0.0, 0.0), 45.0)
_SEATED = {"shoulder flexion": 25.0, "elbow flexion": 40.0, "hip flexion": 87.0, "knee flexion": 90.0}
_CROOK = {"hip flexion": 52.0, "knee flexion": 100.0, "ankle dorsiflexion": -42.0}
_BANDED = {"elbow flexion": 90.0, "shoulder abduction": 4.0}


def knee_extension() -> SolvedFigure:
    """Sitting, then the right knee straight."""
    start = pose("start", "sitting", _SEATED)
    end = pose("end", "sitting", {**_SEATED, "right knee flexion": 3.0}, sides=("right",))
    return figure(start, end, props=(CHAIR,), arrows=(("foot", "right", "up"),))


def bridge() -> SolvedFigure:
    """Lying on the back with bent knees, then the pelvis lifted."""
    start = pose("start", "lying on back", _CROOK, height=8.7)
    end = pose(
        "end",
        "lying on back",
        {**_CROOK, "hip flexion": 5.0, "neck flexion": 32.0},
        lean=27.0,
        at=(4.0, 0.0),
        height=30.0,
    )
    props = (
        PlacedProp("mat", (0.0, 0.0, 0.0), (-1.0, 0.0, 0.0), 1.0),
        PlacedProp("pillow", (-66.0, 0.0, 0.0), (-1.0, 0.0, 0.0), 5.0),
    )
    return figure(start, end, props=props, arrows=(("pelvis", "", "up"),))


def heel_raise() -> SolvedFigure:
    """Standing on a step, then on the toes."""
    start = pose("start", "standing", {"ankle dorsiflexion": 8.0}, height=100.0)
    end = pose("end", "standing", {"ankle dorsiflexion": -35.0, "toe extension": 35.0}, height=112.0)
    return figure(
        start, end, props=(PlacedProp("step", (18.0, 0.0, 0.0), (-1.0, 0.0, 0.0), 10.0),), arrows=(("heel", "", "up"),)
    )


def abduction() -> SolvedFigure:
    """Standing at a table, seen from the front, then the right leg out to the side."""
    hand = {"left shoulder abduction": 28.0, "left elbow flexion": 25.0}
    start = pose("start", "standing", hand)
    end = pose(
        "end",
        "standing",
        {**hand, "right hip abduction": 30.0},
        height=start.frames["pelvis"].origin[2],
        sides=("right",),
    )
    props = (PlacedProp("table", (0.0, 62.0, 0.0), (0.0, -1.0, 0.0), 90.0),)
    return figure(start, end, view="front", props=props, arrows=(("foot", "right", "out"),))


def rotation_with_band() -> SolvedFigure:
    """Standing with bent elbows and a band between the hands, seen from the front, then the forearms turned out."""
    start = pose("start", "standing", {**_BANDED, "shoulder external rotation": -28.0, "forearm pronation": -60.0})
    end = pose("end", "standing", {**_BANDED, "shoulder external rotation": 45.0, "forearm pronation": -60.0})
    band = PlacedProp("band", (0.0, 0.0, 0.0), (1.0, 0.0, 0.0), 0.0, ("right hand", "left hand"))
    return figure(start, end, view="front", props=(band,), arrows=(("hand", "right", "out"), ("hand", "left", "out")))


def reach() -> SolvedFigure:
    """On all fours, then the right leg and the left arm stretched out."""
    start = pose("start", "on all fours")
    up = {
        "right hip flexion": 0.0,
        "right knee flexion": 0.0,
        "left shoulder flexion": 172.0,
        "left elbow flexion": 0.0,
    }
    end = pose("end", "on all fours", up, height=start.frames["pelvis"].origin[2], sides=("right", "left"))
    mat = PlacedProp("mat", (10.0, 0.0, 0.0), (-1.0, 0.0, 0.0), 1.0)
    return figure(start, end, props=(mat,), arrows=(("foot", "right", "up"),))


def sit_to_stand() -> SolvedFigure:
    """Sitting, leaning forward, standing: three panels."""
    start = pose("start", "sitting", _SEATED)
    lean = pose(
        "then",
        "sitting",
        {**_SEATED, "hip flexion": 118.0, "ankle dorsiflexion": 12.0, "shoulder flexion": 60.0},
        lean=35.0,
    )
    end = pose("end", "standing", at=(42.0, 0.0))
    return figure(start, lean, end, props=(CHAIR,), arrows=(("pelvis", "", "up"),))


def side_support() -> SolvedFigure:
    """Lying on the right side on the forearm, then the pelvis lifted."""
    start = pose("start", "lying on right side", {"right shoulder abduction": 85.0})
    end = pose("end", "lying on right side", {"right shoulder abduction": 70.0}, height=34.0)
    return figure(start, end, arrows=(("pelvis", "", "up"),))


def stick_raise() -> SolvedFigure:
    """Lying on the back with a stick in the hands, then the arms overhead."""
    start = pose("start", "lying on back", {**_CROOK, "shoulder flexion": 60.0, "shoulder abduction": 0.0}, height=8.7)
    end = pose("end", "lying on back", {**_CROOK, "shoulder flexion": 165.0, "shoulder abduction": 0.0}, height=8.7)
    stick = PlacedProp("stick", (0.0, 0.0, 0.0), (1.0, 0.0, 0.0), 0.0, ("right hand", "left hand"))
    return figure(start, end, props=(stick,), arrows=(("hand", "", "up"),))


def curl_with_weight() -> SolvedFigure:
    """Standing with a weight in the right hand, then the elbow bent."""
    start = pose("start", "standing", {"elbow flexion": 8.0})
    end = pose("end", "standing", {"right elbow flexion": 125.0}, sides=("right",))
    weight = PlacedProp("weight", (0.0, 0.0, 0.0), (1.0, 0.0, 0.0), 0.0, ("right hand",), 2.0)
    return figure(start, end, view="three-quarter", props=(weight,), arrows=(("hand", "right", "up"),))


def wall_squat() -> SolvedFigure:
    """Standing with the back at a wall, then down along it."""
    start = pose("start", "standing", {"hip flexion": 25.0, "knee flexion": 20.0})
    end = pose("end", "standing", {"hip flexion": 85.0, "knee flexion": 88.0, "ankle dorsiflexion": 3.0}, at=(0.0, 0.0))
    return figure(
        start,
        end,
        props=(PlacedProp("wall", (-12.0, 0.0, 0.0), (1.0, 0.0, 0.0), 184.0),),
        arrows=(("pelvis", "", "down"),),
    )


def posture(word: str, view: str = "front") -> SolvedFigure:
    """Standing with the arms as one of the words for them says."""
    return figure(pose("start", "standing"), pose("end", "standing", ARMS[word]), view=view)


EXAMPLES = {
    "knee extension": (knee_extension, ("thigh front",)),
    "bridge": (bridge, ("buttocks", "trunk")),
    "heel raise": (heel_raise, ("gastrocnemius",)),
    "abduction": (abduction, ("outer hip",)),
    "rotation with a band": (rotation_with_band, ("rotator cuff",)),
    "reach": (reach, ("buttocks", "back muscles")),
    "sit to stand": (sit_to_stand, ("thigh front", "buttocks")),
    "side support": (side_support, ("trunk side",)),
    "stick raise": (stick_raise, ("joint movement",)),
    "curl with a weight": (curl_with_weight, ("biceps",)),
    "wall squat": (wall_squat, ("thigh front",)),
}


def still(position: str, view: str) -> SolvedFigure:
    """One of lists.POSITIONS as the body rests in it."""
    assert position in POSITIONS
    return figure(pose("start", position), view=view)
