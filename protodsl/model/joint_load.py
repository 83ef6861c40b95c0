"""What drawn figures say of a claim that one step of a progression loads a joint more than another."""

from __future__ import annotations

from decimal import Decimal
from enum import Enum

from protodsl.frozen import frozen
from protodsl.model.condition import Placed
from protodsl.units import UNITS, Quantity

# The body that is reckoned with, the same for every person: loads are there to be compared, not to be met.
BODY_MASS = Quantity(Decimal(70), UNITS["kg"])
STATURE = Quantity(Decimal(170), UNITS["cm"])


class Verdict(Enum):
    """What is established: `certain` where the intervals lie apart, `matched` where least, estimate and most agree."""

    CERTAIN = "certain"
    MATCHED = "matched"
    OPEN = "open"
    OTHER_MOVEMENT = "other-movement"
    LESS = "less"
    CERTAINLY_LESS = "certainly-less"
    NO_FIGURE = "no-figure"
    NO_SOLUTION = "no-solution"
    NO_ESTIMATE = "no-estimate"
    NO_JOINT = "no-joint"


@frozen
class JointLoad:
    """The largest estimated load at a joint along a movement, in N m, with the least and most that it can be.

    `movement` is what the body does to hold still, one of lists.MOVEMENTS of the joint.
    """

    movement: str
    estimate: float
    least: float
    most: float


@frozen
class Comparison(Placed):
    """One claim: the `harder` level of a progression against the `easier` one at a joint; its place is the claim's.

    Loads are None without a verdict of their own; `lacking` is then the exercise that is to blame. `beyond` are
    exercises whose dose has a load that their figure does not show; `bands` those with a band, whose pull is not known.
    """

    progression: str
    easier: str
    harder: str
    joint: str
    verdict: Verdict
    easier_load: JointLoad | None = None
    harder_load: JointLoad | None = None
    lacking: str = ""
    beyond: tuple[str, ...] = ()
    bands: tuple[str, ...] = ()
