"""The lines that say something of an exercise, a phase or a protocol."""

from __future__ import annotations

from datetime import date as Date

from protodsl.frozen import frozen
from protodsl.syntax.tree.base import Amount, Name, Node, Statement, Words
from protodsl.syntax.tree.conditions import Condition, Operand
from protodsl.syntax.tree.doses import DosePart


@frozen
class ProseLine(Statement):
    """title, why, when, feel, normal, fix, stop, source, for, goal, may, not yet, because, (yes / no) means."""

    words: Words


@frozen
class NamesLine(Statement):
    """position, bearing, works, still, better, forbid, leave out, has; without a name supervised, no figure."""

    names: tuple[Name, ...]


@frozen
class BlockLine(Statement):
    """do, flare-up, and advice with its title."""

    title: Words | None
    lines: tuple[Words, ...]


@frozen
class Guard(Statement):
    """avoid if, allow if, caution if, emergency if, red flag if, call if, up when, down when, until, back to, start at.

    `target` is the phase of `back to` or the level of `start at`.
    """

    condition: Condition
    streak: int | None = None
    lines: tuple[Words, ...] = ()
    instead: Name | None = None
    because: Words | None = None
    target: Name | None = None


@frozen
class Move(Node):
    """`active shoulder flexion to 90 deg`; the name holds the kind of movement where one is written."""

    name: Name
    to: Amount


@frozen
class MovesLine(Statement):
    """moves."""

    moves: tuple[Move, ...]


@frozen
class NeedsLine(Statement):
    """needs A or B, with `instead` under it."""

    options: tuple[Name, ...]
    instead: Name | None = None


@frozen
class HarderThan(Statement):
    """harder than LEVEL at JOINT."""

    level: Name
    joint: Name


@frozen
class Weeks(Node):
    """`week 1`, `weeks 1 to 2`, `weeks 3 on` (last None)."""

    first: int
    last: int | None


@frozen
class DoseLine(Statement):
    """dose [weeks A to B:] parts, and `set N:` parts (keyword set, `number` N)."""

    parts: tuple[DosePart, ...]
    weeks: Weeks | None = None
    number: int | None = None


@frozen
class AdjustRow(Node):
    """`5 to 6: same load`; `high` None is `or more`; `change` is signed, None is `same load`."""

    low: int
    high: int | None
    change: Amount | None


@frozen
class AdjustLine(Statement):
    """adjust load by reps in set N, for set M (or, `for_set` None, for next session)."""

    by_set: int
    for_set: int | None
    rows: tuple[AdjustRow, ...]


@frozen
class StepLine(Statement):
    """add / take off AMOUNT when CONDITION[, N sessions in a row][, up to / down to AMOUNT]."""

    amount: Amount
    condition: Condition
    streak: int | None = None
    bound: Amount | None = None


@frozen
class FocusLine(Statement):
    """focus weaker side by FINDING[, N extra sets]."""

    finding: Name
    extra_sets: int | None = None


@frozen
class LimitLine(Statement):
    """limit MOVEMENT <= AMOUNT, limit load <= AMOUNT."""

    name: Name
    op: str
    operand: Operand


@frozen
class LiftLine(Statement):
    """lift SAFETY LINE, with `because`; the words are the inherited line as it stands."""

    words: Words
    because: Words | None


@frozen
class Zone(Node):
    """`0 to 2: carry on`, with a block."""

    low: int
    high: int
    words: Words
    lines: tuple[Words, ...] = ()


@frozen
class ZonesLine(Statement):
    """pain zones."""

    zones: tuple[Zone, ...]


@frozen
class VersionLine(Statement):
    """version."""

    version: str


@frozen
class ReviewLine(Statement):
    """review DATE by NAME, next by DATE."""

    date: Date
    by: Name
    next_by: Date


@frozen
class AmountLine(Statement):
    """budget (in min a day), lasts, fresh (amount None is `for one session`)."""

    amount: Amount | None
