"""What is on the sheet and what is not, each with its reasons, from where a person stands."""

from __future__ import annotations

import datetime
from dataclasses import dataclass, field, replace

from protodsl.decide.evaluate import Verdict
from protodsl.decide.focus import weaker_side
from protodsl.decide.gate import Gate
from protodsl.decide.loads import dose_due, planned_load, planned_sets, unbounded
from protodsl.decide.offers import Given
from protodsl.decide.parts import Printed, level_of, printed
from protodsl.decide.plan import (
    Guarded,
    LaterDose,
    Move,
    NotGiven,
    PlannedItem,
    PlannedLevel,
    Reason,
)
from protodsl.decide.questions import Asked
from protodsl.decide.replay import Replay
from protodsl.decide.state import ItemState, Part
from protodsl.decide.truth import NO, UNKNOWN, YES
from protodsl.decide.values import last_day, later
from protodsl.decide.weeks import WEEK
from protodsl.diagnostics import cases as say
from protodsl.diagnostics.diagnostic import Diagnostic
from protodsl.dose.totals import is_with_us
from protodsl.model.condition import Condition
from protodsl.model.dosing import table_end
from protodsl.model.exercise import Avoid, Caution, Exercise
from protodsl.source import Span


@dataclass(slots=True)
class Sheet:
    """What came together for the sheet."""

    items: list[PlannedItem] = field(default_factory=list)
    not_given: list[NotGiven] = field(default_factory=list)
    told: list[Move] = field(default_factory=list)
    levels: list[PlannedLevel] = field(default_factory=list)
    said: list[Diagnostic] = field(default_factory=list)
    wanted: list[str] = field(default_factory=list)


def gather(run: Replay, last: datetime.date, asked: Asked) -> Sheet:
    """Everything that is offered, through the gate; `last` is the end of the period."""
    sheet = Sheet()
    gate = run.gate
    done: dict[str, Given] = {}
    for one in run.given:
        item = one.offer.give.item
        if one.truth is not YES:
            _not_given(one, run, sheet, asked)
        elif item not in done:
            done[item] = one
            _given(one, run.state.items[item], gate, run, last, sheet, asked)
        else:
            _again(one, done[item], run.state.items[item], gate, run, sheet)
    return sheet


def _again(one: Given, first: Given, state: ItemState, gate: Gate, run: Replay, sheet: Sheet) -> None:
    """An item that two lines give is printed once; that they give it with two doses is an error."""
    mine, other = (printed(replace(state, give=each.offer.give), gate, run.context) for each in (one, first))
    week = 1 if mine.held else state.weeks.number
    for part, before in zip(mine.parts, other.parts, strict=True):
        if part.exercise is not None and dose_due(part, week, None) != dose_due(before, week, None):
            sheet.said.append(say.two_doses_now(part.exercise.name, one.offer.give.span, first.offer.give.span))
        elif part.exercise is not None and (one.offer.give.supervised or part.give.supervised):
            _with_us(part.exercise.name, sheet)


def _given(
    one: Given, state: ItemState, gate: Gate, run: Replay, last: datetime.date, sheet: Sheet, asked: Asked
) -> None:
    shown = printed(state, gate, run.context)
    level = _level(state, shown, run)
    if level is not None:
        sheet.levels.append(level)
    base = (*_offer_reasons(one), *_level_reasons(state, level, run))
    if shown.held and level is not None:
        sheet.told.append(Move(run.context.date, "held", state.item, level.level, level.printed, state.give.span))
    for reason in shown.waiting:
        if reason.truth is UNKNOWN:
            asked.add("give", state.item, reason.span, None, reason.unknown)
        sheet.not_given.append(NotGiven(state.item, reason.name, None, (*base, reason)))
    for part in shown.lost:
        asked.of_reasons(part.reasons, state.item)
        sheet.wanted += _works(part.asked, run)
        sheet.not_given.append(NotGiven(state.item, part.asked, None, (*base, *part.reasons)))
    for part in shown.parts:
        asked.of_reasons(part.reasons, state.item)
        if part.swapped and part.exercise is not None:
            sheet.wanted += _works(part.asked, run)
            sheet.not_given.append(NotGiven(state.item, part.asked, part.exercise.name, (*base, *part.reasons)))
        planned = _plan(one, part, state, shown, level, run, last, base, sheet, asked)
        if planned is not None:
            _put(planned, sheet)


