"""Where on the skin a target lies: a patch by segment, stretch along it, and the way it faces."""

from __future__ import annotations

from dataclasses import dataclass

from protodsl.figure.posture import Vector


@dataclass(frozen=True, slots=True)
class Patch:
    """Skin of `segment` (without its side; `trunk` whole) from `start` to `end` along it.

    It faces within `width` degrees of `direction` in the axes of `frame` (y outwards), and lies across the middle of
    the body where `middle` is True.
    """

    limb: str
    segment: str
    start: float
    end: float
    direction: Vector
    width: float
    frame: str
    middle: bool = False


def _leg(segment: str, start: float, end: float, direction: Vector, width: float) -> Patch:
    return Patch("leg", segment, start, end, direction, width, segment)


def _arm(segment: str, start: float, end: float, direction: Vector, width: float) -> Patch:
    return Patch("arm", segment, start, end, direction, width, segment)


def _trunk(frame: str, start: float, end: float, direction: Vector, width: float, middle: bool = False) -> Patch:
    return Patch("trunk", "trunk", start, end, direction, width, frame, middle)


_FRONT, _BACK, _OUT, _IN = (1.0, 0.0, 0.0), (-1.0, 0.0, 0.0), (0.0, 1.0, 0.0), (0.0, -1.0, 0.0)
_UP = (0.0, 0.0, 1.0)

# Surface anatomy for the eye of a lay reader, not for a needle: common practice, no source.
_QUADRICEPS = (_leg("thigh", 0.20, 0.93, (1.0, 0.25, 0.0), 95),)
_HAMSTRINGS = (_leg("thigh", 0.26, 0.94, _BACK, 95),)
_GLUTEALS = (_trunk("pelvis", -0.26, 0.26, (-1.0, 0.45, 0.0), 92), _leg("thigh", -0.4, 0.26, (-1.0, 0.25, 0.0), 94))
_ABDUCTORS = (_trunk("pelvis", -0.3, 0.30, _OUT, 80), _leg("thigh", -0.5, 0.30, _OUT, 80))
_ADDUCTORS = (_leg("thigh", 0.12, 0.7, _IN, 80),)
_HIP_FLEXORS = (_trunk("pelvis", -0.2, 0.22, (1.0, 0.6, 0.0), 78), _leg("thigh", -0.4, 0.32, _FRONT, 80))
_CALF = (_leg("shank", 0.08, 0.62, _BACK, 104),)
_UPPER_CALF = (_leg("shank", 0.04, 0.58, _BACK, 104),)
_LOWER_CALF = (_leg("shank", 0.36, 0.86, _BACK, 106),)
_SHIN = (_leg("shank", 0.14, 0.82, (1.0, 0.45, 0.0), 88),)
_OUTER_SHANK = (_leg("shank", 0.14, 0.88, (-0.2, 1.0, 0.0), 84),)
_ABDOMINALS = (_trunk("lumbar", 0.14, 0.62, _FRONT, 84, middle=True),)
_OBLIQUES = (_trunk("lumbar", 0.20, 0.64, (0.35, 1.0, 0.0), 80),)
_TRUNK = (_trunk("lumbar", 0.18, 0.62, _FRONT, 200, middle=True),)
_BACK_EXTENSORS = (_trunk("lumbar", 0.14, 0.78, _BACK, 84, middle=True),)
_LOW_BACK = (_trunk("lumbar", 0.14, 0.52, _BACK, 86, middle=True),)
_CHEST = (_trunk("upper thorax", 0.66, 0.90, (1.0, 0.25, 0.0), 84),)
_BLADE = (_trunk("upper thorax", 0.66, 0.95, (-1.0, 0.35, 0.0), 82),)
_CUFF = (_trunk("upper thorax", 0.76, 0.93, (-1.0, 1.0, 0.0), 44), _arm("upper arm", -0.5, 0.28, (-0.5, 1.0, 0.2), 96))
_DELTOID = (_arm("upper arm", -0.2, 0.40, (0.0, 1.0, 0.3), 98),)
_BICEPS = (_arm("upper arm", 0.24, 0.92, _FRONT, 92),)
_TRICEPS = (_arm("upper arm", 0.22, 0.92, _BACK, 94),)
_FOREARM = (_arm("forearm", 0.06, 0.80, _FRONT, 200),)
_WRIST_LIFTERS = (_arm("forearm", 0.04, 0.78, (0.5, 1.0, 0.0), 92),)
_WRIST_BENDERS = (_arm("forearm", 0.04, 0.78, (-0.3, -1.0, 0.0), 92),)
_HAND = (_arm("hand", -0.2, 1.2, _FRONT, 200),)
_NECK_BACK = (Patch("head", "neck", 0.0, 1.0, _BACK, 70, "neck", middle=True),)
_NECK = (Patch("head", "neck", 0.0, 1.0, _FRONT, 200, "neck", middle=True),)

