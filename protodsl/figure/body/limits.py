"""How far joints go: the normal range of each angle, what lies beyond anatomy, and what two joints share.

The normal ranges are those of 38 CFR 4.71, plates I and II, for as far as the copied rows confirm them; every other
number here is from memory and marked so. They are limits for drawing and for a warning, not norms for a person.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

CONFIRMED = "38 CFR 4.71, plates I and II"
FROM_MEMORY = "from memory, no source"


@dataclass(frozen=True, slots=True)
class Limit:
    """A normal range in degrees, with the movement below zero and above it, and the source of each end."""

    low: float
    high: float
    below: str
    above: str
    source_low: str
    source_high: str
    joint: str

    def ends(self, degrees: float) -> tuple[str, float, str]:
        """The movement that an angle is one of, how far it normally goes, and the source of that."""
        if degrees > 0 or (degrees == 0 and self.low >= 0):
            return self.above, self.high, self.source_high
        return self.below, -self.low, self.source_low


def _limit(joint: str, above: str, high: float, below: str, low: float, known: str = "both") -> Limit:
    sources = {"both": (CONFIRMED, CONFIRMED), "high": (FROM_MEMORY, CONFIRMED), "none": (FROM_MEMORY, FROM_MEMORY)}[
        known
    ]
    return Limit(-low, high, below, above, *sources, joint)


# By the name of the angle without its side.
LIMITS: dict[str, Limit] = {
    "hip flexion": _limit("hip", "flexion", 125, "extension", 30),
    "hip abduction": _limit("hip", "abduction", 45, "adduction", 25),
    "hip external rotation": _limit("hip", "external rotation", 60, "internal rotation", 40),
    "knee flexion": _limit("knee", "flexion", 140, "extension", 0),
    "ankle dorsiflexion": _limit("ankle", "dorsiflexion", 20, "plantarflexion", 45),
    "ankle inversion": _limit("ankle", "inversion", 35, "eversion", 15, "none"),
    "toe extension": _limit("toe", "extension", 70, "flexion", 40, "none"),
    "shoulder flexion": _limit("shoulder", "flexion", 180, "extension", 60, "high"),
    "shoulder abduction": _limit("shoulder", "abduction", 180, "adduction", 45, "high"),
    "shoulder external rotation": _limit("shoulder", "external rotation", 90, "internal rotation", 90),
    "elbow flexion": _limit("elbow", "flexion", 145, "extension", 0, "high"),
    "forearm pronation": _limit("forearm", "pronation", 80, "supination", 85),
    "wrist extension": _limit("wrist", "extension", 70, "flexion", 80),
    "wrist radial deviation": _limit("wrist", "radial deviation", 20, "ulnar deviation", 45),
    "lower back flexion": _limit("lower back", "flexion", 60, "extension", 35, "none"),
    "lower back side bending right": _limit("lower back", "side bending", 20, "side bending", 20, "none"),
    "lower back rotation right": _limit("lower back", "rotation", 10, "rotation", 10, "none"),
    "upper back flexion": _limit("upper back", "flexion", 30, "extension", 15, "none"),
    "upper back side bending right": _limit("upper back", "side bending", 20, "side bending", 20, "none"),
    "upper back rotation right": _limit("upper back", "rotation", 35, "rotation", 35, "none"),
    "neck flexion": _limit("neck", "flexion", 45, "extension", 45, "none"),
    "neck side bending right": _limit("neck", "side bending", 45, "side bending", 45, "none"),
    "neck rotation right": _limit("neck", "rotation", 80, "rotation", 80, "none"),
}

UNDER_LOAD_SOURCE = "under load, from memory, no source"
# With weight on it a joint is pushed further than it goes by itself: from memory.
UNDER_LOAD: dict[str, tuple[float, float]] = {
    "ankle dorsiflexion": (-50.0, 40.0),
    "wrist extension": (-80.0, 90.0),
    "forearm pronation": (-85.0, 90.0),
    "toe extension": (-40.0, 80.0),
}
# The back of the foot on the floor: the ankle and the joints of the midfoot together; from memory.
INSTEP_DOWN: tuple[float, float] = (-65.0, 20.0)
# And its toes lie on, not rolled in under the foot; from memory.
TOES_FLAT: tuple[float, float] = (-15.0, 70.0)

# A written angle this far past the normal range is taken for a slip of the pen, not a stretch; the project's own rule.
BEYOND_ANATOMY = 20.0
_WIDER: dict[str, float] = {"ankle dorsiflexion": 30.0, "hip flexion": 25.0, "toe extension": 30.0}


def plain_name(angle: str) -> str:
    """The name of an angle without its side."""
    side, _, rest = angle.partition(" ")
    return rest if side in ("right", "left") else angle


def normal_range(angle: str, loaded: bool = False, instep: bool = False) -> tuple[float, float]:
    """The normal range of an angle in degrees; wider under load, or with the instep on the floor."""
    name = plain_name(angle)
    limit = LIMITS[name]
    if name == "ankle dorsiflexion" and instep:
        return INSTEP_DOWN
    if name == "toe extension" and instep:
        return TOES_FLAT
    return UNDER_LOAD[name] if loaded and name in UNDER_LOAD else (limit.low, limit.high)


def beyond_anatomy(angle: str, degrees: float) -> bool:
    """Whether no body does this angle."""
    name = plain_name(angle)
    limit, margin = LIMITS[name], _WIDER.get(name, BEYOND_ANATOMY)
    return not limit.low - margin <= degrees <= limit.high + margin


@dataclass(frozen=True, slots=True)
class Stretched:
    """A muscle over two joints that a pose asks much of: from memory."""

    side: str
    muscle: str
    words: str


def two_joint(angles: Mapping[str, float], side: str, loaded: bool) -> tuple[Stretched, ...]:
    """What muscles over two joints hardly allow; every limit here is from memory."""
    hip, knee, ankle = (angles[f"{side} {name}"] for name in ("hip flexion", "knee flexion", "ankle dorsiflexion"))
    found: list[Stretched] = []
    if hip > 92 and knee < 15:
        found.append(Stretched(side, "hamstrings", f"hip flexion {hip:.0f} with the knee straight"))
    if hip < -5 and knee > 110:
        found.append(Stretched(side, "rectus femoris", f"hip extension {-hip:.0f} with the knee bent to {knee:.0f}"))
    if ankle > (30 if loaded else 20) and knee < 10:
        found.append(Stretched(side, "calf", f"ankle dorsiflexion {ankle:.0f} with the knee straight"))
    return tuple(found)
