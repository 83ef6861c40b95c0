"""Every phase but the last has an end."""

from __future__ import annotations

from collections.abc import Iterator
from itertools import pairwise

from protodsl.check.context import Context
from protodsl.check.damage import lost
from protodsl.diagnostics import chains as say
from protodsl.diagnostics.diagnostic import Diagnostic
from protodsl.model.protocol import Entry


def endless_phase(entry: Entry, context: Context) -> Iterator[Diagnostic]:
    """A phase without `until` that another one follows."""
    for protocol in entry.protocols:
        for phase, following in pairwise(protocol.phases):
            if not phase.until and not lost(phase.damaged, "until") and not lost(protocol.damaged):
                yield say.endless_phase(phase.name, following.name, phase.span, following.span)
