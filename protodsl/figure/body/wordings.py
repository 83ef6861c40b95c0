"""What written angles and whole-body words mean for the body's own angles."""

from __future__ import annotations

from collections.abc import Mapping

from protodsl.figure.body.parts import sides_of

# How an angle of the whole trunk is shared between lower and upper back: in the proportion of their ranges.
_TRUNK: dict[str, tuple[float, float]] = {"flexion": (0.65, 0.35), "side bending": (0.5, 0.5), "rotation": (0.25, 0.75)}

# The movement that counts downwards, and the angle it is measured by.
_OPPOSITES: dict[tuple[str, str], str] = {
    ("hip", "extension"): "flexion", ("hip", "adduction"): "abduction",
    ("hip", "internal rotation"): "external rotation",
    ("knee", "extension"): "flexion", ("ankle", "plantarflexion"): "dorsiflexion", ("ankle", "eversion"): "inversion",
    ("toe", "flexion"): "extension", ("shoulder", "extension"): "flexion", ("shoulder", "adduction"): "abduction",
    ("shoulder", "internal rotation"): "external rotation", ("elbow", "extension"): "flexion",
    ("forearm", "supination"): "pronation", ("wrist", "flexion"): "extension",
    ("wrist", "ulnar deviation"): "radial deviation",
    ("neck", "extension"): "flexion", ("lower back", "extension"): "flexion", ("upper back", "extension"): "flexion",
    ("trunk", "extension"): "flexion",
}  # fmt: skip
_SPINE = ("neck", "lower back", "upper back", "trunk")


def angles_of(joint: str, movement: str, degrees: float, side: str = "", towards: str = "") -> dict[str, float]:
    """The body's angles, in degrees, that one written angle fixes; KeyError never: joint and movement are from
    JOINTS.
    """
    up = _OPPOSITES.get((joint, movement), movement)
    value = -degrees if up != movement else degrees
    if joint not in _SPINE:
        return {f"{one} {joint} {up}": value for one in sides_of(side)}
    if up != "flexion":
        value = -value if towards == "left" else value
    name = up if up == "flexion" else f"{up} right"
    if joint == "trunk":
        lower, upper = _TRUNK[up]
        return {f"lower back {name}": value * lower, f"upper back {name}": value * upper}
    return {f"{joint} {name}": value}


_STRAIGHT_TRUNK: dict[str, float] = {
    f"{joint} {movement}": 0.0
    for joint in ("lower back", "upper back")
    for movement in ("flexion", "side bending right", "rotation right")
}
# Angles that a word for the whole body fixes, those with a side by their name without it.
FIXED_BY: dict[str, Mapping[str, float]] = {
    "trunk straight": _STRAIGHT_TRUNK,
    "body straight": _STRAIGHT_TRUNK | {"hip flexion": 0.0, "knee flexion": 0.0},
}
# Angles that a word for the arms tends to; a contact or a written angle goes before.
ARMS: dict[str, Mapping[str, float]] = {
    "arms by sides": {"shoulder abduction": 9, "elbow flexion": 10},
    "arms forward": {"shoulder flexion": 90, "elbow flexion": 3},
    "arms overhead": {"shoulder flexion": 172, "shoulder abduction": 3, "elbow flexion": 3},
    "arms across chest": {"shoulder flexion": 15, "shoulder abduction": -8, "shoulder external rotation": -65,
                          "elbow flexion": 123, "forearm pronation": -24, "wrist extension": -10},
    "hands on hips": {"shoulder flexion": -28, "shoulder abduction": 45, "shoulder external rotation": -39,
                      "elbow flexion": 101, "forearm pronation": 20},
    "hands behind head": {"shoulder flexion": 28, "shoulder abduction": 145, "shoulder external rotation": 88,
                          "elbow flexion": 134, "forearm pronation": -26, "wrist extension": 5},
}  # fmt: skip
ARM_ANGLES: tuple[str, ...] = (
    "shoulder flexion", "shoulder abduction", "shoulder external rotation", "elbow flexion", "forearm pronation",
    "wrist extension", "wrist radial deviation",
)  # fmt: skip

