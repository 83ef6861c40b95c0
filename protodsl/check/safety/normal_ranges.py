"""Normal ranges of motion, in degrees from the neutral position, with their source."""

from __future__ import annotations

from collections.abc import Mapping
from decimal import Decimal
from types import MappingProxyType

SOURCE = "38 CFR 4.71, plates I and II, and 4.71a (adults)"

# The end of the normal range by joint and movement. Spine, fingers, thumb, toes, inversion and eversion are left out:
# no table of these that was seen can be named as a source.
NORMAL_RANGES: Mapping[tuple[str, str], Decimal] = MappingProxyType(
    {
        ("hip", "flexion"): Decimal(125),
        ("hip", "extension"): Decimal(30),
        ("hip", "abduction"): Decimal(45),
        ("hip", "adduction"): Decimal(25),
        ("hip", "external rotation"): Decimal(60),
        ("hip", "internal rotation"): Decimal(40),
        ("knee", "flexion"): Decimal(140),
        ("knee", "extension"): Decimal(0),
        ("ankle", "dorsiflexion"): Decimal(20),
        ("ankle", "plantarflexion"): Decimal(45),
        ("shoulder", "flexion"): Decimal(180),
        ("shoulder", "abduction"): Decimal(180),
        ("shoulder", "external rotation"): Decimal(90),
        ("shoulder", "internal rotation"): Decimal(90),
        ("elbow", "flexion"): Decimal(145),
        ("forearm", "supination"): Decimal(85),
        ("forearm", "pronation"): Decimal(80),
        ("wrist", "flexion"): Decimal(80),
        ("wrist", "extension"): Decimal(70),
        ("wrist", "radial deviation"): Decimal(20),
        ("wrist", "ulnar deviation"): Decimal(45),
    }
)
