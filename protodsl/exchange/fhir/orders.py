"""What is asked of a person, one order for each dose of each exercise in the period of the sheet."""

from __future__ import annotations

import datetime
from collections.abc import Callable, Iterator
from dataclasses import dataclass

from protodsl.decide.plan import Plan, PlannedItem
from protodsl.exchange.cards import card_lines, cards_by_name, step_lines
from protodsl.exchange.doses import Stretch, stretches
from protodsl.exchange.fhir.dose import extension, order_detail
from protodsl.exchange.fhir.release import Json
from protodsl.exchange.fhir.resources import canonical, protocol_id, resource, text_of
from protodsl.exchange.fhir.timing import planned
from protodsl.exchange.measures import Measure, measures
from protodsl.exchange.speech import Speech
from protodsl.handout.draft import Draft
from protodsl.handout.person.cards import cards
from protodsl.handout.phrase import DoseInWords, Written

# One of several among which the person still chooses is an option; everything else is the plan.
_PLAN, _OPTION = "plan", "option"
# What a card says of the dose of today and of later: every order has a dose of its own.
_SAID = frozenset(("card.dose", "card.tempo", "card.effort", "person.later.head"))


@dataclass(frozen=True, slots=True)
class Order:
    """One dose of one exercise: its UUID, what it is, when, how much, and all that the sheet says of it in `lines`."""

    id: str
    title: str
    activity: str
    intent: str
    dose: str
    timing: Json
    measures: tuple[Measure, ...]
    lines: tuple[str, ...]


def orders(plan: Plan, on: Draft, speech: Speech, named: Callable[..., str]) -> Iterator[Order]:
    """The orders in the order of the plan; `named` makes the UUID of something of the case."""
    by_name = cards_by_name(cards(plan, on))
    for item in plan.items:
        card = by_name[item.exercise.name]
        told = (*card_lines(card, speech, without=_SAID), *step_lines(card, speech))
        for stretch in stretches(plan, item):
            yield _order(plan, item, stretch, speech, told, named)


def _order(
    plan: Plan, item: PlannedItem, stretch: Stretch, speech: Speech, told: tuple[str, ...], named: Callable[..., str]
) -> Order:
    exercise, protocol = item.exercise, plan.protocol
    return Order(
        named("order", exercise.name, stretch.first.isoformat()),
        speech.words(Written(exercise.title)),
        canonical(protocol_id(speech, protocol, "exercise", exercise.name), protocol.version),
        _OPTION if item.options else _PLAN,
        speech.words(DoseInWords(stretch.dose)),
        planned(stretch, item.days, speech),
        measures(stretch.dose, speech.side),
        told,
    )


def service_request(order: Order, subject: Json, speech: Speech, day: datetime.date) -> Json:
    """An order as a service request of R5."""
    content: Json = {
        "instantiatesCanonical": [order.activity],
        "status": "active",
        "intent": order.intent,
        "code": {"concept": {"text": order.title}},
        **order_detail(order.measures),
        "subject": subject,
        "occurrenceTiming": order.timing,
        "authoredOn": day.isoformat(),
        "note": [{"text": text_of((order.dose,))}] if order.dose else [],
        "patientInstruction": [{"instructionMarkdown": text_of(order.lines)}],
    }
    told = (order.dose, *order.lines)
    given = {key: one for key, one in content.items() if one}
    return resource("ServiceRequest", order.id, speech, order.title, told, **given)


def detail(order: Order) -> Json:
    """An order as the detail of an activity of R4B, which has no intent: an option says so in its words."""
    return {
        **extension(order.measures),
        "kind": "ServiceRequest",
        "instantiatesCanonical": [order.activity],
        "code": {"text": order.title},
        "status": "not-started",
        "doNotPerform": False,
        "scheduledTiming": order.timing,
        "description": "\n".join((order.dose, *order.lines)).strip(),
    }
