"""What heads a card: with us only; in which part of the plan, on which condition, in place of which other exercise.

Who leafs to a card without the plan beside it must not do an exercise that is not for them, or not yet.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from typing import NamedTuple

from protodsl.handout.blocks import Item, Row
from protodsl.handout.dosage import stretches
from protodsl.handout.draft import Draft, Use
from protodsl.handout.phrase import InWords, Listed, Phrase
from protodsl.handout.titles import phase_number, phase_title
from protodsl.handout.words import counted, number, say
from protodsl.model.exercise import Exercise, Give
from protodsl.model.protocol import Phase
from protodsl.source import Span


class _Way(NamedTuple):
    """One way in which an exercise is given in a phase: the gives on that way that have a condition."""

    gives: tuple[Give, ...]
    span: Span


def first(draft: Draft, exercise: Exercise, sent: Mapping[str, tuple[int, ...]]) -> Iterator[Row[Phrase]]:
    """The rows under the title; `sent` holds by exercise the numbers of those from which somebody is sent to it."""
    yield from _supervised(draft, exercise)
    if draft.reach:
        yield from _only(draft, exercise, sent.get(exercise.name, ()))


def _supervised(draft: Draft, exercise: Exercise) -> Iterator[Row[Phrase]]:
    """Only at the clinic: always, or where a give says so, of it or of its progression."""
    name = f"card/{exercise.name}/supervised"
    items = []
    if exercise.supervised:
        items.append(Item(say("card.supervised.always"), name, draft.origin(exercise.span)))
    found = (use.given for use in draft.uses[exercise.name] if use.given is not None)
    gives = dict.fromkeys(
        give.span for item in found for give in (item.give, item.outer) if give is not None and give.supervised
    )
    for at, span in enumerate(gives, 1):
        if not exercise.supervised:
            items.append(Item(say("card.supervised"), f"{name}/{at}", draft.origin(span)))
    doses = (stretch.dose for use in draft.uses[exercise.name] for stretch in stretches(use.layers))
    for count in dict.fromkeys(dose.supervised for dose in doses if dose.supervised is not None):
        items.append(Item(counted("dose.supervised", count), f"{name}/dose-{count}", draft.origin(exercise.span)))
    if items:
        yield Row(say("card.supervised.head"), tuple(items), "stop")


def _only(draft: Draft, exercise: Exercise, sent: tuple[int, ...]) -> Iterator[Row[Phrase]]:
    """When the exercise is for somebody; nothing where it is for all, in every part of the plan."""
    ways = _ways(draft.uses[exercise.name])
    phrases = _given(draft, ways)
    if not ways:
        key = "card.only.in-place" if sent else "card.only.told"
    else:
        key = "card.only.in-place.too" if sent and phrases else ""
    if key:
        numbers = tuple(number(at) for at in sent)
        phrases.append((counted(key, len(sent), numbers=Listed(numbers)) if sent else say(key), exercise.span))
    items = tuple(
        Item(text, f"card/{exercise.name}/only/{at}", draft.origin(span)) for at, (text, span) in enumerate(phrases, 1)
    )
    if items:
        yield Row(say("card.only.head"), items, "out")


def _given(draft: Draft, ways: dict[str, tuple[Phase | None, list[_Way]]]) -> list[tuple[Phrase, Span]]:
    """The parts, where they are not all, then the conditions, part by part where they differ."""
    found: list[tuple[Phrase, Span]] = []
    phases = [phase for phase, _ in ways.values() if phase is not None]
    spans = [of[0].span for _, of in ways.values()]
    if len(phases) < len(draft.protocol.phases) and phases:
        parts = Listed(tuple(phase_title(draft, phase) for phase in phases))
        found.append((say("card.only.parts", parts=parts), spans[0]))
    conditions = {repr([_asked(way) for way in of]) for _, of in ways.values()}
    for phase, of in ways.values():
        if all(way.gives for way in of):
            part = phase_number(draft, phase) if phase is not None and len(conditions) > 1 else None
            found += [(_clause(way, part, at > 0), way.span) for at, way in enumerate(of)]
        if len(conditions) == 1:
            break
    return found


def _ways(uses: tuple[Use, ...]) -> dict[str, tuple[Phase | None, list[_Way]]]:
    """By phase the different ways in which it gives an exercise."""
    found: dict[str, tuple[Phase | None, list[_Way]]] = {}
    for use in uses:
        if use.given is None:
            continue
        gives = tuple(
            give for give in (use.given.outer, use.given.give) if give is not None and give.condition is not None
        )
        way = _Way(gives, (use.given.outer or use.given.give).span)
        of = found.setdefault(use.phase.name if use.phase else "", (use.phase, []))[1]
        if _asked(way) not in [_asked(one) for one in of]:
            of.append(way)
    return found


def _asked(way: _Way) -> tuple[object, ...]:
    return tuple((give.condition, give.unless) for give in way.gives)


def _clause(way: _Way, part: Phrase | None, another: bool) -> Phrase:
    """`Only if ...`, of a part where one is named; `Or if ...` for a second way."""
    clauses = tuple(InWords(give.condition, negated=give.unless) for give in way.gives if give.condition is not None)
    key = "card.only.or" if another else "card.only.if"
    values: dict[str, Phrase] = {"clause": clauses[0]}
    if len(clauses) > 1:
        key, values["also"] = f"{key}.both", clauses[1]
    if part is not None:
        key, values["part"] = f"{key}.part", part
    return say(key, **values)
