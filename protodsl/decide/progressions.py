"""One date of one item: what its sessions come to, and the one move that they lead to."""

from __future__ import annotations

import datetime
from collections.abc import Sequence
from dataclasses import dataclass
from decimal import Decimal
from typing import NamedTuple

from protodsl.decide.asked import as_asked
from protodsl.decide.context import Context
from protodsl.decide.evaluate import Verdict, newest
from protodsl.decide.loads import amount_of, dose_due, planned_load, reached, steps_in
from protodsl.decide.parts import Printed, level_of
from protodsl.decide.plan import Evidence, Move
from protodsl.decide.state import ItemState, Lift, Part, State
from protodsl.decide.streaks import Line, Streak
from protodsl.decide.terms import base
from protodsl.decide.truth import NO, YES
from protodsl.dose.adjust import row_for
from protodsl.model.case import Session
from protodsl.model.clinic import Clinic
from protodsl.model.dose import Adjust, LoadStep, SetsOf
from protodsl.model.exercise import Level, Progression, Trigger
from protodsl.model.protocol import Phase
from protodsl.units import UNITS, Quantity


@dataclass(frozen=True, slots=True)
class Today:
    """An item on one date: what is printed for it, and its session lines (missed ones left out)."""

    state: ItemState
    shown: Printed
    lines: tuple[Line, ...]
    phase: Phase | None
    context: Context
    whole: State
    clinic: Clinic

    def move(
        self, kind: str, before: str, after: str, line: Trigger | LoadStep | Adjust, deciding: tuple[Evidence, ...]
    ) -> None:
        """Keep a move with its date, condition, deciding values and line."""
        condition, streak = (None, 1) if isinstance(line, Adjust) else (line.condition, line.streak)
        lines = line.lines if isinstance(line, Trigger) else ()
        self.whole.moves.append(
            Move(self.context.date, kind, self.state.item, before, after, line.span, condition, streak, deciding, lines)
        )


def lines_of(
    item: ItemState, shown: Printed, sessions: Sequence[Session], whole: State, phase: Phase | None,
    context: Context, clinic: Clinic,
) -> tuple[Line, ...]:  # fmt: skip
    """The session lines of this date that are about the item, each with whether it was done as asked this morning."""
    names = names_of(item, shown)
    mine = [one for one in sessions if one.outcome != "missed" and one.item in names]
    if not mine:
        return ()
    covered = {one.item for one in mine}
    all_done = bool(covered & {None, item.item}) or all(_names(part) & covered for part in shown.parts)
    lines = []
    for one in mine:
        due = [part for part in shown.parts if one.item in (None, item.item) or one.item in _names(part)]
        asked = (
            all_done
            and bool(due)
            and all(_as_asked(one, part, item, shown.held, whole, phase, context, clinic) for part in due)
        )
        lines.append(Line(one, asked))
    return tuple(lines)


def names_of(item: ItemState, shown: Printed) -> set[str | None]:
    """What a session line that is about the item may name; None where all that is on the sheet is."""
    names: set[str | None] = {item.item}
    for part in shown.parts:
        names |= {None, *_names(part)}
    return names


def _names(part: Part) -> set[str | None]:
    return {part.asked, part.exercise.name if part.exercise else None} - {None}


def _as_asked(
    session: Session, part: Part, item: ItemState, held: bool, whole: State, phase: Phase | None, context: Context,
    clinic: Clinic,
) -> bool:  # fmt: skip
    if session.outcome != "done":
        return session.outcome == "as given"
    steps = None if held or part.swapped else item.steps.get(part.asked)
    dose = dose_due(part, 1 if held else item.weeks.number, steps)
    load = planned_load(part, dose, steps, phase, whole, context, clinic)
    return as_asked(session, dose, load.kilograms if load else None, context.case.side)


def record_lifts(today: Today) -> None:
    """Remember the last load that was lifted until tired; of one date the lightest stands, with the fewest."""
    alone = len(today.shown.parts) == 1
    for part in today.shown.parts:
        for line in today.lines:
            lift = _lift(part, line.session) if alone or line.session.item in _names(part) else None
            if lift is None or part.exercise is None:
                continue
            before = today.whole.lifts.get(part.exercise.name)
            if before is None or before.evidence.date != lift.evidence.date or lift[:2] < before[:2]:
                today.whole.lifts[part.exercise.name] = lift


