"""A case replayed date by date, so that nothing about where a person stands is ever stored.

On each date: placings and answers, then sessions at the level held that morning, then the moves of items, then the
phase, then what is newly given.
"""

from __future__ import annotations

import datetime
from collections import defaultdict
from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass, field
from typing import TypeVar

from protodsl.decide import phases, progressions
from protodsl.decide.context import Context, record_session
from protodsl.decide.corrections import corrected
from protodsl.decide.evaluate import newest
from protodsl.decide.gate import Gate
from protodsl.decide.offers import Given, barred, given, offers
from protodsl.decide.parts import Printed, level_of, printed
from protodsl.decide.plan import Move
from protodsl.decide.progressions import Today, lines_of, names_of, record_lifts
from protodsl.decide.start import start_level
from protodsl.decide.state import ItemState, PhaseState, State
from protodsl.decide.streaks import Line, Streaks
from protodsl.decide.truth import YES
from protodsl.decide.values import ANSWER, Values, known
from protodsl.decide.weeks import Weeks
from protodsl.model.case import Case, Observation, Placing, Session, Versions
from protodsl.model.clinic import Clinic
from protodsl.model.exercise import Give
from protodsl.model.protocol import Protocol

_Dated = TypeVar("_Dated", Observation, Session, Placing)


@dataclass(slots=True)
class Replay:
    """A case on its way from the first date to the date of the sheet.

    `alarms` are the dates on which each emergency or red flag line (by its text) became yes.
    """

    case: Case
    versions: Versions
    clinic: Clinic
    context: Context
    state: State
    calls: Streaks = field(default_factory=Streaks)
    alarms: dict[str, list[datetime.date]] = field(default_factory=dict)
    given: tuple[Given, ...] = ()

    @property
    def gate(self) -> Gate:
        """The gate as it stands today."""
        context = self.context
        phase = phases.phase_of(self.state, context)
        return Gate(context, phase, barred(context.protocol, phase, self.case, context.date))


def replay(case: Case, versions: Versions, clinic: Clinic, as_of: datetime.date) -> Replay:
    """Where the person stands on the evening of `as_of`."""
    (run,) = replayed(case, versions, clinic, (as_of,))
    return run


def replayed(
    case: Case, versions: Versions, clinic: Clinic, evenings: Sequence[datetime.date]
) -> Iterator[Replay]:
    """Where the person stands on each of these evenings, which are in order: one replay, that goes on from the last."""
    case, as_of = corrected(case), evenings[-1]
    first = versions.on(case.started)
    context = Context(case, first, case.started, case.started, Values())
    state = State(PhaseState(0, case.started))
    run = Replay(case, versions, clinic, context, state)
    answers = _by_date(one for one in case.observations if one.date <= as_of)
    sessions = _by_date(one for one in case.sessions if one.date <= as_of)
    placings = _by_date(one for one in case.placings if one.date <= as_of)
    for day in sorted(day for day in answers if day < case.started):
        _record_answers(context, answers[day])
    day = case.started
    while day <= as_of:
        context.date = day
        _follow(versions.on(day), run)
        _date(run, answers.get(day, ()), sessions.get(day, ()), placings.get(day, ()))
        if day in evenings:
            yield run
        day += datetime.timedelta(days=1)


def _follow(text: Protocol, run: Replay) -> None:
    """Go on with a changed text: the level and the phase are those of the same name, wherever they stand now."""
    before = run.context.protocol
    if text is before:
        return
    for item in run.state.items.values():
        old, new = (one.scope.progressions.get(item.item) for one in (before, text))
        if old is not None and new is not None:
            name = old.levels[level_of(item, old)].name
            item.level = next((at for at, one in enumerate(new.levels) if one.name == name), item.level)
    if before.phases and text.phases:
        name = before.phases[min(run.state.phase.index, len(before.phases) - 1)].name
        kept = next((at for at, one in enumerate(text.phases) if one.name == name), run.state.phase.index)
        run.state.phase.index = kept
    run.context.follow(text)


