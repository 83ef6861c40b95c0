"""The line of stations of one person: the step back, where they are now, and the step on."""

from __future__ import annotations

from dataclasses import replace

from protodsl.decide.plan import PlannedItem
from protodsl.handout.blocks import Station, Stations
from protodsl.handout.draft import Draft
from protodsl.handout.phrase import Message, Phrase
from protodsl.handout.stations import stations as general
from protodsl.handout.words import one_after_the_other, say

# A step that is not on this sheet is done from another sheet.
_TO = {"next": "person.to.next", "back": "person.to.back"}


def stations(on: Draft, item: PlannedItem) -> tuple[Stations[Phrase], ...]:
    """The line of the step that is printed; held at a lower step, nobody moves on by themselves."""
    level = item.level
    if level is None:
        return ()
    return tuple(
        replace(
            line, stops=tuple(_stop(stop, item, level.held) for stop in line.stops if not _hidden(stop, level.held))
        )
        for line in general(on, item.exercise.name)
    )


def _hidden(stop: Station[Phrase], held: bool) -> bool:
    return held and stop.role == "next"


def _stop(stop: Station[Phrase], item: PlannedItem, held: bool) -> Station[Phrase]:
    if stop.role == "now":
        stop = replace(stop, head=say("stations.now"))
    if stop.role == "now" and (held or item.asked != item.exercise.name):
        said = [say("person.held")] if held else []
        if item.asked != item.exercise.name:
            said.append(say("person.swapped"))
        return replace(stop, when=one_after_the_other(*said))
    what = stop.what
    if isinstance(what, Message) and what.key == "stations.to" and stop.role in _TO:
        return replace(stop, what=Message(_TO[stop.role], what.values, what.count))
    return stop
