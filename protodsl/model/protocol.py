"""A protocol with everything it can reach, after `use`, `like`, `change` and `leave out`."""

from __future__ import annotations

import datetime
from collections.abc import Mapping
from dataclasses import dataclass, field
from decimal import Decimal
from typing import NamedTuple

from protodsl.frozen import frozen
from protodsl.model.condition import Condition, Placed
from protodsl.model.dose import NO_DOSAGE, Dosage
from protodsl.model.exercise import Caution, Exercise, Give, Lifted, Progression
from protodsl.model.finding import Finding
from protodsl.model.text import Prose
from protodsl.units import Quantity


@frozen
class Setting(Placed):
    """A number a clinic may set; `value` is the one in force after `with`."""

    name: str
    value: Quantity
    low: Quantity | None = None
    high: Quantity | None = None


@frozen
class Term(Placed):
    """A piece of equipment or a target with the words a reader sees."""

    name: str
    words: Prose


@dataclass(frozen=True, slots=True)
class Scope:
    """Every declaration in reach, by name; question, test and finding are one kind."""

    findings: Mapping[str, Finding] = field(default_factory=dict)
    settings: Mapping[str, Setting] = field(default_factory=dict)
    equipment: Mapping[str, Term] = field(default_factory=dict)
    targets: Mapping[str, Term] = field(default_factory=dict)
    exercises: Mapping[str, Exercise] = field(default_factory=dict)
    progressions: Mapping[str, Progression] = field(default_factory=dict)


@frozen
class Flag(Placed):
    """emergency if, red flag if, call if; `lines` empty: the clinic's own words. `line` is the canonical text."""

    condition: Condition
    lines: tuple[Prose, ...] = ()
    streak: int = 1
    line: str = ""


@frozen
class Advice(Placed):
    """A titled piece of advice."""

    title: Prose
    lines: tuple[Prose, ...]


@frozen
class Zone(Placed):
    """A band of the pain scale, both ends included, its words and what to do."""

    low: int
    high: int
    words: Prose
    lines: tuple[Prose, ...] = ()


@frozen
class Review(Placed):
    """When it was reviewed, by whom, and by when next."""

    date: datetime.date
    by: str
    next_by: datetime.date


@frozen
class Choose(Placed):
    """The person's choice of `count` among the gives."""

    count: int
    gives: tuple[Give, ...]


@frozen
class Part(Placed):
    """A titled section of a protocol or phase."""

    title: Prose
    contents: tuple[Give | Choose, ...]


Content = Give | Choose | Part


@frozen
class Limit(Placed):
    """The most that a movement (degrees) or the load may be; `joint` "" is the load. `op` is <= or <."""

    joint: str
    movement: str
    op: str
    most: Quantity
    setting: str | None = None
    kind: str = "passive"
    line: str = ""


@frozen
class Forbid(Placed):
    """A kind of movement, and every stronger kind, that is not allowed."""

    kind: str
    joint: str
    movement: str
    line: str = ""


@frozen
class Until(Placed):
    """One line of what ends a phase; several are all needed."""

    condition: Condition
    streak: int = 1


@frozen
class BackTo(Placed):
    """Back to an earlier phase if `condition`."""

    phase: str
    condition: Condition
    streak: int = 1
    lines: tuple[Prose, ...] = ()


@frozen
class Phase(Placed):
    """A stretch of a protocol between two dates that the person's progress decides.

    `leave_out` bars items in this phase, also those the whole protocol gives and every `instead`. `damaged` names
    the keywords of lines that could not be understood, so that nobody reports them as missing.
    """

    name: str
    title: Prose
    bearing: str | None = None
    limits: tuple[Limit, ...] = ()
    forbids: tuple[Forbid, ...] = ()
    until: tuple[Until, ...] = ()
    back_to: tuple[BackTo, ...] = ()
    contents: tuple[Content, ...] = ()
    dosage: Dosage = NO_DOSAGE
    advice: tuple[Advice, ...] = ()
    calls: tuple[Flag, ...] = ()
    cautions: tuple[Caution, ...] = ()
    stop: tuple[Prose, ...] = ()
    may: tuple[Prose, ...] = ()
    not_yet: tuple[Prose, ...] = ()
    leave_out: tuple[str, ...] = ()
    lifted: tuple[Lifted, ...] = ()
    damaged: tuple[str, ...] = ()


@frozen
class ChangeMade(Placed):
    """One `change` of a protocol: what it touched and why; `followers` are variants that follow it."""

    kind: str
    name: str
    because: Prose | None = None
    followers: tuple[str, ...] = ()


@frozen
class Protocol(Placed):
    """A protocol, whole; `scope` holds what it can reach with this protocol's own changes made.

    `changed` names everything that differs from its declaration, changed itself or following; `leave_out` bars items
    on every way, also as an `instead`; `damaged` names the keywords of lines that could not be understood.
    """

    name: str
    title: Prose
    version: str
    scope: Scope
    like: str | None = None
    review: Review | None = None
    sources: tuple[Prose, ...] = ()
    audience: Prose | None = None
    goals: tuple[Prose, ...] = ()
    why: Prose | None = None
    when: Prose | None = None
    budget: Decimal | None = None
    lasts: Quantity | None = None
    emergencies: tuple[Flag, ...] = ()
    red_flags: tuple[Flag, ...] = ()
    calls: tuple[Flag, ...] = ()
    cautions: tuple[Caution, ...] = ()
    advice: tuple[Advice, ...] = ()
    flare_up: tuple[Prose, ...] = ()
    zones: tuple[Zone, ...] = ()
    stop: tuple[Prose, ...] = ()
    may: tuple[Prose, ...] = ()
    not_yet: tuple[Prose, ...] = ()
    dosage: Dosage = NO_DOSAGE
    contents: tuple[Content, ...] = ()
    phases: tuple[Phase, ...] = ()
    lifted: tuple[Lifted, ...] = ()
    changed: tuple[str, ...] = ()
    changes: tuple[ChangeMade, ...] = ()
    leave_out: tuple[str, ...] = ()
    damaged: tuple[str, ...] = ()


class Declared(NamedTuple):
    """A declaration: its kind (the field of Scope it stands in, or `protocols`), its name, the file it stands in."""

    kind: str
    name: str
    path: str


@frozen
class Entry:
    """What one entry file comes to: its path, the files it read, all it can see, and the protocols it declares.

    `files` start with the entry itself; `used` holds every declaration that some line names.
    """

    path: str
    files: tuple[str, ...]
    scope: Scope
    protocols: tuple[Protocol, ...] = ()
    used: frozenset[Declared] = frozenset()
