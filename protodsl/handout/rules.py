"""Every rule of a protocol that decides by a condition, in one walk: what it is, its condition, where it stands."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from protodsl.handout.draft import Draft
from protodsl.model.condition import Condition
from protodsl.model.dose import Dosage
from protodsl.model.exercise import Caution, Exercise, Give, Level, Progression
from protodsl.model.protocol import Choose, Content, Flag, Phase
from protodsl.source import Span
from protodsl.units import Quantity


@dataclass(frozen=True, slots=True)
class Rule:
    """A rule: `kind` names a message, `of` the exercise, progression or phase it belongs to ("": the protocol)."""

    kind: str
    of: str
    condition: Condition
    span: Span
    streak: int = 1
    negated: bool = False
    to: str = ""
    by: Quantity | None = None
    bound: Quantity | None = None


def rules(draft: Draft) -> tuple[Rule, ...]:
    """Every rule in the order of the protocol, then of its phases, progressions and exercises, each line once."""
    return tuple(dict.fromkeys(_all(draft)))


def conditions(draft: Draft) -> tuple[Condition, ...]:
    """The condition of every rule."""
    return tuple(rule.condition for rule in rules(draft))


def progressions(draft: Draft) -> tuple[Progression, ...]:
    """The progressions that stand behind the exercises of the sheet, in the order of their numbers."""
    names = dict.fromkeys(
        use.given.progression
        for name in draft.numbers
        for use in draft.uses[name]
        if use.given is not None and use.given.progression is not None
    )
    return tuple(draft.protocol.scope.progressions[name] for name in names)


def _all(draft: Draft) -> Iterator[Rule]:
    protocol = draft.protocol
    yield from _flags("emergency", "", protocol.emergencies)
    yield from _flags("red-flag", "", protocol.red_flags)
    yield from _flags("call", "", protocol.calls)
    yield from _cautions("", protocol.cautions)
    yield from _gives("", protocol.contents)
    yield from _steps("", protocol.dosage)
    for phase in protocol.phases:
        yield from _phase(phase)
    for progression in progressions(draft):
        yield from _progression(progression)
    for exercise in draft.exercises():
        yield from _exercise(exercise)


def _flags(kind: str, of: str, flags: tuple[Flag, ...]) -> Iterator[Rule]:
    for flag in flags:
        yield Rule(kind, of, flag.condition, flag.span, flag.streak)


def _cautions(of: str, cautions: tuple[Caution, ...]) -> Iterator[Rule]:
    for caution in cautions:
        yield Rule("caution", of, caution.condition, caution.span)


def _phase(phase: Phase) -> Iterator[Rule]:
    yield from _flags("call", phase.name, phase.calls)
    yield from _cautions(phase.name, phase.cautions)
    yield from _gives(phase.name, phase.contents)
    yield from _steps(phase.name, phase.dosage)
    for until in phase.until:
        yield Rule("until", phase.name, until.condition, until.span, until.streak)
    for back in phase.back_to:
        yield Rule("back", phase.name, back.condition, back.span, back.streak, to=back.phase)


def _gives(of: str, contents: tuple[Content, ...]) -> Iterator[Rule]:
    for one in contents:
        if isinstance(one, Give):
            yield from _give(of, one)
        else:
            yield from _gives(of, one.gives if isinstance(one, Choose) else one.contents)


def _give(of: str, give: Give) -> Iterator[Rule]:
    if give.condition is not None:
        yield Rule("give", of, give.condition, give.span, negated=give.unless, to=give.item)
    yield from _steps(give.item, give.dosage)


def _steps(of: str, dosage: Dosage) -> Iterator[Rule]:
    for step in dosage.steps:
        kind = "add" if step.change.value >= 0 else "less"
        by = Quantity(abs(step.change.value), step.change.unit)
        yield Rule(kind, of, step.condition, step.span, step.streak, by=by, bound=step.bound)


def _progression(progression: Progression) -> Iterator[Rule]:
    for start in progression.start_at:
        yield Rule("start", progression.name, start.condition, start.span, to=start.level)
    for level in progression.levels:
        yield from _level(progression, level)
    yield from _steps(progression.name, progression.dosage)


def _level(progression: Progression, level: Level) -> Iterator[Rule]:
    for up in level.up:
        yield Rule("up", progression.name, up.condition, up.span, up.streak, to=level.name)
    for down in level.down:
        yield Rule("down", progression.name, down.condition, down.span, down.streak, to=level.name)
    for give in level.gives:
        yield from _give(progression.name, give)
    yield from _steps(progression.name, level.dosage)


def _exercise(exercise: Exercise) -> Iterator[Rule]:
    for avoid in exercise.avoid:
        yield Rule("avoid", exercise.name, avoid.condition, avoid.span, to=avoid.instead or "")
    yield from _cautions(exercise.name, exercise.caution)
    yield from _steps(exercise.name, exercise.dosage)
