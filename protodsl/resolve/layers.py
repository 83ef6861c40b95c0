"""What one layer says on dose: common line, week rows, set rows, adjustments and steps."""

from __future__ import annotations

from typing import Any

from protodsl.diagnostics import kinds as say
from protodsl.model.dose import NO_DOSAGE, NO_DOSE, Adjust, AdjustRow, Dosage, LoadStep, SetRow, WeekRow
from protodsl.resolve.conditions import condition
from protodsl.resolve.doses import dose, positive
from protodsl.resolve.names import Block, Names
from protodsl.resolve.quantities import counted, quantity, quantity_in
from protodsl.source import Span
from protodsl.syntax import tree
from protodsl.units import Quantity

DOSE_KEYWORDS = ("dose", "set", "adjust", "add", "take off")
_STEP_DIMENSIONS = ("mass", "count", "time", "length", "steps", "breaths")


def dose_line(line: tree.DoseLine, names: Names) -> WeekRow | None:
    """A dose line; the common one is a row with `first` 0, parted from the others in `dosage`."""
    parts = dose(line.parts, names)
    if line.weeks is None:
        return WeekRow(0, None, parts, span=line.head)
    weeks = line.weeks
    if not counted(weeks.first, 1, f"week {weeks.first}", "weeks are counted from 1", weeks, names):
        return None
    if weeks.last is not None and weeks.last < weeks.first:
        written = f"weeks {weeks.first} to {weeks.last}"
        names.say(say.impossible_number(written, "it runs backwards", "write the earlier week first", weeks.span))
        return None
    return WeekRow(weeks.first, weeks.last, parts, span=line.head)


def set_line(line: tree.DoseLine, names: Names) -> SetRow | None:
    """The dose of one set."""
    number = line.number or 0
    if not counted(number, 1, f"set {number}", "sets are counted from 1", line, names):
        return None
    return SetRow(number, dose(line.parts, names), span=line.head)


def adjust_line(line: tree.AdjustLine, names: Names) -> Adjust | None:
    """Load by repetitions."""
    rows = [_adjust_row(row, names) for row in line.rows]
    for number in (line.by_set, line.for_set):
        if number is not None and not counted(number, 1, f"set {number}", "sets are counted from 1", line, names):
            return None
    whole = tuple([row for row in rows if row is not None])
    return Adjust(line.by_set, line.for_set, whole, span=line.head) if len(whole) == len(rows) else None


def _adjust_row(row: tree.AdjustRow, names: Names) -> AdjustRow | None:
    change: Quantity | None = None
    if row.change is not None:
        change = quantity_in(row.change, ("mass",), "what is added to a load", "a weight", "add 1 kg", names)
        if change is None:
            return None
    if row.high is not None and row.high < row.low:  # the parser has said so
        return None
    return AdjustRow(row.low, row.high, change, span=row.span)


def step_line(line: tree.StepLine, names: Names) -> LoadStep | None:
    """`add` or `take off`: what is taken off is negative."""
    when = condition(line.condition, names)
    what, needs = "a step", "a weight, repetitions, a time or a distance"
    amount = quantity_in(line.amount, _STEP_DIMENSIONS, what, needs, "add 2.5 kg", names)
    if amount is None or not positive(amount.value, line.amount, names):
        return None
    bound = quantity(line.bound) if line.bound else None
    if line.bound is not None and bound is not None and bound.dimension != amount.dimension:
        example = f"{'up' if line.keyword == 'add' else 'down'} to 10 {amount.unit.name if amount.unit else ''}"
        quantity_in(line.bound, (amount.dimension,), "the end of the steps", "measured like a step", example, names)
        return None
    if when is None or not streak_fits(line.streak, line, names):
        return None
    change = amount if line.keyword == "add" else Quantity(-amount.value, amount.unit)
    return LoadStep(change, when, line.streak or 1, bound, span=line.head)


def streak_fits(streak: int | None, node: tree.Node, names: Names) -> bool:
    """Whether a number of sessions in a row can be meant."""
    if streak is None:
        return True
    return counted(streak, 1, f"{streak} sessions in a row", "one session is the least", node, names)


def dosage(block: Block) -> Dosage:
    """The lines of one layer taken together."""
    rows: list[WeekRow] = block.get("dose", [])
    steps: list[Any] = [*block.get("add", ()), *block.get("take off", ())]
    sets, adjusts = block.get("set", ()), block.get("adjust", ())
    if not (rows or steps or sets or adjusts):
        return NO_DOSAGE
    common, weeks = NO_DOSE, []
    for row in rows:
        if row.first == 0:
            common = row.dose
        else:
            weeks.append(row)
    places = [one.span for one in (*rows, *sets, *adjusts, *steps)]
    return Dosage(common, tuple(weeks), tuple(sets), tuple(adjusts), tuple(steps), span=places[0])


def one_dose(block: Block, names: Names) -> None:
    """One layer has one common dose line, and one line for each set; what stands twice is named."""
    commons = [(row.span, "dose") for row in block.get("dose", ()) if row.first == 0]
    sets = [(row.span, f"set {row.number}") for row in block.get("set", ())]
    seen: dict[str, Span] = {}
    for span, words in (*commons, *sets):
        first = seen.setdefault(words, span)
        if first is not span:
            names.say(say.dose_twice(words, span, first))
