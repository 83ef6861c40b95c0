"""The pain zones hold every number from 0 to 10 once."""

from __future__ import annotations

from collections.abc import Iterator
from itertools import pairwise

from protodsl.check.context import Context
from protodsl.check.damage import lost
from protodsl.diagnostics import tables as say
from protodsl.diagnostics.diagnostic import Diagnostic
from protodsl.model.protocol import Entry, Zone

SCALE = range(11)


def zones(entry: Entry, context: Context) -> Iterator[Diagnostic]:
    """Numbers that no zone holds or two do, and zones that leave the scale."""
    for protocol in entry.protocols:
        if protocol.zones and not lost(protocol.damaged, "pain zones"):
            found = sorted(protocol.zones, key=lambda zone: (zone.low, zone.high))
            yield from _gaps(found)
            yield from _overlaps(found)
            for zone in found:
                if zone.low not in SCALE or zone.high not in SCALE:
                    yield say.zones_beyond(zone.low, zone.high, zone.span)


def _gaps(found: list[Zone]) -> Iterator[Diagnostic]:
    held = {number for zone in found for number in range(zone.low, zone.high + 1)}
    missing: dict[Zone, list[int]] = {}
    for number in SCALE:
        if number not in held:
            near = next((zone for zone in reversed(found) if zone.high < number), found[0])
            missing.setdefault(near, []).append(number)
    for near, numbers in missing.items():
        yield say.zones_gap(numbers, near.span)


def _overlaps(found: list[Zone]) -> Iterator[Diagnostic]:
    for before, after in pairwise(found):
        twice = range(after.low, min(before.high, after.high) + 1)
        if twice:
            yield say.zones_overlap(twice, before.span, after.span)
