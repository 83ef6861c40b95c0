"""What you need: every thing that an exercise of the sheet asks for, once, with the exercises that use it."""

from __future__ import annotations

from protodsl.handout.blocks import Bullets, Item, Section
from protodsl.handout.draft import Draft
from protodsl.handout.phrase import Listed, Literal, Phrase, Written
from protodsl.handout.words import counted, number, say

_FEW = 4


def needs(draft: Draft) -> Section[Phrase] | None:
    """A list of things, alternatives joined by `or`; none where nothing is needed."""
    users: dict[tuple[str, ...], list[int]] = {}
    for exercise in draft.exercises():
        for need in exercise.needs:
            users.setdefault(need.options, []).append(draft.numbers[exercise.name])
    if not users:
        return None
    lines = tuple(Item(_line(draft, options, numbers)) for options, numbers in users.items())
    return Section("needs", say("needs.head"), (Bullets(lines, 2 if len(lines) > _FEW else 1),))


def things(draft: Draft, options: tuple[str, ...]) -> Phrase:
    """Alternatives in the words they were declared with."""
    equipment = draft.protocol.scope.equipment
    named = tuple(Written(equipment[name].words) if name in equipment else Literal(name) for name in options)
    return named[0] if len(named) == 1 else Listed(named, by="or")


def _line(draft: Draft, options: tuple[str, ...], numbers: list[int]) -> Phrase:
    of = tuple(number(at) for at in dict.fromkeys(numbers))
    return counted("needs.for", len(of), things=things(draft, options), numbers=Listed(of))
