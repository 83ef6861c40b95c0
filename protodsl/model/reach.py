"""What a protocol or one of its phases can come to give, and by which way."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from typing import NamedTuple

from protodsl.model.exercise import Exercise, Give
from protodsl.model.protocol import Choose, Content, Phase, Protocol, Scope
from protodsl.source import Span


class Step(NamedTuple):
    """One reason on the way to an exercise.

    `kind` is give (of an exercise or a progression), level (a step of a progression), avoid or needs (the `instead`
    under that line of the exercise before). `name` is the item, level or exercise it leads to, `span` the line.
    """

    kind: str
    name: str
    span: Span


class Reached(NamedTuple):
    """An exercise that can come to be printed, with the first way that leads to it, from the outermost reason on."""

    exercise: str
    path: tuple[Step, ...]


def items_of(contents: Iterable[Content]) -> tuple[Give, ...]:
    """Every give in text order, those inside parts and choices too."""
    return tuple(_gives(contents))


def gives_of(protocol: Protocol, phase: Phase | None) -> tuple[Give, ...]:
    """What is given in a phase: the protocol's own gives and the phase's, less what either leaves out.

    Without a phase: what is given at any time, so a give that only one phase leaves out is still there.
    """
    out = _left_out(protocol, phase)
    phases = protocol.phases if phase is None else (phase,)
    gives = [give for give in items_of(protocol.contents) if give.item not in out]
    for one in phases:
        gives += [give for give in items_of(one.contents) if give.item not in _left_out(protocol, one)]
    return tuple(gives)


def exercises_reached(protocol: Protocol, phase: Phase | None = None) -> tuple[Reached, ...]:
    """Every exercise a phase (None: the whole protocol) can reach, each once: given, as a level, or as an `instead`.

    What is left out is barred on every way, also as an `instead`.
    """
    if phase is None and protocol.phases:
        whole: dict[str, Reached] = {}
        for one in protocol.phases:
            for reached in exercises_reached(protocol, one):
                whole.setdefault(reached.exercise, reached)
        return tuple(whole.values())
    found: dict[str, Reached] = {}
    for give in gives_of(protocol, phase):
        _follow(give, (), protocol.scope, _left_out(protocol, phase), found)
    return tuple(found.values())


def replacements_of(exercise: Exercise) -> tuple[Step, ...]:
    """Every `instead` of an exercise, with the line it stands under."""
    avoided = [Step("avoid", line.instead, line.span) for line in exercise.avoid if line.instead]
    missing = [Step("needs", line.instead, line.span) for line in exercise.needs if line.instead]
    return (*avoided, *missing)


def _left_out(protocol: Protocol, phase: Phase | None) -> frozenset[str]:
    return frozenset((*protocol.leave_out, *(phase.leave_out if phase else ())))


def _gives(contents: Iterable[Content]) -> Iterator[Give]:
    for one in contents:
        if isinstance(one, Give):
            yield one
        elif isinstance(one, Choose):
            yield from one.gives
        else:
            yield from _gives(one.contents)


def _follow(give: Give, path: tuple[Step, ...], scope: Scope, out: frozenset[str], found: dict[str, Reached]) -> None:
    path = (*path, Step("give", give.item, give.span))
    progression = scope.progressions.get(give.item)
    if progression is None:
        _add(give.item, path, scope, out, found)
        return
    for level in progression.levels:
        for inner in level.gives:
            _add(inner.item, (*path, Step("level", level.name, level.span)), scope, out, found)


def _add(name: str, path: tuple[Step, ...], scope: Scope, out: frozenset[str], found: dict[str, Reached]) -> None:
    waiting = [(name, path)]
    while waiting:
        name, path = waiting.pop(0)
        exercise = scope.exercises.get(name)
        if exercise is None or name in found or name in out:
            continue
        found[name] = Reached(name, path)
        waiting += [(step.name, (*path, step)) for step in replacements_of(exercise)]
