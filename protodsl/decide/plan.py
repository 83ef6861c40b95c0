"""What was decided for one person as of one date: everything the sheet and the clinician's page are made from.

Every choice carries its reasons: the line of the protocol (a span) and the values that decided.
"""

from __future__ import annotations

import datetime
from dataclasses import dataclass
from decimal import Decimal

from protodsl.decide.truth import Truth
from protodsl.model.case import Affected, Case, Value
from protodsl.model.condition import Condition
from protodsl.model.dose import Dosage, Dose, Load, SetRow
from protodsl.model.exercise import Avoid, Caution, Exercise, Give
from protodsl.model.protocol import Flag, Phase, Protocol
from protodsl.model.text import Prose
from protodsl.source import NOWHERE, Span

# Why no exercise is printed.
REFER, UNANSWERED = "refer", "unanswered"


@dataclass(frozen=True, slots=True)
class Evidence:
    """One value that was looked at; `side` left, right or None.

    `value` None is unknown: `date` None where nobody ever said, else the date of the `unknown`. `stale` marks a value
    that is too old to count: it is kept here and counts as unknown. `span` is the line of the case.

    Time that has passed is evidence too: `finding` is then `start`, `phase start` or a finding with a date, `value` the
    completed weeks or days, `date` when that many were completed.
    """

    finding: str
    side: str | None
    value: Value
    date: datetime.date | None
    stale: bool = False
    span: Span = NOWHERE


@dataclass(frozen=True, slots=True)
class Reason:
    """One step of why something is printed, replaced or left out.

    `kind` is one of: give, added, start, level, place, held, choice, avoid, needs, leave out, personal, forbid, limit,
    bearing, load limit, table ended, dose ended, condition. `name` is the exercise, item or level the line speaks of.
    `span` is the line; `deciding` are the values that decided, `unknown` those nobody knows.
    """

    kind: str
    name: str
    span: Span = NOWHERE
    truth: Truth | None = None
    deciding: tuple[Evidence, ...] = ()
    unknown: tuple[Evidence, ...] = ()
    because: Prose | None = None


@dataclass(frozen=True, slots=True)
class PlannedLoad:
    """The load to lift: `kilograms` as the clinic has it (None: not known), made from `written`.

    `exact` is before rounding down, with steps so far (`steps`, kg) in it; `equation` names the published equation
    where one was used; `capped_by` is the line of a `limit load` that lowered it.
    """

    written: Load
    kilograms: Decimal | None
    exact: Decimal | None = None
    steps: Decimal = Decimal(0)
    equation: str | None = None
    capped_by: Span | None = None
    evidence: tuple[Evidence, ...] = ()


@dataclass(frozen=True, slots=True)
class PlannedFocus:
    """The side to work more on, left or right, with the values that decided."""

    side: str
    extra_sets: int
    finding: str
    deciding: tuple[Evidence, ...] = ()


@dataclass(frozen=True, slots=True)
class PlannedLevel:
    """Where a person stands in a progression: level `number` (from 1) `of` how many, held `since`.

    `printed` is the level on the sheet: another one than `level` where nothing of `level` may be done now (`held`).
    """

    progression: str
    level: str
    number: int
    of: int
    since: datetime.date
    printed: str
    held: bool = False


@dataclass(frozen=True, slots=True)
class LaterDose:
    """Dose and load from a later date of the period on, if the week table goes on as planned; dose None: it ends."""

    date: datetime.date
    week: int
    dose: Dose | None
    load: PlannedLoad | None = None


@dataclass(frozen=True, slots=True)
class Guarded:
    """A line with a condition, as it stands today.

    `stays` is True where the line belongs on the sheet: it is yes or unknown, or its no may change (5.9).
    """

    line: Avoid | Caution
    truth: Truth
    stays: bool
    deciding: tuple[Evidence, ...] = ()
    unknown: tuple[Evidence, ...] = ()


@dataclass(frozen=True, slots=True)
class PlannedItem:
    """One exercise on the sheet.

    `item` is what the protocol gives (an exercise or a progression) by the line `give`; `asked` is the exercise that
    stood there before swapping, the same as `exercise.name` where nothing was swapped. `dosage` are the layers of dose
    from strongest to weakest. `week` is the week of its table. `days` are weekdays (0 Monday), `dates` those of the
    period; `minutes` of one of its days, None where it cannot be timed. `options` is the number of alternatives to
    choose from that a person has not chosen among yet (0: no choice), `takes` how many; items of one choice share
    `choice`. `sets` are the lines of single sets with the load of each as it is to be lifted. `equipment` is what a
    person without a `has` line needs, each a list of alternatives.
    """

    exercise: Exercise
    item: str
    asked: str
    give: Give
    dose: Dose
    dosage: tuple[Dosage, ...]
    first_given: datetime.date
    since: datetime.date
    week: int = 1
    load: PlannedLoad | None = None
    focus: PlannedFocus | None = None
    level: PlannedLevel | None = None
    days: tuple[int, ...] = ()
    dates: tuple[datetime.date, ...] = ()
    minutes: Decimal | None = None
    supervised: bool = False
    part: Prose | None = None
    choice: Span | None = None
    takes: int = 0
    options: int = 0
    equipment: tuple[tuple[str, ...], ...] = ()
    avoids: tuple[Guarded, ...] = ()
    cautions: tuple[Guarded, ...] = ()
    reasons: tuple[Reason, ...] = ()
    later: tuple[LaterDose, ...] = ()
    sets: tuple[SetRow, ...] = ()


