"""Phases: run on while `until` is yes on the first date, afterwards one move a date, back before on."""

from __future__ import annotations

from collections.abc import Iterable, Sequence

from protodsl.decide.context import Context
from protodsl.decide.evaluate import Verdict, joined
from protodsl.decide.plan import Move
from protodsl.decide.progressions import newer
from protodsl.decide.state import PhaseState, State
from protodsl.decide.streaks import Line
from protodsl.decide.truth import NO, YES
from protodsl.model.protocol import BackTo, Phase, Until


def phase_of(state: State, context: Context) -> Phase | None:
    """The phase a person is in; None where the protocol has none."""
    phases = context.protocol.phases
    return phases[min(state.phase.index, len(phases) - 1)] if phases else None


def begin(state: State, context: Context) -> None:
    """The first date: past every phase whose `until` is yes, as long as nothing leads back."""
    phases = context.protocol.phases
    if not phases:
        return
    while state.phase.index + 1 < len(phases):
        phase = phases[state.phase.index]
        at_once = [line for line in phase.back_to if line.streak == 1]  # nobody has had sessions in this phase yet
        backs = _looked(state.phase, context, (), at_once, False)
        untils = _looked(state.phase, context, (), phase.until, True)
        state.phase.streaks.forget()
        verdict = _ended(phase, untils)
        if verdict is None or not _clear(backs):
            break
        state.phase.index += 1
    name = phases[state.phase.index].name
    state.moves.append(Move(context.date, "phase start", "", "", name, phases[state.phase.index].span))


def look_back(state: State, context: Context, lines: Sequence[Line]) -> None:
    """The first sessions, done before there was a phase, count for going back alone."""
    phase = phase_of(state, context)
    if phase is not None and lines:
        _looked(state.phase, context, lines, phase.back_to, False)


def move(state: State, context: Context, lines: Sequence[Line]) -> None:
    """The one move between phases of this date; `lines` are the sessions of any item."""
    phase = phase_of(state, context)
    if phase is None:
        return
    backs = _looked(state.phase, context, lines, phase.back_to, False)
    untils = _looked(state.phase, context, lines, phase.until, True)
    for line, verdict in backs:
        if isinstance(line, BackTo) and verdict.truth is YES and newer(verdict, state.phase.moved):
            _go(state, context, _index(line.phase, context), phase, line, verdict)
            return
    verdict_on = _ended(phase, untils)
    if verdict_on is None or not _clear(backs) or state.phase.index + 1 >= len(context.protocol.phases):
        return
    if newer(verdict_on, state.phase.since):
        _go(state, context, state.phase.index + 1, phase, phase.until[0], verdict_on)


def _looked(
    held: PhaseState, context: Context, lines: Sequence[Line], conditions: Iterable[Until | BackTo], rising: bool
) -> list[tuple[Until | BackTo, Verdict]]:
    """Each line as it stands on this date; one that is not about a streak takes the last values there are."""
    found: list[tuple[Until | BackTo, Verdict]] = []
    for line in conditions:
        if line.streak == 1:
            verdict = context.outside(line.condition, NO if rising else YES, rising)
        else:
            streak = held.streaks.of(line, rising)
            looked = streak.look(context, lines) if lines else False
            verdict = streak.verdict(context.date)
            if rising and not looked and verdict.truth is YES:
                verdict = Verdict(NO, verdict.deciding)
        found.append((line, verdict))
    return found


def _ended(phase: Phase, untils: list[tuple[Until | BackTo, Verdict]]) -> Verdict | None:
    """The verdict by which a phase ends: all its `until` lines are yes; None where it does not end."""
    if not phase.until or any(verdict.truth is not YES for _, verdict in untils):
        return None
    return joined([verdict for _, verdict in untils], True)


def _clear(backs: list[tuple[Until | BackTo, Verdict]]) -> bool:
    return all(verdict.truth is NO for _, verdict in backs)


def _index(name: str, context: Context) -> int:
    return next((at for at, phase in enumerate(context.protocol.phases) if phase.name == name), 0)


def _go(state: State, context: Context, index: int, phase: Phase, line: Until | BackTo, verdict: Verdict) -> None:
    after = context.protocol.phases[index]
    back = isinstance(line, BackTo)
    state.moves.append(
        Move(
            context.date,
            "phase back" if back else "phase",
            "",
            phase.name,
            after.name,
            line.span,
            line.condition,
            line.streak,
            verdict.deciding,
            line.lines if isinstance(line, BackTo) else (),
        )
    )
    state.phase.index = index
    state.phase.since = state.phase.moved = context.date
    state.phase.streaks.forget()
    context.phase_start = context.date
