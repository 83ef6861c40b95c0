"""Emergencies, red flags and calls as they stand today."""

from __future__ import annotations

from collections.abc import Sequence

from protodsl.decide.evaluate import Verdict
from protodsl.decide.plan import REFER, UNANSWERED, FlagState
from protodsl.decide.questions import Asked
from protodsl.decide.replay import Replay
from protodsl.decide.truth import UNKNOWN, YES
from protodsl.model.protocol import Flag


def alarms(kind: str, flags: Sequence[Flag], run: Replay, asked: Asked) -> tuple[FlagState, ...]:
    """Emergencies or red flags, with the dates on which each was yes; the latest answer rules."""
    found = []
    for flag in flags:
        verdict = run.context.outside(flag.condition, YES)
        found.append(_state(kind, flag, verdict, run, asked))
    return tuple(found)


def calls(run: Replay, asked: Asked) -> tuple[FlagState, ...]:
    """What the clinician has to be told; a call that needs several sessions is looked at in sessions."""
    phase = run.gate.phase
    found = []
    for flag in (*run.context.protocol.calls, *(phase.calls if phase else ())):
        if flag.streak > 1:
            verdict = run.calls.of(flag, False).verdict(run.context.date)
        else:
            verdict = run.context.outside(flag.condition, YES)
        found.append(_state("call if", flag, verdict, run, asked))
    return tuple(found)


def refusal(flags: Sequence[FlagState]) -> str:
    """Why no exercise may be printed; empty where every danger sign is a clear no."""
    if any(one.truth is YES for one in flags):
        return REFER
    return UNANSWERED if any(one.truth is UNKNOWN for one in flags) else ""


def _state(kind: str, flag: Flag, verdict: Verdict, run: Replay, asked: Asked) -> FlagState:
    if verdict.truth is UNKNOWN:
        unknown = verdict.unknown or run.context.unknown_in(flag.condition)
        asked.add(kind, "", flag.span, flag.condition, unknown)
    dates = tuple(run.alarms.get(flag.line, ())) if kind != "call if" else ()
    return FlagState(kind, flag, verdict.truth, verdict.deciding, verdict.unknown, dates)