_PROPPED: dict[str, float] = {
    "shoulder flexion": 0, "shoulder abduction": 70, "elbow flexion": 90, "forearm pronation": 85, "wrist extension": 0,
}  # fmt: skip
_ON_HANDS: dict[str, float] = {
    "pelvis forward": 75, "hip flexion": 80, "shoulder flexion": 90, "elbow flexion": 5, "forearm pronation": 85,
    "wrist extension": 75,
}  # fmt: skip
_TUCKED: dict[str, float] = {"ankle dorsiflexion": 5, "toe extension": 55}
# Where an arm or leg tends to when a part of it is put somewhere, by position, landmark and surface; the pelvis may
# have to lean forward to it.
REACHES: dict[tuple[str, str, str], Mapping[str, float]] = {
    ("lying face down", "palm", "floor"): {"shoulder flexion": -38, "shoulder abduction": 18, "elbow flexion": 125,
                                           "forearm pronation": 85, "wrist extension": 60},
    ("lying face down", "elbow", "floor"): {"shoulder flexion": 85, "shoulder abduction": 2, "elbow flexion": 88,
                                            "forearm pronation": 80},
    ("on all fours", "elbow", "floor"): {"shoulder flexion": 88, "shoulder abduction": 2, "elbow flexion": 88,
                                         "forearm pronation": 80},
    ("kneeling", "palm", "floor"): _ON_HANDS,
    ("half-kneeling", "palm", "floor"): _ON_HANDS,
    ("long sitting", "palm", "floor"): {"shoulder flexion": -30, "shoulder abduction": 14, "elbow flexion": 8,
                                        "forearm pronation": 80, "wrist extension": 65},
    ("long sitting", "elbow", "floor"): {"shoulder flexion": -45, "shoulder abduction": 10, "elbow flexion": 88,
                                         "forearm pronation": 80},
    ("lying on back", "elbow", "floor"): {"shoulder flexion": -45, "shoulder abduction": 10, "elbow flexion": 88,
                                          "forearm pronation": 80},
    ("lying face down", "ball of big toe", "floor"): _TUCKED,
    ("on all fours", "ball of big toe", "floor"): _TUCKED,
    ("kneeling", "ball of big toe", "floor"): _TUCKED,
    ("lying on right side", "elbow", "floor"): _PROPPED,
    ("lying on left side", "elbow", "floor"): _PROPPED,
    ("lying on right side", "palm", "floor"): _PROPPED | {"elbow flexion": 5, "wrist extension": 70},
    ("lying on left side", "palm", "floor"): _PROPPED | {"elbow flexion": 5, "wrist extension": 70},
    ("standing", "palm", "wall"): {"shoulder flexion": 85, "elbow flexion": 15, "forearm pronation": 80,
                                   "wrist extension": 70},
    ("standing", "palm", "wall aside"): {"shoulder flexion": 30, "shoulder abduction": 60, "elbow flexion": 40,
                                         "forearm pronation": 60, "wrist extension": 60},
    ("standing", "palm", "table"): {"shoulder flexion": 14, "shoulder abduction": 24, "elbow flexion": 40,
                                    "forearm pronation": 80, "wrist extension": 45},
    ("standing", "palm", "chair"): {"shoulder flexion": 25, "shoulder abduction": 10, "elbow flexion": 45,
                                    "forearm pronation": 80, "wrist extension": 40},
    ("standing", "heel", "step"): {"hip flexion": 55, "knee flexion": 60},
    ("sitting", "palm", "chair"): {"shoulder flexion": -8, "shoulder abduction": 16, "elbow flexion": 22,
                                   "forearm pronation": 75, "wrist extension": 60},
    ("lying on back", "heel", "floor"): {"hip flexion": 45, "knee flexion": 80},
    ("lying on back", "heel", "chair"): {"hip flexion": 85, "knee flexion": 85},
    ("lying on back", "calf", "chair"): {"hip flexion": 85, "knee flexion": 85},
    ("lying on back", "heel", "ball"): {"hip flexion": 40, "knee flexion": 20},
}  # fmt: skip
# Where a hand or a foot tends to once it is lifted.
RELEASED: dict[str, Mapping[str, float]] = {
    "palm": {"wrist extension": 0, "forearm pronation": 0},
    "ball of big toe": {"ankle dorsiflexion": -8, "ankle inversion": 0, "toe extension": 0},
    "toes": {"ankle dorsiflexion": -8, "ankle inversion": 0, "toe extension": 0},
}
# Another place to start from where the first leads nowhere: arms that prop up a body that lies face down.
PROPPED_UP: dict[str, Mapping[str, float]] = {
    "palm": {"shoulder flexion": 75, "shoulder abduction": 5, "shoulder external rotation": 0, "elbow flexion": 10,
             "forearm pronation": 80, "wrist extension": 75, "wrist radial deviation": 0},
}  # fmt: skip
