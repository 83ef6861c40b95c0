"""One person under an opaque id: dated answers, sessions and personal changes, with every name looked up."""

from __future__ import annotations

import datetime
from dataclasses import field

from protodsl.frozen import frozen
from protodsl.model.condition import Placed
from protodsl.model.dose import Intervals, Sets, SetsOf
from protodsl.model.exercise import Give
from protodsl.model.protocol import Protocol
from protodsl.model.text import Prose
from protodsl.source import Span
from protodsl.units import Quantity

Value = bool | Quantity | str | datetime.date | None


@frozen
class Affected:
    """Which side is affected: `worse` is left, right or None (`side none`); `both` where the other side is too."""

    worse: str | None
    both: bool = False


@frozen
class Observation(Placed):
    """One value of a finding on a date, for `side` (left, right or None for an unsided finding).

    `value` is True or False for yes and no, a Quantity, the word of a choice, a date, or None for `unknown`.
    `corrects` marks a `corrected` line, which supersedes an earlier value of that date; it carries `because`.
    """

    finding: str
    side: str | None
    value: Value
    date: datetime.date
    corrects: bool = False
    because: Prose | None = None


@frozen
class Chosen(Placed):
    """What the person chose among a protocol's `choose` on a date."""

    date: datetime.date
    item: str


@frozen
class Done:
    """What was done of one volume, for `side` or (None) for all sides."""

    volume: Sets | SetsOf | Intervals
    side: str | None = None


@frozen
class Session(Placed):
    """One session on one date; `item` None is everything on the sheet that day.

    `outcome` is as given, missed, part done, or done (what was done stands in `done`, with the `load` used).
    `values` are the observations written on the session's line: they belong to it.
    """

    date: datetime.date
    item: str | None
    outcome: str
    done: tuple[Done, ...] = ()
    load: Quantity | None = None
    values: tuple[Observation, ...] = ()


@frozen
class Placing(Placed):
    """A person placed on a level by the clinician, with the reason; replay of the item begins anew there."""

    date: datetime.date
    item: str
    level: str
    because: Prose


@frozen
class LeftOut(Placed):
    """An item left out from a date (`until` None: for good), with the reason."""

    date: datetime.date
    until: datetime.date | None
    item: str
    because: Prose


@frozen
class Added(Placed):
    """An item given to this person besides the protocol, from a date (`until` None: for good)."""

    date: datetime.date
    until: datetime.date | None
    give: Give
    because: Prose


@frozen
class Changed(Placed):
    """A declaration changed for this person, from a date; the changed model is made by resolving anew (see resolve)."""

    date: datetime.date
    until: datetime.date | None
    item: str
    because: Prose


@frozen
class VersionFrom(Placed):
    """From this date the case follows another version of the protocol."""

    date: datetime.date
    version: str


@frozen
class Note(Placed):
    """A dated note; it decides nothing."""

    date: datetime.date
    words: str


@frozen
class Case(Placed):
    """A case whole; every tuple is in order of date, then of file. `has` None: nothing was said on equipment.

    `visit_at` is where the next visit stands.
    """

    id: str
    protocol: str
    version: str
    started: datetime.date
    language: str = "en"
    side: Affected = Affected(None)
    has: tuple[str, ...] | None = None
    observations: tuple[Observation, ...] = ()
    chosen: tuple[Chosen, ...] = ()
    sessions: tuple[Session, ...] = ()
    placings: tuple[Placing, ...] = ()
    left_out: tuple[LeftOut, ...] = ()
    added: tuple[Added, ...] = ()
    changed: tuple[Changed, ...] = ()
    versions: tuple[VersionFrom, ...] = ()
    next_visit: datetime.date | None = None
    notes: tuple[Note, ...] = ()
    visit_at: Span | None = field(default=None, compare=False)


@frozen
class Versions:
    """The protocol as it stands for one person from each date on, personal changes made; in order of date."""

    spans: tuple[tuple[datetime.date, Protocol], ...]

    def on(self, day: datetime.date) -> Protocol:
        """The protocol in force on a date; before the first one, the first."""
        found = self.spans[0][1]
        for start, protocol in self.spans:
            if start > day:
                break
            found = protocol
        return found