def _plan(
    one: Given, part: Part, state: ItemState, shown: Printed, level: PlannedLevel | None, run: Replay,
    last: datetime.date, base: tuple[Reason, ...], sheet: Sheet, asked: Asked,
) -> PlannedItem | None:  # fmt: skip
    """One exercise with its dose today; None where its table is at its end or its load has no bound."""
    context, exercise = run.context, part.exercise
    assert exercise is not None
    phase = run.gate.phase
    week = 1 if shown.held else state.weeks.number
    steps = None if shown.held or part.swapped else state.steps.get(part.asked)
    dose = dose_due(part, week, steps)
    reasons = (*base, *part.reasons)
    start = context.date if shown.held else state.entered
    end = table_end(part.layers)
    if end is not None and week > end:
        return _ended(state, part, "table ended", _last_row(part), reasons, sheet)
    if dose.lasting is not None and context.date >= later(start, dose.lasting):
        return _ended(state, part, "dose ended", part.give.span, reasons, sheet)
    load = planned_load(part, dose, steps, phase, run.state, context, run.clinic)
    limit = unbounded(part, dose, load, phase)
    if limit is not None:
        sheet.wanted += exercise.works
        reasons = (*reasons, Reason("load limit", exercise.name, limit.span))
        sheet.not_given.append(NotGiven(state.item, part.asked, None, reasons))
        return None
    if load is not None and load.kilograms is None:
        asked.add("load", state.item, part.give.span, None, load.evidence)
    focus = exercise.focus if part.swapped else part.give.focus or one.offer.give.focus or exercise.focus
    side, unknown = weaker_side(focus, context) if focus is not None else (None, ())
    if focus is not None:
        asked.add("focus", exercise.name, focus.span, None, unknown)
    choice = one.offer.choice
    planned = PlannedItem(
        exercise,
        state.item,
        part.asked,
        one.offer.give,
        dose,
        part.layers,
        state.first_given,
        state.since,
        week,
        load,
        side,
        level,
        supervised=exercise.supervised or part.give.supervised or one.offer.give.supervised or is_with_us(dose),
        part=one.offer.part,
        choice=choice.span if choice is not None else None,
        takes=choice.count if choice is not None else 0,
        options=one.options,
        equipment=_equipment(exercise, run),
        avoids=tuple(guarded(line, run, asked, exercise.name) for line in exercise.avoid),
        cautions=tuple(guarded(line, run, asked, exercise.name) for line in exercise.caution),
        reasons=reasons,
        sets=planned_sets(part, dose, load, run.clinic),
    )
    return replace(planned, later=_later(planned, part, steps, start, last, run))


def _ended(
    state: ItemState, part: Part, kind: str, span: Span, reasons: tuple[Reason, ...], sheet: Sheet
) -> PlannedItem | None:
    """Past the end of its table an item is no longer given, and it is said."""
    sheet.not_given.append(NotGiven(state.item, part.asked, None, (*reasons, Reason(kind, part.asked, span))))
    sheet.told.append(Move(state.entered, "ended", state.item, part.asked, "", span))
    sheet.wanted += part.exercise.works if part.exercise is not None else ()
    return None


def _last_row(part: Part) -> Span:
    rows = next(layer.weeks for layer in part.layers if layer.weeks)
    return rows[-1].span


