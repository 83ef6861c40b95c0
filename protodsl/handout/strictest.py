"""Of several limits on one movement those that say something: the strictest."""

from __future__ import annotations

from collections.abc import Sequence

from protodsl.model.lists import KINDS
from protodsl.model.protocol import Limit


def strictest(limits: Sequence[Limit]) -> tuple[Limit, ...]:
    """The limits without those that another one keeps anyway; of two that say the same, the first."""
    return tuple(
        limit
        for at, limit in enumerate(limits)
        if not any(
            _keeps(other, limit) and (n < at or not _keeps(limit, other)) for n, other in enumerate(limits) if n != at
        )
    )


def _keeps(one: Limit, other: Limit) -> bool:
    """Whether whoever keeps `one` keeps `other` too: the same movement of a kind as weak or weaker, and no further."""
    if (one.joint, one.movement) != (other.joint, other.movement) or one.most.dimension != other.most.dimension:
        return False
    if one.joint and KINDS.index(one.kind) > KINDS.index(other.kind):
        return False
    most, least = one.most.to(other.most.unit).value, other.most.value
    return most < least or (most == least and (one.op == "<" or other.op == "<="))