def _lift(part: Part, session: Session) -> Lift | None:
    count = reached([one.volume for one in session.done])
    if session.load is None or count is None or part.exercise is None:
        return None
    evidence = Evidence(f"load of {part.exercise.name}", None, session.load, session.date, False, session.span)
    return Lift(base(session.load), count, evidence)


class Looked(NamedTuple):
    """A line as it stands this evening; `part` is the exercise that a step moves, None for `up` and `down when`."""

    line: Trigger | LoadStep
    part: Part | None
    streak: Streak
    verdict: Verdict
    looked: bool


def look_back(today: Today) -> list[Looked]:
    """Every `down when` and `take off` of the item as it stands this evening."""
    return [_look(today, line, part, False) for line, part in falling_lines(today)]


def falling_lines(today: Today) -> list[tuple[Trigger | LoadStep, Part | None]]:
    """The lines that lead back."""
    level = _level(today)
    down: list[tuple[Trigger | LoadStep, Part | None]] = [(line, None) for line in level.down] if level else []
    return down + [(step, part) for step, part in _steps(today) if step.change.value < 0]


def _look_up(today: Today) -> list[Looked]:
    """Every `up when` and `add`; what was done at another level than the computed one counts for none of them."""
    level = _level(today)
    lines: list[tuple[Trigger | LoadStep, Part | None]] = [(line, None) for line in level.up] if level else []
    lines += [(step, part) for step, part in _steps(today) if step.change.value > 0]
    if today.shown.held:
        for line, _ in lines:
            today.state.streaks.of(line, True).forget()
        return []
    return [_look(today, line, part, True) for line, part in lines]


def _look(today: Today, line: Trigger | LoadStep, part: Part | None, rising: bool) -> Looked:
    streak = today.state.streaks.of(line, rising, part.asked if part else "")
    looked = streak.look(today.context, today.lines)
    return Looked(line, part, streak, streak.verdict(today.context.date), looked)


def _level(today: Today) -> Level | None:
    progression = today.context.protocol.scope.progressions.get(today.state.item)
    return progression.levels[level_of(today.state, progression)] if progression is not None else None


def _steps(today: Today) -> list[tuple[LoadStep, Part]]:
    """The steps of the exercises whose load or volume can move: those that stand for themselves."""
    return [(step, part) for part in _stepping(today) for step in steps_in(part.layers)]


def _stepping(today: Today) -> list[Part]:
    return [] if today.shown.held else [part for part in today.shown.parts if not part.swapped]


def move(today: Today) -> None:
    """The one move of this date: down before up, and nothing rises unless everything that leads back is a clear no."""
    back = look_back(today)
    rising = _look_up(today)
    state = today.state
    state.clear = all(one.verdict.truth is NO for one in back)
    moved = state.moved
    progression = today.context.protocol.scope.progressions.get(state.item)
    if today.shown.held:
        return
    if progression is not None and _down(today, progression, back):
        return
    if _adjust(today) or _take_off(today, back, moved) or not state.clear:
        return
    if progression is not None and _up(today, progression, rising):
        return
    _add(today, rising)


def newer(verdict: Verdict, than: datetime.date | None) -> bool:
    """Whether a deciding value is newer than a date (None: any is)."""
    date = newest(verdict.deciding)
    return than is None or (date is not None and date > than)


def _down(today: Today, progression: Progression, back: list[Looked]) -> bool:
    state, level = today.state, level_of(today.state, progression)
    for line, _, _, verdict, _ in back:
        if not isinstance(line, Trigger) or verdict.truth is not YES or not newer(verdict, state.moved):
            continue
        here = progression.levels[level].name
        if level == 0:
            today.move("lowest", here, here, line, verdict.deciding)
            state.moved = today.context.date
            return False
        today.move("down", here, progression.levels[level - 1].name, line, verdict.deciding)
        _go(today, level - 1)
        return True
    return False


def _up(today: Today, progression: Progression, rising: list[Looked]) -> bool:
    state, level = today.state, level_of(today.state, progression)
    if level + 1 >= len(progression.levels):
        return False
    for line, _, _, verdict, looked in rising:
        if isinstance(line, Trigger) and looked and verdict.truth is YES and newer(verdict, state.entered):
            today.move("up", progression.levels[level].name, progression.levels[level + 1].name, line, verdict.deciding)
            _go(today, level + 1)
            return True
    return False


