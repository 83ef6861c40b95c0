"""The cards of what is printed today: the general sheet's cards with this person's days, side, step and later doses."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import fields, replace

from protodsl.decide.plan import LaterDose, Plan, PlannedItem
from protodsl.dose.weekdays import WEEK
from protodsl.handout.blocks import ExerciseCard, Item, Row, Section
from protodsl.handout.cards import cards as general
from protodsl.handout.draft import Draft
from protodsl.handout.person.choices import is_open, lines_of
from protodsl.handout.person.dates import dated
from protodsl.handout.person.stations import stations
from protodsl.handout.person.today import printed_dose, with_load
from protodsl.handout.person.voice import side_of
from protodsl.handout.phrase import DoseInWords, Listed, Message, Phrase, Weekday, Written
from protodsl.handout.words import counted, line, number, one_after_the_other, say
from protodsl.model.dose import NO_DOSE

# The rows of a card that stand before the side to work more on, and before what comes later.
_BEFORE_SIDE = ("card.tempo", "card.effort", "card.feel", "card.normal", "card.fix", "card.stop")


def cards(plan: Plan, on: Draft) -> tuple[Section[Phrase], ...]:
    """The sections of the general sheet, each card made this person's own."""
    items = {item.exercise.name: item for item in plan.items}
    return tuple(
        replace(
            section,
            blocks=tuple(
                _card(plan, on, block, items[block.id]) if isinstance(block, ExerciseCard) else block
                for block in section.blocks
            ),
        )
        for section in general(on)
    )


def _card(plan: Plan, on: Draft, card: ExerciseCard[Phrase], item: PlannedItem) -> ExerciseCard[Phrase]:
    return replace(
        card,
        when=_when(item),
        first=(*_first(plan, on, item), *card.first),
        rows=_rows(card.rows, item),
        stations=stations(on, item),
    )


def _when(item: PlannedItem) -> Phrase | None:
    """What part it is of, on which days, how often on each, when in the day, and how many minutes."""
    said: list[Phrase] = [Written(item.part)] if item.part is not None else []
    if item.supervised:
        said.append(say("person.when.with-us"))
    elif len(item.days) == WEEK:
        said.append(say("often.daily"))
    elif item.days:
        said.append(Listed(tuple(Weekday(day) for day in item.days)))
    often = item.dose.frequency
    if often is not None:
        a_day = replace(often, days_a_week=None, every_other_day=False, rest_day_between=False)
        if a_day.times_a_day is not None or a_day.every_hours is not None:
            said.append(DoseInWords(replace(NO_DOSE, frequency=a_day), "frequency"))
    said += [Written(prose) for prose in (item.give.when, item.exercise.when) if prose is not None]
    if item.minutes:
        said.append(counted("card.minutes", item.minutes))
    return say("name", name=Listed(tuple(said), by="comma")) if said else None


def _rows(rows: tuple[Row[Phrase], ...], item: PlannedItem) -> tuple[Row[Phrase], ...]:
    at = 0
    for place, row in enumerate(rows, 1):
        if isinstance(row.head, Message) and row.head.key in _BEFORE_SIDE:
            at = place
    rest = [*rows[at:], *_why(item)]
    return (*rows[:at], *_side(item), *rest, *_later(item))


def _first(plan: Plan, on: Draft, item: PlannedItem) -> Iterator[Row[Phrase]]:
    """What it stands in for, and what it can be chosen from."""
    if item.asked != item.exercise.name:
        asked = plan.protocol.scope.exercises.get(item.asked)
        if asked is not None:
            yield Row(say("person.instead.head"), (Item(say("person.instead", title=Written(asked.title))),))
    planned = next(one for one in lines_of(plan.items) if any(item in option for option in one))
    if is_open(planned):
        options = tuple(_numbers(on, option) for option in planned)
        said = counted("person.choice", item.takes, options=Listed(options, by="or"))
        yield Row(say("person.choice.head"), (Item(said),))


def _numbers(on: Draft, option: tuple[PlannedItem, ...]) -> Phrase:
    numbers = tuple(number(on.numbers[one.exercise.name]) for one in option)
    return counted("person.choice.option", len(numbers), numbers=Listed(numbers))


def _why(item: PlannedItem) -> Iterator[Row[Phrase]]:
    """What it is for in this plan, beside what it is for at all."""
    if item.give.why is not None:
        yield Row(say("person.why.plan"), (Item(line(item.give.why)),))


def _side(item: PlannedItem) -> Iterator[Row[Phrase]]:
    """The side to work more on, by name."""
    focus = item.focus
    if focus is None:
        return
    said: list[Phrase] = [say("person.focus", side=side_of(focus.side))]
    if focus.extra_sets:
        said.append(counted("focus.extra", focus.extra_sets))
    yield Row(say("card.side"), (Item(one_after_the_other(*said)),), "side")


def _later(item: PlannedItem) -> Iterator[Row[Phrase]]:
    """How the dose changes in the period, with the date from which it does."""
    found: list[Item[Phrase]] = [Item(_from(item, later)) for later in item.later]
    if found:
        yield Row(say("person.later.head"), tuple(found))


def _from(item: PlannedItem, later: LaterDose) -> Phrase:
    """The new dose in short; what is left out of it stays as it is today."""
    if later.dose is None:
        return say("person.later.end", date=dated(later.date))
    today, then = printed_dose(item), with_load(later.dose, later.load)
    names = [field.name for field in fields(then)]
    changed = {name: getattr(then, name) for name in names if getattr(then, name) != getattr(today, name)}
    if not changed:
        return say("person.later.same", date=dated(later.date), week=number(later.week))
    # What falls away cannot be told by itself: the whole dose is.
    dose = then if None in changed.values() else replace(NO_DOSE, **changed)
    return say("person.later", date=dated(later.date), dose=DoseInWords(dose))