@dataclass(frozen=True, slots=True)
class NotGiven:
    """Something that is not on the sheet as the protocol asks for it.

    `asked` is the exercise (or, where no exercise came to stand for it, the item), `replacement` what stands in for it
    (None: nothing), `uncovered` the targets for which nothing is left on the sheet. `until` is the last date on which
    a condition that has gone stale still held.
    """

    item: str
    asked: str
    replacement: str | None
    reasons: tuple[Reason, ...]
    uncovered: tuple[str, ...] = ()
    until: datetime.date | None = None


@dataclass(frozen=True, slots=True)
class QuestionUse:
    """A line that waits for an answer; `kind` is its keyword, `item` what it stands under ("": the protocol)."""

    kind: str
    item: str
    span: Span
    condition: Condition | None = None


@dataclass(frozen=True, slots=True)
class OpenQuestion:
    """A finding nobody knows now, `side` left, right or None; `last` is its last value, too old or `unknown`."""

    finding: str
    side: str | None
    last: Evidence | None
    uses: tuple[QuestionUse, ...]


@dataclass(frozen=True, slots=True)
class Move:
    """One change of where a person stands.

    `kind` is one of: start, up, down, lowest (`down when` at the lowest level: held, the clinician is told), place,
    add, take off, adjust, phase start, phase, phase back, given, ended (a week table), withdrawn, back, held (nothing
    of the level `before` may be done; the level `after` is printed). `item` is the progression, exercise or ("") the
    protocol's phases; `before` and `after` are levels, phases or amounts as text.
    `span` is the line of the protocol, `lines` what it says on the sheet.
    """

    date: datetime.date
    kind: str
    item: str
    before: str
    after: str
    span: Span = NOWHERE
    condition: Condition | None = None
    streak: int = 1
    deciding: tuple[Evidence, ...] = ()
    lines: tuple[Prose, ...] = ()
    because: Prose | None = None


@dataclass(frozen=True, slots=True)
class FlagState:
    """An emergency, red flag or call line (`kind` as the keyword) as it stands today, and the dates it was yes on."""

    kind: str
    flag: Flag
    truth: Truth
    deciding: tuple[Evidence, ...] = ()
    unknown: tuple[Evidence, ...] = ()
    was_yes: tuple[datetime.date, ...] = ()


@dataclass(frozen=True, slots=True)
class Pending:
    """A line that can move somebody, as it stands this evening; `kind` is its keyword, `item` "" for the phase.

    The last `met` sessions were yes, of the `needed` in a row; `looked` is the date of the last one (None: none was
    looked at), `old` says that it counts no longer.
    """

    kind: str
    item: str
    span: Span
    truth: Truth
    met: int
    needed: int
    looked: datetime.date | None = None
    old: bool = False


@dataclass(frozen=True, slots=True)
class HeldWeek:
    """An item of which no further week begins, since a line that leads back is yes (`due`) or unknown."""

    item: str
    week: int
    due: bool


@dataclass(frozen=True, slots=True)
class Returning:
    """An exercise or progression left out for this person up to the day before `date`, and given again from then on."""

    item: str
    date: datetime.date


@dataclass(frozen=True, slots=True)
class Day:
    """One weekday (0 Monday): minutes of what can be timed, the names of what cannot, and whether it is over budget."""

    weekday: int
    minutes: Decimal
    untimed: tuple[str, ...] = ()
    over_budget: bool = False


@dataclass(frozen=True, slots=True)
class Plan:
    """Everything decided for a case as of a date.

    `refused` is "" where there is a sheet, REFER where an emergency or red flag is yes (only the referral page), and
    UNANSWERED where one is unknown (no sheet; `questions` lead with what must be answered). `items` is then empty.
    `protocol` is the text in force on that date, personal changes made. `phase` None: the protocol has no phases.
    `first` to `last` is the period of the sheet. `questions` are in order of consequence. `told` are things the
    clinician has to know now: a `down when` at the lowest level, a level held, a table at its end. `pending` are the
    lines that can move somebody, `held_weeks` the items of which the week is held, `returning` what was left out and
    comes back within the period.
    """

    case: Case
    protocol: Protocol
    as_of: datetime.date
    first: datetime.date
    last: datetime.date
    refused: str = ""
    phase: Phase | None = None
    phase_since: datetime.date | None = None
    items: tuple[PlannedItem, ...] = ()
    not_given: tuple[NotGiven, ...] = ()
    questions: tuple[OpenQuestion, ...] = ()
    moves: tuple[Move, ...] = ()
    emergencies: tuple[FlagState, ...] = ()
    red_flags: tuple[FlagState, ...] = ()
    calls: tuple[FlagState, ...] = ()
    cautions: tuple[Guarded, ...] = ()
    week: tuple[Day, ...] = ()
    uncovered: tuple[str, ...] = ()
    told: tuple[Move, ...] = ()
    levels: tuple[PlannedLevel, ...] = ()
    pending: tuple[Pending, ...] = ()
    held_weeks: tuple[HeldWeek, ...] = ()
    returning: tuple[Returning, ...] = ()

    @property
    def side(self) -> Affected:
        """The affected side of this person."""
        return self.case.side
