"""The tree: what was written, nothing inferred; one class for each form a line can have.

Equality ignores places. Keywords of several words are written with one blank (`avoid if`, `not yet`).
"""

from __future__ import annotations

from dataclasses import field
from datetime import date as Date
from decimal import Decimal

from protodsl.frozen import frozen
from protodsl.source import NOWHERE, Span


@frozen
class Node:
    """Anything with a place."""

    span: Span = field(default=NOWHERE, compare=False, kw_only=True, repr=False)


@frozen
class Name(Node):
    """A name of one or more plain words, in NFC."""

    text: str


@frozen
class Words(Node):
    """One line of prose."""

    text: str


@frozen
class Comment(Node):
    """A comment line, with its `#`, and how deep it stands."""

    text: str
    depth: int = field(default=0, compare=False)


@frozen
class Amount(Node):
    """A number with the unit as written, or without one."""

    value: Decimal
    unit: str | None = None


@frozen
class Range(Node):
    """A number, or `low to high`; `high` equals `low` where one number was written."""

    low: Decimal
    high: Decimal


# Conditions. `side` is one of: each, either, left, right, affected, other, or None where none was written.


@frozen
class Fact(Node):
    """`X`: a yes/no finding."""

    name: Name
    side: str | None = None


@frozen
class Not(Node):
    """`not X` or `not (...)`."""

    of: Condition


@frozen
class All(Node):
    """Facts joined by `and`."""

    of: tuple[Condition, ...]


@frozen
class AnyOf(Node):
    """Facts joined by `or`."""

    of: tuple[Condition, ...]


@frozen
class AtLeast(Node):
    """`at least 2 of (a, b and c, pain > 3)`."""

    count: int
    of: tuple[Condition, ...]


@frozen
class Is(Node):
    """`X is [not] V` (one value) or `X is one of (V, W)`."""

    name: Name
    values: tuple[Name, ...]
    negated: bool = False
    side: str | None = None


@frozen
class Subject(Node):
    """What stands left of a comparison.

    `form` is value (`X`), symmetry, difference, change since start, change since last time, weeks since or
    days since; after `since`, `name` may also be `start` or `phase start`.
    """

    form: str
    name: Name


@frozen
class Operand(Node):
    """What stands right of a comparison: an amount, or a name with an amount added to it (or, negative, taken off)."""

    name: Name | None
    amount: Amount | None


@frozen
class Compare(Node):
    """`SUBJECT >= OPERAND [on ... side]`; `op` is one of >= <= < > =."""

    subject: Subject
    op: str
    operand: Operand
    side: str | None = None


Condition = Fact | Not | All | AnyOf | AtLeast | Is | Compare

# Dose parts.


@frozen
class Sets(Node):
    """`3 x 12`, `3 x 8 to 12`, `3 x 30 s`; `amount` None is `to fatigue`; `unit` None is repetitions.

    `sets` None is an amount alone: `12 reps`, `20 min`, `400 m`, `to fatigue`.
    """

    sets: Range | None
    amount: Range | None
    unit: str | None = None


@frozen
class SetsOf(Node):
    """`12 then 10 then 8`: repetitions of each set."""

    counts: tuple[int, ...]


@frozen
class Leg(Node):
    """`4 min walk` inside intervals."""

    amount: Amount
    activity: Name


@frozen
class Intervals(Node):
    """`5 x (4 min walk + 1 min run)`."""

    rounds: Range
    legs: tuple[Leg, ...]


@frozen
class Timing(Node):
    """`lift 2 s`, `hold 2 to 5 s`, `lower 3 s`; `seconds` None is `until settled`."""

    phase: str
    seconds: Range | None


@frozen
class Rest(Node):
    """`rest 60 s`, `rest 2 min`; `amount` None is `until settled`."""

    amount: Range | None
    unit: str | None = None


@frozen
class Sides(Node):
    """`each side` (which = each) or `affected side` (which = affected)."""

    which: str


@frozen
class Load(Node):
    """`load 5 kg`, `load 70 % of 1RM`, `load 8RM`, `load light band`, `load body weight + 5 kg`.

    `percent` with `of` (a finding or `1RM`); `maximum` is n of nRM; `name` with or without `amount`; else `amount`.
    """

    amount: Amount | None = None
    percent: Decimal | None = None
    of: Name | None = None
    maximum: int | None = None
    name: Name | None = None
    up_to: Amount | None = None


@frozen
class Effort(Node):
    """`effort 6 to 7` (form effort) or `2 reps in reserve` (form reserve)."""

    form: str
    amount: Range


@frozen
class Often(Node):
    """How often: form is daily, hourly, every hours, every other day, times a day, days a week, rest day between."""

    form: str
    amount: Range | None = None


@frozen
class Supervised(Node):
    """`1 supervised` inside a dose."""

    count: int


@frozen
class Lasting(Node):
    """`for 6 weeks` inside a dose."""

    amount: Amount


DosePart = Sets | SetsOf | Intervals | Timing | Rest | Sides | Load | Effort | Often | Supervised | Lasting

# Statements: lines with what stands under them.


@frozen
class Statement(Node):
    """A line that begins with a keyword; `head` is the place of the line without what stands under it."""

    keyword: str
    head: Span = field(default=NOWHERE, compare=False, kw_only=True, repr=False)


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
class FigureLine(Statement):
    """figure [like X] with the lines under it, which syntax/figure_tree.py describes."""

    like: Name | None
    lines: tuple[Statement, ...] = ()


