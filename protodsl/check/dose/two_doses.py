"""What is given twice at one time is given with one dose."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from itertools import combinations

from protodsl.check.context import Context
from protodsl.check.damage import lost
from protodsl.check.doses import Doses
from protodsl.check.logic.possible import Wanted, possible
from protodsl.diagnostics import dose as say
from protodsl.diagnostics.diagnostic import Diagnostic
from protodsl.dose.plan import Item
from protodsl.model.exercise import Give
from protodsl.model.protocol import Choose, Content, Entry, Part, Phase, Protocol
from protodsl.source import Span


def two_doses(entry: Entry, context: Context) -> Iterator[Diagnostic]:
    """One exercise through two gives of a phase with different doses, unless only one of them can hold."""
    for protocol in entry.protocols:
        if lost(protocol.damaged, "give", "part", "choose", "phase"):
            continue
        for phase, _, _, items in context.reach(protocol):
            by_exercise: dict[str, list[Item]] = {}
            for item in items:
                by_exercise.setdefault(item.exercise, []).append(item)
            for exercise, same in by_exercise.items():
                found = _differing(same, protocol, phase, context.doses) if len(same) > 1 else None
                if found:
                    where = phase.name if phase else protocol.name
                    yield say.two_doses(exercise, where, found[1].give.span, found[0].give.span)


def _differing(
    same: list[Item], protocol: Protocol, phase: Phase | None, doses: Doses
) -> tuple[Item, Item] | None:
    for first, second in combinations(same, 2):
        one, other = first.outer or first.give, second.outer or second.give
        if one is not other and _differ(first, second, doses) and _together(one, other, protocol, phase):
            return first, second
    return None


def _differ(first: Item, second: Item, doses: Doses) -> bool:
    if doses.key(first.layers) == doses.key(second.layers):
        return False
    weeks = doses.weeks_of_all((first.layers, second.layers))
    return _sets(first) != _sets(second) or any(
        doses.dose(first.layers, week) != doses.dose(second.layers, week) for week in weeks
    )


def _sets(item: Item) -> tuple[object, ...]:
    return next((layer.sets for layer in item.layers if layer.sets), ())


def _together(one: Give, other: Give, protocol: Protocol, phase: Phase | None) -> bool:
    """Whether both can be given to one person at one time."""
    contents = (*protocol.contents, *(phase.contents if phase else ()))
    if any({one.span, other.span} <= choice for choice in _choices_of_one(contents)):
        return False
    asked: list[Wanted] = [(give.condition, not give.unless) for give in (one, other) if give.condition is not None]
    return not asked or possible(protocol.scope, *asked)


def _choices_of_one(contents: Iterable[Content]) -> Iterator[set[Span]]:
    for content in contents:
        if isinstance(content, Part):
            yield from _choices_of_one(content.contents)
        elif isinstance(content, Choose) and content.count == 1:
            yield {give.span for give in content.gives}
