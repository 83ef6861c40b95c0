"""Exercises and progressions as they stand after `like` and `change`."""

from __future__ import annotations

from dataclasses import field
from decimal import Decimal

from protodsl.frozen import frozen
from protodsl.model.condition import Condition, Placed
from protodsl.model.dose import NO_DOSAGE, Dosage
from protodsl.model.figure import Figure
from protodsl.model.text import Prose
from protodsl.source import NOWHERE, Span


@frozen
class Movement(Placed):
    """A movement in degrees from the neutral-zero position; `kind` is one of lists.KINDS."""

    kind: str
    joint: str
    movement: str
    to: Decimal


@frozen
class Need(Placed):
    """Equipment: any one of `options`; `instead` names the exercise for who has none of them."""

    options: tuple[str, ...]
    instead: str | None = None


@frozen
class Fix(Placed):
    """A fault and its cure, and the whole line as one unit of translation."""

    fault: str
    cure: str
    line: Prose


@frozen
class Avoid(Placed):
    """Leave the exercise out if `condition`; do `instead`. `line` is the canonical text used to lift it."""

    condition: Condition
    instead: str | None = None
    because: Prose | None = None
    line: str = ""


@frozen
class Lifted(Placed):
    """A safety line that was inherited and lifted in the open: its text, the reason, and where it stood."""

    line: str
    because: Prose
    origin: Placed


@frozen
class Caution(Placed):
    """What to heed if `condition`."""

    condition: Condition
    lines: tuple[Prose, ...]
    line: str = ""


@frozen
class Focus(Placed):
    """Work more on the side with the worse value of `finding`."""

    finding: str
    extra_sets: int = 0


@frozen
class Image(Placed):
    """A picture file below the project with its text alternative."""

    path: str
    alternative: Prose | None


@frozen
class HarderThan(Placed):
    """A claim that the drawn figures check: harder than another level at a joint."""

    level: str
    joint: str


@frozen
class Exercise(Placed):
    """One exercise, whole; `bearing_said` is False where none was written and full is assumed.

    `damaged` names the keywords of lines that could not be understood, so that nobody reports them as missing;
    `position_at` is the place of `position`.
    """

    name: str
    title: Prose
    like: str | None = None
    position: str | None = None
    bearing: str = "full"
    bearing_said: bool = False
    works: tuple[str, ...] = ()
    moves: tuple[Movement, ...] = ()
    still: tuple[str, ...] = ()
    needs: tuple[Need, ...] = ()
    figure: Figure | None = None
    image: Image | None = None
    dosage: Dosage = NO_DOSAGE
    focus: Focus | None = None
    do: tuple[Prose, ...] = ()
    why: Prose | None = None
    when: Prose | None = None
    feel: tuple[Prose, ...] = ()
    normal: tuple[Prose, ...] = ()
    fix: tuple[Fix, ...] = ()
    stop: tuple[Prose, ...] = ()
    supervised: bool = False
    avoid: tuple[Avoid, ...] = ()
    caution: tuple[Caution, ...] = ()
    lifted: tuple[Lifted, ...] = ()
    damaged: tuple[str, ...] = ()
    position_at: Span = field(default=NOWHERE, compare=False, repr=False)


@frozen
class Trigger(Placed):
    """A condition that moves somebody, for `streak` sessions in a row, with what the sheet says then."""

    condition: Condition
    streak: int = 1
    lines: tuple[Prose, ...] = ()


@frozen
class Give(Placed):
    """Something given: an exercise or a progression, under a condition or without one (`unless` turns it round)."""

    item: str
    condition: Condition | None = None
    unless: bool = False
    dosage: Dosage = NO_DOSAGE
    why: Prose | None = None
    when: Prose | None = None
    supervised: bool = False
    focus: Focus | None = None


@frozen
class Level(Placed):
    """A step of a progression: its name, what it gives, and its own triggers (the progression's where it has none).

    `label` is True where the name is not an exercise's own (`level heavy slow: loaded heel raise`).
    """

    name: str
    gives: tuple[Give, ...]
    label: bool = False
    dosage: Dosage = NO_DOSAGE
    up: tuple[Trigger, ...] = ()
    down: tuple[Trigger, ...] = ()
    harder: tuple[HarderThan, ...] = ()


@frozen
class StartAt(Placed):
    """Start at a level if `condition`, on the first date only."""

    level: str
    condition: Condition


@frozen
class Progression(Placed):
    """Levels from easiest to hardest; `up` and `down` have already been handed to levels without their own.

    The highest level gets no `up`. `harder` claims, of the progression as a whole, a step past another level.
    """

    name: str
    title: Prose
    levels: tuple[Level, ...]
    like: str | None = None
    works: tuple[str, ...] = ()
    dosage: Dosage = NO_DOSAGE
    start_at: tuple[StartAt, ...] = ()
    harder: tuple[HarderThan, ...] = ()
    damaged: tuple[str, ...] = ()
