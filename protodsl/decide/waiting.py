"""Lines that wait for an answer before they can move somebody, as they stand this evening."""

from __future__ import annotations

from protodsl.decide.context import Context
from protodsl.decide.loads import steps_in
from protodsl.decide.parts import level_of, printed
from protodsl.decide.questions import Asked
from protodsl.decide.replay import Replay
from protodsl.decide.state import ItemState
from protodsl.decide.streaks import Sequential, Streaks
from protodsl.decide.truth import NO, UNKNOWN, YES


def ask(run: Replay, asked: Asked) -> None:
    """Ask for what the moves of every given item, and of the phase, wait for."""
    for item in run.state.items.values():
        if item.given:
            _of_item(item, run, asked)
    phase = run.gate.phase
    if phase is None:
        return
    for back in phase.back_to:
        _wait("back to", back, False, "", run.state.phase.streaks, run.context, asked)
    for until in phase.until:
        _wait("until", until, True, "", run.state.phase.streaks, run.context, asked)


def _of_item(item: ItemState, run: Replay, asked: Asked) -> None:
    progression = run.context.protocol.scope.progressions.get(item.item)
    if progression is not None:
        level = progression.levels[level_of(item, progression)]
        for down in level.down:
            _wait("down when", down, False, item.item, item.streaks, run.context, asked)
        for up in level.up:
            _wait("up when", up, True, item.item, item.streaks, run.context, asked)
    for part in printed(item, run.gate, run.context).parts:
        for step in steps_in(part.layers):
            kind = "add" if step.change.value > 0 else "take off"
            _wait(kind, step, kind == "add", item.item, item.streaks, run.context, asked, part.asked)


def _wait(
    kind: str,
    line: Sequential,
    rising: bool,
    item: str,
    streaks: Streaks,
    context: Context,
    asked: Asked,
    owner: str = "",
) -> None:
    """Ask where the line is unknown as it was last looked at, or as it stands where that was never or too long ago."""
    kept = streaks.known(line, rising, owner)
    if kept is not None and kept.looks and not kept.is_old(context.date):
        verdict = kept.verdict(context.date)
        if verdict.truth is UNKNOWN:
            asked.add(kind, item, line.span, line.condition, verdict.unknown or context.unknown_in(line.condition))
        return
    verdict = context.outside(line.condition, NO if rising else YES)
    if verdict.truth is UNKNOWN:
        asked.add(kind, item, line.span, line.condition, verdict.unknown)
