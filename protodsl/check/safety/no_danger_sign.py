"""A protocol names the signs with which nobody should start."""

from __future__ import annotations

from collections.abc import Iterator

from protodsl.check.context import Context
from protodsl.check.damage import lost
from protodsl.diagnostics import safety as say
from protodsl.diagnostics.diagnostic import Diagnostic
from protodsl.model.protocol import Entry


def no_danger_sign(entry: Entry, context: Context) -> Iterator[Diagnostic]:
    """A protocol with neither `red flag if` nor `emergency if`."""
    for protocol in entry.protocols:
        named = protocol.red_flags or protocol.emergencies
        if not named and not lost(protocol.damaged, "red flag if", "emergency if"):
            yield say.no_danger_sign(protocol.name, protocol.span)