def _date(
    run: Replay, answers: Iterable[Observation], sessions: Iterable[Session], placings: Iterable[Placing]
) -> None:
    """One date of the replay."""
    state, context = run.state, run.context
    first = context.date == run.case.started
    for placing in placings:
        _place(placing, run)
    context.today = {}
    _record_answers(context, answers)
    for one in answers:
        context.today.setdefault((one.finding, one.side), []).append(known(one))
    done = tuple(sessions)
    active = [item for item in state.items.values() if item.given]
    for item in active:
        item.weeks.morning(context.date, item.recorded, item.clear)
    gate = run.gate
    shown = {item.item: printed(item, gate, context) for item in active}
    lines = {
        item.item: lines_of(item, shown[item.item], done, state, gate.phase, context, run.clinic) for item in active
    }
    every = _record_sessions(done, lines, context)
    for item in active:
        item.recorded = item.recorded or _recorded(item, shown[item.item], done)
        _one_item(item, shown[item.item], lines[item.item], run)
    if first:
        phases.begin(state, context)
        phases.look_back(state, context, every)
    else:
        phases.move(state, context, every)
    _call_streaks(run, every)
    _alarms(run)
    run.given = _give(run, done)


def _record_answers(context: Context, answers: Iterable[Observation]) -> None:
    for one in answers:
        context.values.record(one, ANSWER)


def _record_sessions(
    sessions: Iterable[Session], lines: Mapping[str, tuple[Line, ...]], context: Context
) -> tuple[Line, ...]:
    """Add the values of the sessions, doubtful where not done as asked; every line that was not missed."""
    every: list[Line] = []
    for session in sessions:
        mine = [line.as_asked for found in lines.values() for line in found if line.session is session]
        as_asked = bool(mine) and all(mine)
        record_session(context.values, session.values, not as_asked)
        if session.outcome != "missed":
            every.append(Line(session, as_asked))
    return tuple(every)


def _one_item(item: ItemState, shown: Printed, lines: tuple[Line, ...], run: Replay) -> None:
    today = Today(item, shown, lines, phases.phase_of(run.state, run.context), run.context, run.state, run.clinic)
    if lines:
        item.weeks.trained = True
    record_lifts(today)
    progressions.move(today)
    item.weeks.evening(item.clear)


def _call_streaks(run: Replay, lines: tuple[Line, ...]) -> None:
    """Calls that need several sessions in a row are looked at in every session, those of a phase while it lasts."""
    phase = phases.phase_of(run.state, run.context)
    flags = (*run.context.protocol.calls, *(phase.calls if phase else ()))
    run.calls.keep(flags)
    for flag in flags:
        if flag.streak > 1 and lines:
            run.calls.of(flag, False).look(run.context, lines)


def _alarms(run: Replay) -> None:
    """Keep the dates on which a danger sign became yes."""
    for flag in (*run.context.protocol.emergencies, *run.context.protocol.red_flags):
        dates = run.alarms.setdefault(flag.line, [])
        verdict = run.context.outside(flag.condition, YES)
        said = newest(verdict.deciding) if verdict.truth is YES else None
        if said is not None and said not in dates:
            dates.append(said)


def _place(placing: Placing, run: Replay) -> None:
    """The clinician's word stands in place of what was computed so far."""
    context, state = run.context, run.state
    progression = context.protocol.scope.progressions.get(placing.item)
    if progression is None:
        return
    level = next((at for at, one in enumerate(progression.levels) if one.name == placing.level), None)
    if level is None:
        return
    item = state.items.get(placing.item)
    before = progression.levels[min(item.level, len(progression.levels) - 1)].name if item else ""
    if any(one.date == context.date for one in run.case.versions):
        state.moves = [one for one in state.moves if one.item != placing.item]
    if item is None:
        item = _new(Give(placing.item), context)
        item.given = item.ever = False
        state.items[placing.item] = item
    item.level, item.moved = level, context.date
    item.enter(context.date)
    state.moves.append(
        Move(context.date, "place", placing.item, before, placing.level, placing.span, because=placing.because)
    )


