"""One card an exercise: its dose, its steps, and its rows in one order."""

from __future__ import annotations

from collections.abc import Mapping

from protodsl.dose.plan import minutes_of_day
from protodsl.handout.blocks import ExerciseCard, Item, Row, Section
from protodsl.handout.card_rows import rows
from protodsl.handout.dosage import Dosed, dosed
from protodsl.handout.draft import Draft
from protodsl.handout.instead import stood_in_for
from protodsl.handout.only import first
from protodsl.handout.phrase import DoseInWords, Listed, Phrase, Written
from protodsl.handout.stations import stations
from protodsl.handout.words import counted, number, say
from protodsl.model.dosing import dose_of
from protodsl.model.exercise import Exercise


def cards(draft: Draft) -> tuple[Section[Phrase], ...]:
    """The exercises that are given, then those that only take the place of another."""
    given: list[ExerciseCard[Phrase]] = []
    replacements: list[ExerciseCard[Phrase]] = []
    sent = stood_in_for(draft)
    for exercise in draft.exercises():
        own = any(use.given is not None for use in draft.uses[exercise.name])
        (given if own else replacements).append(_card(draft, exercise, sent))
    found = []
    if given:
        found.append(Section("exercises", say("cards.head"), tuple(given)))
    if replacements:
        intro = Row(say("cards.instead.when"), (Item(say("cards.instead.intro")),))
        found.append(Section("replacements", say("cards.instead.head"), (intro, *replacements)))
    return tuple(found)


def _card(draft: Draft, exercise: Exercise, sent: Mapping[str, tuple[int, ...]]) -> ExerciseCard[Phrase]:
    dose = dosed(draft, draft.uses[exercise.name])
    steps = tuple(Item(Written(prose), "", draft.origin(prose.span)) for prose in exercise.do)
    at = draft.numbers[exercise.name]
    return ExerciseCard(
        id=exercise.name,
        number=at,
        name=say("name", name=Written(exercise.title)),
        when=_when(draft, exercise, dose),
        dose=dose.sentence(),
        doses=dose.table,
        picture=draft.options.pictures.get(exercise.name),
        steps=Row(say("card.steps"), steps, numbered=True),
        rows=tuple(rows(draft, exercise, dose)),
        stations=stations(draft, exercise.name),
        origin=draft.origin(exercise.span),
        continued=say("card.continued", number=number(at), title=Written(exercise.title)),
        first=tuple(first(draft, exercise, sent)),
    )


def _when(draft: Draft, exercise: Exercise, dose: Dosed) -> Phrase | None:
    """How often, when in the day, and how many minutes a day where that is the same however it is used."""
    said: list[Phrase] = []
    if dose.shared.frequency is not None:
        said.append(DoseInWords(dose.shared, "frequency"))
    if exercise.when is not None:
        said.append(Written(exercise.when))
    times = {minutes_of_day(dose_of(1, use.layers)) for use in draft.uses[exercise.name]}
    only = times.pop() if len(times) == 1 else None
    if only:
        said.append(counted("card.minutes", only))
    return say("name", name=Listed(tuple(said), by="comma")) if said else None
