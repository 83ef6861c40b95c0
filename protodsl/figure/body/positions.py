"""The ten positions: which way up the body is, the angles it rests in, and what it then stands, sits or lies on.

Reference angles are drawing choices without a source: they only say what an unwritten angle tends to.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

from protodsl.figure.body.skeleton import SIDES
from protodsl.figure.body.vectors import UNTURNED
from protodsl.figure.posture import STATURE, Matrix

# Which way the body's own x, y and z point, row by row; a figure is seen from its right side, from world -y.
ON_BACK: Matrix = (0.0, 0.0, -1.0, 0.0, 1.0, 0.0, 1.0, 0.0, 0.0)
FACE_DOWN: Matrix = (0.0, 0.0, 1.0, 0.0, 1.0, 0.0, -1.0, 0.0, 0.0)
ON_RIGHT_SIDE: Matrix = (0.0, 0.0, -1.0, -1.0, 0.0, 0.0, 0.0, 1.0, 0.0)
ON_LEFT_SIDE: Matrix = (0.0, 0.0, 1.0, -1.0, 0.0, 0.0, 0.0, -1.0, 0.0)


@dataclass(frozen=True, slots=True)
class Rest:
    """A part that lies on a surface because of the position; `firm` is False where it only rests there if nothing is
    said.
    """

    part: str
    side: str
    surface: str
    firm: bool = True


@dataclass(frozen=True, slots=True)
class Position:
    """`axes` turn the body, `height` is that of the pelvis (cm), `angles` are degrees by name, zero where none is
    given.
    """

    name: str
    axes: Matrix
    height: float
    angles: Mapping[str, float]
    rests: tuple[Rest, ...]


def position_of(name: str, forward: str = "") -> Position:
    """One of lists.POSITIONS; `forward` is the side of the foot in front in half-kneeling. KeyError for a name that
    is none.
    """
    if name == "half-kneeling":
        return _HALF_KNEELING[forward or "right"]
    return _POSITIONS[name]


def both(angles: Mapping[str, float]) -> dict[str, float]:
    """Angles of one limb by their names without a side, for both sides."""
    return {f"{side} {name}": degrees for side in SIDES for name, degrees in angles.items()}


_ARMS_DOWN = {"shoulder abduction": 9.0, "elbow flexion": 12.0}


def _on(*rows: tuple[str, str], firm: bool = True, side: str = "") -> tuple[Rest, ...]:
    return tuple(Rest(part, side, surface, firm) for part, surface in rows)


def _side_lying(side: str, axes: Matrix) -> Position:
    other = "left" if side == "right" else "right"
    angles = {
        f"{side} shoulder flexion": 80.0, f"{side} elbow flexion": 80.0,
        f"{other} shoulder flexion": 15.0, f"{other} shoulder abduction": 4.0, f"{other} elbow flexion": 25.0,
        f"{side} hip abduction": -2.0, f"{other} hip abduction": -2.0,
    }  # fmt: skip
    rests = (
        Rest("pelvis", "", "floor"),
        Rest("shoulder", side, "floor"),
        Rest("ankle", side, "floor"),
        Rest("ankle", other, f"{side} ankle"),
        Rest("head", "", "pillow", firm=False),
        Rest("forearm", side, "floor", firm=False),
    )
    return Position(f"lying on {side} side", axes, 0.10 * STATURE, angles, rests)


def _half_kneeling(forward: str) -> Position:
    behind = "left" if forward == "right" else "right"
    angles = both(_ARMS_DOWN) | {
        f"{forward} hip flexion": 90.0, f"{forward} knee flexion": 90.0,
        f"{behind} knee flexion": 92.0, f"{behind} ankle dorsiflexion": 5.0, f"{behind} toe extension": 60.0,
    }  # fmt: skip
    rests = (Rest("foot", forward, "floor"), Rest("knee", behind, "floor"), Rest("toes", behind, "floor"))
    return Position("half-kneeling", UNTURNED, 0.30 * STATURE, angles, rests)


_LIST: tuple[Position, ...] = (
    Position("standing", UNTURNED, 0.530 * STATURE, both(_ARMS_DOWN), _on(("foot", "floor"))),
    Position(
        "sitting",
        UNTURNED,
        0.32 * STATURE,
        both({"hip flexion": 85, "knee flexion": 85, "shoulder flexion": 25, "shoulder abduction": 8,
              "elbow flexion": 58, "forearm pronation": 50}),
        _on(("seat", "chair"), ("foot", "floor")),
    ),
    Position(
        "long sitting",
        UNTURNED,
        0.06 * STATURE,
        both({"hip flexion": 86, "knee flexion": 3, "shoulder flexion": 25, "shoulder abduction": 8,
              "elbow flexion": 52, "forearm pronation": 50}),
        _on(("seat", "floor"), ("heel", "floor")) + _on(("calf", "floor"), firm=False),
    ),
    Position(
        "lying on back",
        ON_BACK,
        0.06 * STATURE,
        both({"shoulder flexion": -8, "shoulder abduction": 20, "elbow flexion": 5, "forearm pronation": 70})
        | {"neck flexion": 12},
        _on(("upper back", "floor"), ("pelvis", "floor"), ("head", "pillow"))
        + _on(("leg", "floor"), ("arm", "floor"), firm=False),
    ),
    Position(
        "lying face down",
        FACE_DOWN,
        0.06 * STATURE,
        both({"shoulder flexion": -4, "shoulder abduction": 16, "elbow flexion": 6,
              "ankle dorsiflexion": -45, "knee flexion": 6}) | {"neck flexion": -4},
        _on(("chest", "floor"), ("pelvis", "floor"))
        + _on(("knee", "floor"), ("instep", "floor"), ("arm", "floor"), ("head", "floor"), firm=False),
    ),
    _side_lying("right", ON_RIGHT_SIDE),
    _side_lying("left", ON_LEFT_SIDE),
    Position(
        "on all fours",
        FACE_DOWN,
        0.29 * STATURE,
        both({"hip flexion": 90, "knee flexion": 90, "ankle dorsiflexion": -45, "shoulder flexion": 90,
              "forearm pronation": 90, "wrist extension": 78, "elbow flexion": 3}) | {"neck flexion": -12},
        _on(("hand", "floor"), ("knee", "floor"), ("instep", "floor")),
    ),
    Position(
        "kneeling",
        UNTURNED,
        0.29 * STATURE,
        both(_ARMS_DOWN | {"knee flexion": 90, "ankle dorsiflexion": -40}),
        _on(("knee", "floor"), ("instep", "floor")),
    ),
)  # fmt: skip
_POSITIONS: dict[str, Position] = {one.name: one for one in _LIST}
_HALF_KNEELING: dict[str, Position] = {side: _half_kneeling(side) for side in SIDES}