# Names as an author may declare them with `target`, in clinicians' words and in plain ones.
PATCHES: dict[str, tuple[Patch, ...]] = {
    "quadriceps": _QUADRICEPS, "thigh front": _QUADRICEPS, "front of the thigh": _QUADRICEPS,
    "front thigh": _QUADRICEPS, "hamstrings": _HAMSTRINGS, "thigh back": _HAMSTRINGS,
    "back of the thigh": _HAMSTRINGS, "buttocks": _GLUTEALS, "buttock": _GLUTEALS, "gluteals": _GLUTEALS,
    "gluteus maximus": _GLUTEALS, "outer hip": _ABDUCTORS, "hip abductors": _ABDUCTORS, "side of the hip": _ABDUCTORS,
    "gluteus medius": _ABDUCTORS, "inner thigh": _ADDUCTORS, "hip adductors": _ADDUCTORS, "adductors": _ADDUCTORS,
    "groin": _ADDUCTORS, "hip flexors": _HIP_FLEXORS, "front of the hip": _HIP_FLEXORS, "hip front": _HIP_FLEXORS,
    "calf": _CALF, "calves": _CALF, "gastrocnemius": _UPPER_CALF, "upper calf": _UPPER_CALF, "soleus": _LOWER_CALF,
    "lower calf": _LOWER_CALF, "achilles tendon": _LOWER_CALF, "shin": _SHIN, "tibialis anterior": _SHIN,
    "front of the shin": _SHIN, "outer ankle": _OUTER_SHANK, "peroneals": _OUTER_SHANK, "fibulares": _OUTER_SHANK,
    "outer lower leg": _OUTER_SHANK, "abdominals": _ABDOMINALS, "belly": _ABDOMINALS, "deep abdominals": _ABDOMINALS,
    "trunk": _TRUNK, "core": _TRUNK, "trunk side": _OBLIQUES, "side of the waist": _OBLIQUES, "obliques": _OBLIQUES,
    "side trunk": _OBLIQUES, "back muscles": _BACK_EXTENSORS, "back extensors": _BACK_EXTENSORS,
    "back": _BACK_EXTENSORS, "low back": _LOW_BACK, "lower back": _LOW_BACK, "chest": _CHEST, "pectorals": _CHEST,
    "shoulder blade": _BLADE, "shoulder blades": _BLADE, "upper back": _BLADE, "scapular muscles": _BLADE,
    "rotator cuff": _CUFF, "shoulder rotators": _CUFF, "deep shoulder muscles": _CUFF, "deltoid": _DELTOID,
    "shoulder": _DELTOID, "shoulders": _DELTOID, "biceps": _BICEPS, "elbow flexors": _BICEPS, "triceps": _TRICEPS,
    "elbow extensors": _TRICEPS, "upper arm": (*_BICEPS, *_TRICEPS), "forearm": _FOREARM, "forearm turners": _FOREARM,
    "wrist lifters": _WRIST_LIFTERS, "wrist extensors": _WRIST_LIFTERS, "wrist benders": _WRIST_BENDERS,
    "wrist flexors": _WRIST_BENDERS, "hand": _HAND, "grip": _HAND, "thumb": _HAND, "neck": _NECK,
    "neck extensors": _NECK_BACK, "back of the neck": _NECK_BACK,
}  # fmt: skip
