"""Gives that decide by one number leave no values between them."""

from __future__ import annotations

from collections.abc import Iterable, Iterator

from protodsl.check.context import Context
from protodsl.check.damage import lost
from protodsl.check.logic.regions import Number, Stretch, Stretches, between, number_of, without
from protodsl.check.tables.measures import named, words
from protodsl.diagnostics import tables as say
from protodsl.diagnostics.diagnostic import Diagnostic
from protodsl.model.exercise import Give
from protodsl.model.protocol import Choose, Content, Entry, Part, Protocol, Scope

_GIVING = ("give", "part", "choose", "phase")


def gives_undecided(entry: Entry, context: Context) -> Iterator[Diagnostic]:
    """Something is given for low values and something for high ones, and nothing in between.

    An end that is left alone is no gap: `give X if knee-to-wall < 10 cm` gives nothing to who needs nothing.
    """
    for protocol in entry.protocols:
        for contents in () if lost(protocol.damaged, *_GIVING) else _containers(protocol):
            yield from _looked_at(contents, protocol.scope)
    for progression, scope in context.progressions:
        for level in progression.levels:
            yield from _looked_at(level.gives, scope)


def _containers(protocol: Protocol) -> Iterator[tuple[Content, ...]]:
    """What stands side by side: in the protocol, a phase, a part or a choice."""
    waiting: list[tuple[Content, ...]] = [protocol.contents, *(phase.contents for phase in protocol.phases)]
    while waiting:
        contents = waiting.pop(0)
        yield contents
        for one in contents:
            if isinstance(one, Part):
                waiting.append(one.contents)
            elif isinstance(one, Choose):
                waiting.append(one.gives)


def _looked_at(contents: Iterable[Content], scope: Scope) -> Iterator[Diagnostic]:
    by_number: dict[Number, list[tuple[Give, Stretches]]] = {}
    for give in contents:
        if isinstance(give, Give) and give.condition is not None:
            found = number_of(give.condition, scope)
            if found is not None:
                number, stretches = found
                given = without((Stretch(None, None),), stretches) if give.unless else stretches
                by_number.setdefault(number, []).append((give, given))
    for number, gives in by_number.items():
        gap = between(number, (stretches for _, stretches in gives)) if len(gives) > 1 else ()
        if gap:
            first, *others = [give for give, _ in gives]
            items = [give.item for give, _ in gives]
            places = [give.span for give in others]
            yield say.gives_undecided(items, named(number), words(number, gap), first.span, places)