def _new(give: Give, context: Context) -> ItemState:
    return ItemState(give.item, give, context.date, context.date, context.date, Weeks(context.date))


def _give(run: Replay, sessions: tuple[Session, ...]) -> tuple[Given, ...]:
    """What is given from this evening on; an item given for the first time starts at a level."""
    state, context = run.state, run.context
    phase = phases.phase_of(state, context)
    out = barred(context.protocol, phase, run.case, context.date)
    found = given(offers(context.protocol, phase, run.case, context.date), out, context)
    now: dict[str, Give] = {}
    for one in found:
        if one.truth is YES:
            now.setdefault(one.offer.give.item, one.offer.give)
    for item in state.items.values():
        if item.given and item.item not in now:
            item.given = False
            state.moves.append(Move(context.date, "withdrawn", item.item, "", ""))
    for name, give in now.items():
        known = state.items.get(name)
        if known is None:
            known = state.items[name] = _new(give, context)
            _start(known, run, sessions)
            continue
        known.give = give
        if not known.given:
            _come_back(known, run, sessions)
    for item in state.items.values():
        if item.given and sessions and not item.recorded:
            item.recorded = _recorded(item, printed(item, run.gate, context), sessions)
    return found


def _start(item: ItemState, run: Replay, sessions: tuple[Session, ...]) -> None:
    context = run.context
    progression = context.protocol.scope.progressions.get(item.item)
    if progression is None:
        run.state.moves.append(Move(context.date, "given", item.item, "", item.item, item.give.span))
    else:
        item.level, line, verdict = start_level(progression, context)
        run.state.moves.append(
            Move(
                context.date,
                "start",
                item.item,
                "",
                progression.levels[item.level].name,
                line.span if line else progression.levels[item.level].span,
                line.condition if line else None,
                1,
                verdict.deciding if verdict else (),
            )
        )
    _first_sessions(item, run, sessions)


def _come_back(item: ItemState, run: Replay, sessions: tuple[Session, ...]) -> None:
    """An item that was placed before it was ever given, or that was gone for a while: its level is kept."""
    context = run.context
    kind = "back" if item.ever else "given"
    if not item.ever:
        item.first_given, item.ever = context.date, True
    item.given, item.since = True, context.date
    item.enter(context.date)
    run.state.moves.append(Move(context.date, kind, item.item, "", item.item, item.give.span))
    _first_sessions(item, run, sessions)


def _first_sessions(item: ItemState, run: Replay, sessions: tuple[Session, ...]) -> None:
    """Sessions of the date an item is given on: done before anybody held its level, they count for going back alone."""
    gate = run.gate
    shown = printed(item, gate, run.context)
    lines = lines_of(item, shown, sessions, run.state, gate.phase, run.context, run.clinic)
    today = Today(item, shown, lines, gate.phase, run.context, run.state, run.clinic)
    if lines:
        record_lifts(today)
        progressions.look_back(today)
    item.clear = not progressions.falling_lines(today)


def _recorded(item: ItemState, shown: Printed, sessions: tuple[Session, ...]) -> bool:
    """Whether any session of the item was written down on this date, a missed one too."""
    names = names_of(item, shown)
    return any(session.item in names for session in sessions)


def _by_date(found: Iterable[_Dated]) -> dict[datetime.date, list[_Dated]]:
    dates: dict[datetime.date, list[_Dated]] = defaultdict(list)
    for one in found:
        dates[one.date].append(one)
    for same in dates.values():
        if len(same) > 1:
            same.sort(key=_apart)
    return dates


def _apart(one: Observation | Session | Placing) -> tuple[str, ...]:
    """What tells the lines of a date apart: no places, so the order in which they were written has no say."""
    if isinstance(one, Observation):
        return one.finding, one.side or "", repr(one.value), repr(one.because)
    return (repr(one),)
