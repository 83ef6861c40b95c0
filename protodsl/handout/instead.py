"""What is done in the end by whoever has to leave an exercise out, as the last gate decides it for a person.

A chain of `instead` lines is followed to the first exercise that is on the sheet, is not left out, and is not ruled out
by the very answer, or the very thing that is missing, for which it stands in.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass

from protodsl.handout.draft import Draft
from protodsl.handout.implied import implied
from protodsl.handout.phrase import Listed, Phrase
from protodsl.handout.stop import branches
from protodsl.handout.titles import phase_number
from protodsl.handout.words import counted
from protodsl.model.condition import AnyOf, Condition
from protodsl.model.exercise import Avoid, Exercise, Need
from protodsl.model.protocol import Phase


@dataclass(frozen=True, slots=True)
class End:
    """What is done instead (None: nothing is left); `phases` are those in which it is so, empty where it always is."""

    exercise: str | None
    phases: tuple[Phase, ...] = ()


def avoided(draft: Draft, exercise: Exercise, condition: Condition) -> tuple[End, ...]:
    """What is done instead by whoever meets the condition of an `avoid if`, or of one part of it."""
    return _ends(draft, exercise, condition)


def parted(draft: Draft, exercise: Exercise, condition: Condition) -> tuple[tuple[Condition, tuple[End, ...]], ...]:
    """The condition of an `avoid if A or B`, taken apart where A leads to something else than B."""
    parts: dict[tuple[End, ...], list[Condition]] = {}
    for part in branches(condition):
        parts.setdefault(avoided(draft, exercise, part), []).append(part)
    if len(parts) == 1:
        return ((condition, next(iter(parts))),)
    return tuple((of[0] if len(of) == 1 else AnyOf(tuple(of)), ends) for ends, of in parts.items())


def missing(draft: Draft, exercise: Exercise, need: Need) -> tuple[End, ...]:
    """What is done instead by whoever has none of the things."""
    return _ends(draft, exercise, need)


def stood_in_for(draft: Draft) -> Mapping[str, tuple[int, ...]]:
    """For each exercise to which somebody can be sent the numbers of those from which they are."""
    found: dict[str, dict[int, None]] = {}
    for exercise in draft.exercises():
        ends = [end for avoid in exercise.avoid for _, part in parted(draft, exercise, avoid.condition) for end in part]
        ends += [end for need in exercise.needs if need.instead for end in missing(draft, exercise, need)]
        for name in (end.exercise for end in ends if end.exercise is not None):
            found.setdefault(name, {})[draft.numbers[exercise.name]] = None
    return {name: tuple(numbers) for name, numbers in found.items()}


def in_words(draft: Draft, key: str, ends: tuple[End, ...], **besides: Phrase) -> list[Phrase]:
    """A sentence for each end: `KEY.instead`, `KEY.nothing`, and `KEY.part.instead`, `KEY.part.nothing`."""
    return [_in_words(draft, f"{key}.part" if end.phases else key, end, besides) for end in ends]


def _in_words(draft: Draft, key: str, end: End, besides: Mapping[str, Phrase]) -> Phrase:
    parts = Listed(tuple(phase_number(draft, phase) for phase in end.phases))
    values: dict[str, Phrase] = {**besides, "parts": parts} if end.phases else dict(besides)
    if end.exercise is None:
        return counted(f"{key}.nothing", len(end.phases), **values)
    return counted(f"{key}.instead", len(end.phases), exercise=draft.by_number(end.exercise), **values)


def _ends(draft: Draft, exercise: Exercise, reason: Condition | Need) -> tuple[End, ...]:
    """The end of the chain in every phase in which the exercise can be met, phases with one end taken together."""
    phases = [phase for phase in draft.protocol.phases if exercise.name in draft.reach.get(phase.name, ())]
    found: dict[str | None, list[Phase]] = {}
    for phase in phases:
        out = frozenset((*draft.protocol.leave_out, *phase.leave_out))
        found.setdefault(_end(draft, exercise.name, reason, out, ()), []).append(phase)
    if not phases:
        return (End(_end(draft, exercise.name, reason, frozenset(draft.protocol.leave_out), ())),)
    if len(found) == 1:
        return (End(next(iter(found))),)
    return tuple(End(end, tuple(of)) for end, of in found.items())


def _end(
    draft: Draft, name: str, reason: Condition | Need, out: frozenset[str], way: tuple[str, ...]
) -> str | None:
    """The first exercise that the reason leaves standing; what is left out ends the way, as does a circle."""
    exercise = draft.protocol.scope.exercises.get(name)
    if exercise is None or name in out or name in way or name not in draft.numbers:
        return None
    ruling = tuple(_ruling(exercise, reason))
    if not ruling:
        return name
    ends = (_end(draft, line.instead, reason, out, (*way, name)) for line in ruling if line.instead)
    return next((end for end in ends if end is not None), None)


def _ruling(exercise: Exercise, reason: Condition | Need) -> Iterator[Avoid | Need]:
    """The lines of an exercise that hold whenever the reason does."""
    if isinstance(reason, Need):
        yield from (need for need in exercise.needs if set(need.options) <= set(reason.options))
    else:
        yield from (line for line in exercise.avoid if implied(line.condition, reason))
