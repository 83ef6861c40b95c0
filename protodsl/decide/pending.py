"""Lines that can move somebody, as they stand this evening: how many sessions in a row so far, and what is held."""

from __future__ import annotations

from collections.abc import Iterator
from itertools import takewhile

from protodsl.decide.loads import steps_in
from protodsl.decide.parts import level_of, printed
from protodsl.decide.plan import HeldWeek, Pending
from protodsl.decide.replay import Replay
from protodsl.decide.state import ItemState
from protodsl.decide.streaks import Sequential, Streaks
from protodsl.decide.truth import NO, UNKNOWN, YES


def pending(run: Replay) -> tuple[Pending, ...]:
    """Every line that can move an item that is given, or the phase."""
    found = [one for item in run.state.items.values() if item.given for one in _of_item(item, run)]
    phase = run.gate.phase
    if phase is not None:
        kept = run.state.phase.streaks
        found += [_pending("back to", line, False, "", kept, run) for line in phase.back_to]
        found += [_pending("until", line, True, "", kept, run) for line in phase.until]
    return tuple(found)


def held_weeks(run: Replay) -> tuple[HeldWeek, ...]:
    """Items with rows for weeks of which none begins while a line that leads back is yes or unknown."""
    found = []
    for item in run.state.items.values():
        shown = printed(item, run.gate, run.context) if item.given and not item.clear else None
        if shown is not None and any(layer.weeks for part in shown.parts for layer in part.layers):
            back = [one.truth for one in _of_item(item, run) if one.kind in ("down when", "take off")]
            found.append(HeldWeek(item.item, item.weeks.number, YES in back))
    return tuple(found)


def _of_item(item: ItemState, run: Replay) -> Iterator[Pending]:
    progression = run.context.protocol.scope.progressions.get(item.item)
    if progression is not None:
        level = progression.levels[level_of(item, progression)]
        for line in level.down:
            yield _pending("down when", line, False, item.item, item.streaks, run)
        for line in level.up:
            yield _pending("up when", line, True, item.item, item.streaks, run)
    for part in printed(item, run.gate, run.context).parts:
        for step in steps_in(part.layers):
            rising = step.change.value > 0
            kind = "add" if rising else "take off"
            yield _pending(kind, step, rising, item.item, item.streaks, run, part.asked)


def _pending(
    kind: str, line: Sequential, rising: bool, item: str, streaks: Streaks, run: Replay, owner: str = ""
) -> Pending:
    today = run.context.date
    if kind in ("until", "back to") and line.streak == 1:
        truth = run.context.outside(line.condition, NO if rising else YES, rising).truth
        return Pending(kind, item, line.span, truth, int(truth is YES), 1)
    kept = streaks.known(line, rising, owner)
    if kept is None or not kept.looks:
        return Pending(kind, item, line.span, UNKNOWN, 0, line.streak)
    met = sum(1 for _ in takewhile(lambda look: look.verdict.truth is YES, reversed(kept.looks)))
    last = kept.looks[-1].date
    return Pending(kind, item, line.span, kept.verdict(today).truth, met, line.streak, last, kept.is_old(today))