def _later(
    item: PlannedItem, part: Part, steps: object, start: datetime.date, last: datetime.date, run: Replay
) -> tuple[LaterDose, ...]:
    """Doses that begin within the period, if every week counts from now on."""
    found: list[LaterDose] = []
    state, context = run.state, run.context
    mine = state.items[item.item].steps.get(part.asked) if steps is not None else None
    end = table_end(part.layers)
    if item.dose.lasting is not None and later(start, item.dose.lasting) <= last:
        found.append(LaterDose(later(start, item.dose.lasting), item.week, None))
    for added in run.case.added:
        if added.give is item.give and added.until is not None and context.date <= added.until < last:
            found.append(LaterDose(added.until + datetime.timedelta(days=1), item.week, None))
    if not any(layer.weeks for layer in part.layers):
        return tuple(sorted(found, key=lambda one: one.date))
    day = start + datetime.timedelta(days=((context.date - start).days // WEEK + 1) * WEEK)
    week, dose = item.week, item.dose
    while day <= last:
        week += 1
        if end is not None and week > end:
            found.append(LaterDose(day, week, None))
            break
        after = dose_due(part, week, mine)
        if after != dose:
            load = planned_load(part, after, mine, run.gate.phase, state, context, run.clinic)
            found.append(LaterDose(day, week, after, load))
            dose = after
        day += datetime.timedelta(days=WEEK)
    return tuple(sorted(found, key=lambda one: one.date))


def _put(planned: PlannedItem, sheet: Sheet) -> None:
    """An exercise is printed once; two different doses of it are an error."""
    before = next((one for one in sheet.items if one.exercise.name == planned.exercise.name), None)
    if before is None:
        sheet.items.append(planned)
    elif (before.dose, _weight(before)) != (planned.dose, _weight(planned)):
        sheet.said.append(say.two_doses_now(planned.exercise.name, planned.give.span, before.give.span))
    elif planned.supervised:
        _with_us(planned.exercise.name, sheet)


def _with_us(exercise: str, sheet: Sheet) -> None:
    """What any of the lines that give an exercise keeps for the clinic is not done at home."""
    sheet.items = [replace(one, supervised=True) if one.exercise.name == exercise else one for one in sheet.items]


def _weight(item: PlannedItem) -> object:
    return item.load.kilograms if item.load is not None else None


def _level(state: ItemState, shown: Printed, run: Replay) -> PlannedLevel | None:
    progression = run.context.protocol.scope.progressions.get(state.item)
    if progression is None:
        return None
    names = [level.name for level in progression.levels]
    at = level_of(state, progression)
    there = names[shown.level] if shown.level is not None else ""
    return PlannedLevel(state.item, names[at], at + 1, len(names), state.entered, there, shown.held)


def _offer_reasons(one: Given) -> tuple[Reason, ...]:
    give, offer = one.offer.give, one.offer
    found = [
        Reason("added" if offer.because else "give", give.item, give.span, YES, one.verdict.deciding, (), offer.because)
    ]
    if offer.choice is not None:
        found.append(Reason("choice", give.item, offer.choice.span))
    return tuple(found)


def _level_reasons(state: ItemState, level: PlannedLevel | None, run: Replay) -> tuple[Reason, ...]:
    """The move by which the level was reached."""
    if level is None:
        return ()
    moves = [one for one in run.state.moves if one.item == state.item and one.kind in ("start", "up", "down", "place")]
    if not moves:
        return ()
    last = moves[-1]
    kind = {"start": "start", "place": "place"}.get(last.kind, "level")
    found = [Reason(kind, level.level, last.span, YES, last.deciding, (), last.because)]
    if level.held:
        found.append(Reason("held", level.printed, state.give.span))
    return tuple(found)


def _not_given(one: Given, run: Replay, sheet: Sheet, asked: Asked) -> None:
    """An offer that is not on the sheet: its condition is no or unknown, it is left out, or another was chosen."""
    give = one.offer.give
    until = None
    because = None
    if one.truth is UNKNOWN:
        asked.add("give", give.item, give.span, give.condition, one.verdict.unknown)
        sheet.wanted += _works(give.item, run)
        if give.item in run.state.items:
            until = _given_until(give.item, one.verdict, run)
    kind, span = "condition", give.span
    if one.personal:
        kind = "leave out"
        sheet.wanted += _works(give.item, run)
        personal = run.gate.left_out(give.item)
        if personal is not None:
            kind, span, because = "personal", personal.span, personal.because
    elif one.passed_over and one.offer.choice is not None:
        kind, span = "choice", one.offer.choice.span
    verdict = one.verdict
    reason = Reason(kind, give.item, span, one.truth, verdict.deciding, verdict.unknown, because)
    sheet.not_given.append(NotGiven(give.item, give.item, None, (reason,), until=until))


def _given_until(item: str, verdict: Verdict, run: Replay) -> datetime.date | None:
    """The last date on which it was given, where it went because what was known grew too old; None: it went before."""
    findings = run.context.protocol.scope.findings
    stale = [one for one in verdict.unknown if one.stale and one.date is not None and one.finding in findings]
    days = {last_day(findings[one.finding], one.date) for one in stale if one.date is not None}
    went = [move.date for move in run.state.moves if move.kind == "withdrawn" and move.item == item]
    last = went[-1] - datetime.timedelta(days=1) if went else None
    return last if last in days else None


def _works(name: str, run: Replay) -> tuple[str, ...]:
    scope = run.context.protocol.scope
    if name in scope.progressions:
        return scope.progressions[name].works
    return scope.exercises[name].works if name in scope.exercises else ()


def _equipment(exercise: Exercise, run: Replay) -> tuple[tuple[str, ...], ...]:
    has = run.case.has
    return tuple(
        need.options if has is None else tuple(one for one in need.options if one in has) for need in exercise.needs
    )


def guarded(line: Avoid | Caution, run: Replay, asked: Asked, name: str) -> Guarded:
    """A line with a condition as it stands; it stays on the sheet unless its no can never change (5.9)."""
    verdict = run.context.outside(line.condition, YES)
    if verdict.truth is UNKNOWN and isinstance(line, Caution):
        asked.add("caution", name, line.span, line.condition, verdict.unknown)
    stays = verdict.truth is not NO or may_change(line.condition, run)
    return Guarded(line, verdict.truth, stays, verdict.deciding, verdict.unknown)


def may_change(condition: Condition, run: Replay) -> bool:
    """Whether anything a condition looks at is fresh for a time only."""
    needs = run.context.needs(condition)
    findings = run.context.protocol.scope.findings
    return needs.timed or any(
        findings[name].fresh is not None or findings[name].one_session for name in needs.findings if name in findings
    )


def uncovered(sheet: Sheet) -> tuple[str, ...]:
    """Targets of what is missing for which nothing is left on the sheet, in the order they were missed."""
    covered = {target for item in sheet.items for target in item.exercise.works}
    return tuple(dict.fromkeys(target for target in sheet.wanted if target not in covered))


def with_uncovered(sheet: Sheet, run: Replay) -> tuple[NotGiven, ...]:
    """What is not given, each with its own targets that nothing covers."""
    missing = set(uncovered(sheet))
    return tuple(
        replace(one, uncovered=tuple(target for target in _works(one.asked, run) if target in missing))
        for one in sheet.not_given
    )
