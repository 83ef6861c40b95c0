"""Of two limits on one movement the strictest holds, and the other is not left to be believed."""

from __future__ import annotations

from collections.abc import Iterator
from itertools import permutations

from protodsl.check.context import Context
from protodsl.diagnostics import safety as say
from protodsl.diagnostics.diagnostic import Diagnostic
from protodsl.model.lists import KINDS
from protodsl.model.protocol import Entry, Limit


def two_limits(entry: Entry, context: Context) -> Iterator[Diagnostic]:
    """A limit that allows more than another one in its phase does for all that it covers."""
    for protocol in entry.protocols:
        for phase in protocol.phases:
            for strict, loose in permutations(phase.limits, 2):
                if (strict.joint, strict.movement) == (loose.joint, loose.movement) and _idle(loose, strict):
                    yield say.looser_limit(loose.line, strict.line, phase.name, loose.span, strict.span)


def _idle(loose: Limit, strict: Limit) -> bool:
    """Whether one limit has nothing to say once the other has spoken; two that say the same are no matter."""
    if KINDS.index(strict.kind) > KINDS.index(loose.kind):
        return False
    allowed, other = strict.most.to(loose.most.unit).value, loose.most.value
    return allowed < other or (allowed == other and strict.op == "<" and loose.op == "<=")