@frozen
class ImageLine(Statement):
    """image PATH: text alternative."""

    path: Words
    alternative: Words | None


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


@frozen
class AnswerLine(Statement):
    """answer; kind is yes or no, scale, measure, choice or date."""

    kind: str
    low: Decimal | None = None
    high: Decimal | None = None
    unit: str | None = None
    choices: tuple[Name, ...] = ()
    each_side: bool = False


@frozen
class Verdict(Statement):
    """`VALUE if CONDITION` (keyword if), or `otherwise VALUE` (condition None) of a derived finding."""

    value: Name
    condition: Condition | None


@frozen
class Give(Statement):
    """give X [if / unless CONDITION] with its lines."""

    item: Name
    condition: Condition | None = None
    unless: bool = False
    lines: tuple[Statement, ...] = ()


@frozen
class Group(Statement):
    """part TITLE, or choose N, with its gives."""

    title: Words | None
    count: int | None
    lines: tuple[Statement, ...]


@frozen
class Level(Statement):
    """`level EXERCISE`, `level LABEL: EXERCISE`, `level LABEL` with gives; `, after LEVEL`."""

    name: Name
    exercise: Name | None
    after: Name | None
    lines: tuple[Statement, ...]


@frozen
class Declaration(Statement):
    """exercise, progression, protocol, phase, change: a name, `like` another, and lines."""

    name: Name
    like: Name | None
    lines: tuple[Statement, ...]


@frozen
class FindingDeclaration(Statement):
    """question, test, finding."""

    name: Name
    words: Words | None
    lines: tuple[Statement, ...]


@frozen
class Described(Statement):
    """equipment NAME: words, target NAME: words."""

    name: Name
    words: Words


@frozen
class SettingLine(Statement):
    """setting NAME = AMOUNT[, from LOW to HIGH]."""

    name: Name
    value: Amount
    low: Amount | None = None
    high: Amount | None = None


@frozen
class Use(Statement):
    """use PATH, with `with NAME = AMOUNT` and `without A, B` under it."""

    path: Words
    settings: tuple[tuple[Name, Amount], ...] = ()
    without: tuple[Name, ...] = ()


# Lines of a case file.


@frozen
class Value(Node):
    """A value of a finding: form is yes, no, unknown, amount, date or name."""

    form: str
    amount: Amount | None = None
    date: Date | None = None
    name: Name | None = None


@frozen
class CaseDeclaration(Statement):
    """case ID."""

    name: Name
    lines: tuple[Statement, ...]


@frozen
class CaseProtocol(Statement):
    """protocol NAME, version V."""

    name: Name
    version: str


@frozen
class DateLine(Statement):
    """started DATE, next visit DATE."""

    date: Date


@frozen
class LanguageLine(Statement):
    """language TAG (BCP 47)."""

    tag: str


@frozen
class SideLine(Statement):
    """side left / right / none / both, worse left (side both, worse left)."""

    side: str
    worse: str | None = None


@frozen
class Answered(Statement):
    """NAME: value, or values by side (keyword answered); corrected DATE NAME: value (keyword corrected)."""

    name: Name
    values: tuple[tuple[str | None, Value], ...]
    date: Date | None = None
    because: Words | None = None


@frozen
class ListedAnswers(Statement):
    """yes: A, B / no: A, B / unknown: A, B / chose: X (the keyword is the answer)."""

    names: tuple[Name, ...]


@frozen
class OnDate(Statement):
    """on DATE."""

    date: Date
    lines: tuple[Statement, ...]


@frozen
class SessionPart(Node):
    """One part of a session line.

    form is as given, missed, part done, done (`volume`), side done (`side`, `volume`), load (`load`),
    score (`name`, `values` by side), yes or no (`name`).
    """

    form: str
    volume: Sets | SetsOf | Intervals | None = None
    side: str | None = None
    load: Load | None = None
    name: Name | None = None
    values: tuple[tuple[str | None, Value], ...] = ()


@frozen
class Session(Statement):
    """session DATES [ITEM]: parts; `to` is set for `D to D`, else `dates` are listed."""

    dates: tuple[Date, ...]
    to: Date | None
    item: Name | None
    parts: tuple[SessionPart, ...]


@frozen
class Place(Statement):
    """place DATE ITEM: LEVEL with because."""

    date: Date
    item: Name
    level: Name
    because: Words | None


@frozen
class From(Statement):
    """from DATE [to DATE] change / leave out / give X, or from DATE version V."""

    date: Date
    to: Date | None
    change: Statement
    because: Words | None = None


@frozen
class Note(Statement):
    """note DATE prose."""

    date: Date
    words: Words


@frozen
class File:
    """A whole file: its statements in order, and its comments.

    `damaged` are the names whose declarations could not be read, whole or in part, so that later stages stay silent
    about what may be missing. `gaps` are the offsets of the lines and comments with an empty line above them.
    """

    path: str
    statements: tuple[Statement, ...]
    comments: tuple[Comment, ...] = ()
    damaged: tuple[Name, ...] = field(default=(), compare=False)
    gaps: tuple[int, ...] = field(default=(), compare=False, repr=False)
