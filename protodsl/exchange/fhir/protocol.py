"""A protocol as FHIR: a plan definition, an activity definition for each exercise, and a questionnaire.

The bundle is a collection, not a transaction: a file must not tell a server to store a draft among what is in use.
"""

from __future__ import annotations

from protodsl.exchange.cards import card_lines, cards_by_name, step_lines
from protodsl.exchange.fhir.actions import actions, allowed
from protodsl.exchange.fhir.document import written
from protodsl.exchange.fhir.dose import definition
from protodsl.exchange.fhir.provenance import provenance
from protodsl.exchange.fhir.questionnaire import questionnaire
from protodsl.exchange.fhir.release import Json, Release
from protodsl.exchange.fhir.resources import bundle, defined, protocol_id, resource, text_of
from protodsl.exchange.reached import files_of
from protodsl.exchange.safety import stop_lines
from protodsl.exchange.speech import Speech
from protodsl.handout.blocks import ExerciseCard
from protodsl.handout.cards import cards
from protodsl.handout.draft import Draft, draft
from protodsl.handout.phrase import Phrase, Written
from protodsl.handout.words import line, say
from protodsl.model.exercise import Exercise
from protodsl.model.protocol import Protocol

_TYPE = "http://terminology.hl7.org/CodeSystem/plan-definition-type"


def protocol_bundle(protocol: Protocol, speech: Speech, release: Release) -> bytes:
    """The bundle of a protocol in a release of FHIR."""
    on = draft(protocol, speech.clinic, speech.options)
    plan = _plan(on, speech, release)
    resources = [plan, *_activities(on, speech)]
    asked = questionnaire(on, speech, release)
    if asked is not None:
        resources.append(asked)
    resources.append(definition(release))
    if protocol.review is not None:
        id = protocol_id(speech, protocol, "provenance")
        targets = [one["id"] for one in resources if one["resourceType"] != "StructureDefinition"]
        resources.append(provenance(speech, targets, id, protocol.review.date, files_of(on)))
    return written(bundle(protocol_id(speech, protocol, "bundle", release.name), resources))


def _plan(on: Draft, speech: Speech, release: Release) -> Json:
    protocol = on.protocol
    title = speech.words(Written(protocol.title))
    id = protocol_id(speech, protocol)
    content = defined(speech, protocol, id, title)
    content["type"] = {"coding": [{"system": _TYPE, "code": "clinical-protocol"}]}
    if protocol.audience is not None:
        content["subjectCodeableConcept"] = {"text": speech.words(Written(protocol.audience))}
    if protocol.why is not None:
        content["purpose"] = speech.words(line(protocol.why))
    content["description"] = text_of(allowed(speech, protocol))
    content["usage"] = text_of((speech.words(say("exchange.unknown")), *_when(on, speech)))
    content["relatedArtifact"] = [{"type": "citation", "citation": one.text} for one in protocol.sources]
    content["goal"] = [{"description": {"text": speech.words(line(one))}} for one in protocol.goals]
    content["action"] = actions(on, speech, release)
    told = stop_lines(on, speech)
    return resource("PlanDefinition", id, speech, title, told, **{key: one for key, one in content.items() if one})


def _when(on: Draft, speech: Speech) -> tuple[str, ...]:
    return (speech.words(line(on.protocol.when)),) if on.protocol.when is not None else ()


def _activities(on: Draft, speech: Speech) -> list[Json]:
    by_name = cards_by_name(cards(on))
    return [_activity(on, speech, exercise, by_name[exercise.name]) for exercise in on.exercises()]


def _activity(on: Draft, speech: Speech, exercise: Exercise, card: ExerciseCard[Phrase]) -> Json:
    title = speech.words(Written(exercise.title))
    steps, rest = step_lines(card, speech), card_lines(card, speech)
    id = protocol_id(speech, on.protocol, "exercise", exercise.name)
    content = defined(speech, on.protocol, id, title)
    content |= {"kind": "ServiceRequest", "intent": "plan", "code": {"text": title}}
    content["description"] = text_of(steps)
    content["usage"] = text_of(rest)
    if exercise.why is not None:
        content["purpose"] = speech.words(line(exercise.why))
    return resource("ActivityDefinition", id, speech, title, (*steps, *rest), **content)