def _go(today: Today, level: int) -> None:
    today.state.level = level
    today.state.moved = today.context.date
    today.state.enter(today.context.date)


def _take_off(today: Today, back: list[Looked], moved: datetime.date | None) -> bool:
    """Steps down by an answer that is newer than the last step, or (`moved`) than the last move between levels."""
    stepped = []
    for step, part, streak, verdict, _ in back:
        if part is None or not isinstance(step, LoadStep) or verdict.truth is not YES:
            continue
        if newer(verdict, today.state.steps_of(part.asked).last or moved) and _step(today, part, step, verdict):
            stepped.append(streak)
    for streak in stepped:
        streak.forget()
    return bool(stepped)


def _add(today: Today, rising: list[Looked]) -> None:
    since = {part.asked: today.state.steps_of(part.asked).last for part in _stepping(today)}
    for step, part, streak, verdict, looked in rising:
        if part is None or not isinstance(step, LoadStep) or not looked or verdict.truth is not YES:
            continue
        if newer(verdict, since[part.asked] or today.state.entered) and _step(today, part, step, verdict):
            streak.forget()


def _step(today: Today, part: Part, step: LoadStep, verdict: Verdict) -> bool:
    """Make a step within its bound; whether there was room for one, and a known amount to step from."""
    unit = step.change.unit or UNITS["count"]
    dose = dose_due(part, today.state.weeks.number, None)
    start = amount_of(unit.dimension, part, dose, today.whole, today.context, today.clinic)
    if start is None:
        return False
    steps = today.state.steps_of(part.asked)
    before = start + steps.sums.get(unit.dimension, Decimal(0))
    after = before + base(step.change)
    if step.bound is not None:
        bound = base(step.bound)
        after = min(after, bound) if step.change.value > 0 else max(after, bound)
    after = max(after, Decimal(0))
    if after == before or (after > before) is not (step.change.value > 0):
        return False
    steps.sums[unit.dimension] = after - start
    steps.last = today.context.date
    shown = [str(Quantity(amount / unit.factor, unit)) for amount in (before, after)]
    today.move("add" if step.change.value > 0 else "take off", shown[0], shown[1], step, verdict.deciding)
    return True


def _adjust(today: Today) -> bool:
    """The load of the next session, by the repetitions reached in a set of this one; less needs nothing to be clear."""
    made = False
    for part in _stepping(today):
        rows = next((layer.adjusts for layer in part.layers if layer.adjusts), ())
        rule = next((one for one in rows if one.for_set is None), None)
        if rule is None:
            continue
        dose = dose_due(part, today.state.weeks.number, None)
        start = amount_of("mass", part, dose, today.whole, today.context, today.clinic)
        if start is None:
            continue
        steps = today.state.steps_of(part.asked)
        before = start + steps.sums.get("mass", Decimal(0))
        found = [
            (after, line.as_asked and today.state.clear)
            for line in today.lines
            if (after := _adjusted(rows, rule, line.session, before)) is not None
        ]
        after = min((one for one, _ in found), default=before)
        if after == before or (after > before and not all(may_rise for _, may_rise in found)):
            continue
        steps.sums["mass"] = after - start
        steps.last = today.context.date
        shown = [str(Quantity(amount, UNITS["kg"])) for amount in (before, after)]
        today.move("adjust", shown[0], shown[1], rule, ())
        made = True
    return made


def _adjusted(rows: tuple[Adjust, ...], rule: Adjust, session: Session, due: Decimal) -> Decimal | None:
    """The next load in kg: the load of the set that the rule reads, as other rows changed it, then by the rule."""
    counts = next((one.volume.counts for one in session.done if isinstance(one.volume, SetsOf)), ())
    load = base(session.load) if session.load else due
    for one in rows:
        if one.for_set == rule.by_set and one.by_set <= len(counts):
            load += _change(one, counts[one.by_set - 1])
    if rule.by_set > len(counts) or row_for(rule, counts[rule.by_set - 1]) is None:
        return None
    return max(Decimal(0), load + _change(rule, counts[rule.by_set - 1]))


def _change(rule: Adjust, repetitions: int) -> Decimal:
    row = row_for(rule, repetitions)
    return base(row.change) if row is not None and row.change is not None else Decimal(0)
