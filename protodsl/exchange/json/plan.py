"""A person's plan as JSON: what is to be done and why, what is not, and what nobody knows."""

from __future__ import annotations

from typing import Any

from protodsl.decide.plan import OpenQuestion, Plan, PlannedItem
from protodsl.exchange.json.document import document
from protodsl.exchange.json.encode import Encoder
from protodsl.exchange.safety import stop_lines
from protodsl.exchange.speech import Speech
from protodsl.handout.person.today import drafted, printed_dose

_NOTHING: dict[str, list[Any]] = {"items": [], "notGiven": [], "moves": [], "levels": [], "week": [], "uncovered": []}


def plan_json(plan: Plan, speech: Speech) -> bytes:
    """The document of a plan; where it is refused it names no exercise, and says why and what must be answered."""
    encoder = Encoder(speech)
    return document("plan", speech, {**_head(plan, speech), **_body(plan, encoder)})


def _head(plan: Plan, speech: Speech) -> dict[str, Any]:
    case = plan.case
    return {
        "case": {
            "id": case.id,
            "started": case.started.isoformat(),
            "side": {"worse": case.side.worse, "both": case.side.both},
            "has": None if case.has is None else list(case.has),
            "nextVisit": case.next_visit and case.next_visit.isoformat(),
        },
        "protocol": {"name": plan.protocol.name, "version": plan.protocol.version},
        "asOf": plan.as_of.isoformat(),
        "period": {"first": plan.first.isoformat(), "last": plan.last.isoformat()},
        "refused": plan.refused or None,
        "stop": list(stop_lines(drafted(plan, speech.clinic, speech.options), speech)),
    }


def _body(plan: Plan, encoder: Encoder) -> dict[str, Any]:
    flags = {
        "emergencies": encoder.of(plan.emergencies),
        "redFlags": encoder.of(plan.red_flags),
        "calls": encoder.of(plan.calls),
    }
    questions = [_question(plan, one, encoder) for one in plan.questions]
    if plan.refused:
        return {**flags, "questions": questions, "phase": None, "cautions": [], **_NOTHING}
    return {
        **flags,
        "questions": questions,
        "phase": plan.phase and {
            "name": plan.phase.name,
            "title": encoder.of(plan.phase.title),
            "since": encoder.of(plan.phase_since),
        },
        "cautions": encoder.of(plan.cautions),
        "items": [_item(number, item, encoder) for number, item in enumerate(plan.items, 1)],
        "notGiven": encoder.of(plan.not_given),
        "moves": encoder.of(plan.moves),
        "levels": encoder.of(plan.levels),
        "week": encoder.of(plan.week),
        "uncovered": list(plan.uncovered),
    }  # fmt: skip


def _item(number: int, item: PlannedItem, encoder: Encoder) -> dict[str, Any]:
    exercise = item.exercise
    whole = encoder.of(item)
    steps = {key: encoder.of(getattr(exercise, key)) for key in ("do", "feel", "normal", "fix", "stop")}
    named = {"name": exercise.name, "title": encoder.of(exercise.title), "works": list(exercise.works), **steps}
    return {"number": number, "exercise": named, **whole, "dose": encoder.of(printed_dose(item))}


def _question(plan: Plan, one: OpenQuestion, encoder: Encoder) -> dict[str, Any]:
    """A question; what waits for its answer is left out where no exercise may be named."""
    declared = plan.protocol.scope.findings.get(one.finding)
    asked = {
        "finding": one.finding,
        "side": one.side,
        "question": encoder.of(declared.words) if declared else None,
        "last": encoder.of(one.last),
    }
    uses = () if plan.refused else one.uses
    told = [{"kind": use.kind, "item": use.item, "place": encoder.of(use.span)} for use in uses]
    return {**asked, "uses": told}
