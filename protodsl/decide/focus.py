"""The side to work more on: the one with the worse value, whichever side hurts."""

from __future__ import annotations

from protodsl.decide.context import Context
from protodsl.decide.plan import Evidence, PlannedFocus
from protodsl.decide.terms import base, read_value
from protodsl.model.exercise import Focus


def weaker_side(focus: Focus, context: Context) -> tuple[PlannedFocus | None, tuple[Evidence, ...]]:
    """The weaker side; None where both are equal or one is unknown, with what nobody knows (5.4)."""
    left, right = (read_value(focus.finding, side, context.moment()) for side in ("left", "right"))
    unknown = left.unknown + right.unknown
    values = [{base(one.value) for one in read.known} for read in (left, right)]
    if unknown or any(len(one) != 1 for one in values):
        return None, unknown
    (of_left,), (of_right,) = values
    if of_left == of_right:
        return None, (Evidence(focus.finding, None, None, None),)
    finding = context.protocol.scope.findings[focus.finding]
    left_is_worse = of_left > of_right if finding.better == "lower" else of_left < of_right
    deciding = tuple(one.evidence for read in (left, right) for one in read.known)
    return PlannedFocus("left" if left_is_worse else "right", focus.extra_sets, focus.finding, deciding), ()
