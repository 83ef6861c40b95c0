"""The joints at which a load is reckoned, and what a load is."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass

from protodsl.model.figure import Figure

# The segment that hangs on a joint, by the joint's name in the language; those with a side first.
OF_A_SIDE: dict[str, str] = {
    "hip": "thigh", "knee": "shank", "ankle": "foot", "shoulder": "upper arm", "elbow": "forearm", "forearm": "forearm",
    "wrist": "hand",
}  # fmt: skip
OF_THE_SPINE: dict[str, str] = {"lumbar": "lumbar", "thoracic": "upper thorax", "cervical": "neck"}


@dataclass(frozen=True, slots=True)
class Load:
    """A net moment in N m: the estimate, and the least and most that can be; `movement` is what the body does to hold.

    `towards` is the side of a bending or rotation of the spine, else "".
    """

    movement: str
    towards: str
    estimate: float
    least: float
    most: float


# The largest loads along the movement of a figure at a joint of one side, as `peaks`: () where there is no estimate,
# None where no body can do the figure.
Loads = Callable[[Figure, str, str], tuple[Load, ...] | None]
