"""The closed lists of the language: positions, bearing, kinds of movement, movements by joint."""

from __future__ import annotations

POSITIONS: tuple[str, ...] = (
    "standing",
    "sitting",
    "long sitting",
    "lying on back",
    "lying face down",
    "lying on right side",
    "lying on left side",
    "on all fours",
    "kneeling",
    "half-kneeling",
)

# From least to most.
BEARING: tuple[str, ...] = ("none", "touch", "partial", "as tolerated", "full")

# From weakest to strongest; a movement without a kind counts as the last.
KINDS: tuple[str, ...] = ("passive", "assisted", "active", "resisted")

# Measured from the neutral-zero position.
MOVEMENTS: dict[str, tuple[str, ...]] = {
    "ankle": ("dorsiflexion", "plantarflexion", "inversion", "eversion"),
    "knee": ("flexion", "extension"),
    "hip": ("flexion", "extension", "abduction", "adduction", "internal rotation", "external rotation"),
    "shoulder": ("flexion", "extension", "abduction", "adduction", "internal rotation", "external rotation"),
    "lumbar": ("flexion", "extension", "side bending", "rotation"),
    "thoracic": ("flexion", "extension", "side bending", "rotation"),
    "cervical": ("flexion", "extension", "side bending", "rotation"),
    "elbow": ("flexion", "extension"),
    "forearm": ("pronation", "supination"),
    "wrist": ("flexion", "extension", "radial deviation", "ulnar deviation"),
    "finger": ("flexion", "extension"),
    "thumb": ("flexion", "extension"),
    "toe": ("flexion", "extension"),
}

JOINTS: tuple[str, ...] = tuple(MOVEMENTS)


def movement_names() -> tuple[str, ...]:
    """Every movement with its joint, as written: `ankle dorsiflexion`."""
    return tuple(f"{joint} {movement}" for joint, movements in MOVEMENTS.items() for movement in movements)
