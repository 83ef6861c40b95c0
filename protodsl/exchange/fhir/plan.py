"""A person's plan as FHIR: a care plan for the period of the sheet, with an activity for each dose of each exercise.

In R5 an activity points to a service request; in R4B it carries its detail itself. Whose plan it is stands nowhere but
in the opaque id of the case. Where a danger sign is there or not known, the care plan is on hold and has no activity.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from protodsl.decide.plan import REFER, Plan
from protodsl.exchange.fhir.document import written
from protodsl.exchange.fhir.dose import definition
from protodsl.exchange.fhir.orders import Order, detail, orders, service_request
from protodsl.exchange.fhir.provenance import moment, provenance
from protodsl.exchange.fhir.release import Json, Release
from protodsl.exchange.fhir.resources import bundle, canonical, protocol_id, resource, text_of
from protodsl.exchange.identity import identity
from protodsl.exchange.reached import files_of
from protodsl.exchange.safety import stop_lines
from protodsl.exchange.speech import Speech
from protodsl.handout.draft import Draft
from protodsl.handout.person.today import drafted
from protodsl.handout.phrase import Written
from protodsl.handout.words import if_so, line, lines, one_after_the_other, say

_ACTIVE, _ON_HOLD = "active", "on-hold"


@dataclass(frozen=True, slots=True)
class _Person:
    """A plan under way to a bundle; `subject` is the reference to the person, by identifier alone."""

    plan: Plan
    on: Draft
    speech: Speech
    release: Release
    subject: Json

    def id(self, *parts: str) -> str:
        """The UUID of something of this case; it stays the same from sheet to sheet."""
        return identity(self.speech.clinic, "case", self.plan.case.id, *parts)


def plan_bundle(plan: Plan, speech: Speech, release: Release) -> bytes:
    """The bundle of a plan in a release of FHIR."""
    system = f"urn:uuid:{identity(speech.clinic, 'cases')}"
    subject = {"type": "Patient", "identifier": {"system": system, "value": plan.case.id}}
    person = _Person(plan, drafted(plan, speech.clinic, speech.options), speech, release, subject)
    planned = () if plan.refused else tuple(orders(plan, person.on, speech, person.id))
    goals = [] if plan.refused else list(_goals(person))
    resources = [_care_plan(person, planned, goals), *goals]
    if release.is_r5:
        resources += [service_request(one, subject, speech, plan.as_of) for one in planned]
    elif planned:
        resources.append(definition(release))
    targets = [one["id"] for one in resources if one["resourceType"] != "StructureDefinition"]
    files = tuple(path for path in files_of(person.on) if path != speech.private)
    resources.append(provenance(speech, targets, person.id("provenance"), plan.as_of, files))
    return written(bundle(person.id("bundle", release.name), resources, timestamp=moment(plan.as_of)))


def _care_plan(person: _Person, planned: tuple[Order, ...], goals: list[Json]) -> Json:
    plan, speech = person.plan, person.speech
    title = speech.words(Written(plan.protocol.title))
    notes = tuple(_notes(person))
    content: Json = {
        "instantiatesCanonical": [canonical(protocol_id(speech, plan.protocol), plan.protocol.version)],
        "status": _ON_HOLD if plan.refused else _ACTIVE,
        "intent": "plan",
        "title": title,
        "subject": person.subject,
        "period": {"start": plan.first.isoformat(), "end": plan.last.isoformat()},
        "created": plan.as_of.isoformat(),
    }
    if goals:
        content["goal"] = [{"reference": f"urn:uuid:{one['id']}"} for one in goals]
    if planned:
        content["activity"] = [_activity(person, one) for one in planned]
    content["note"] = [{"text": text_of(notes)}]
    told = (*notes, *(text for one in planned for text in (one.title, *one.lines)))
    return resource("CarePlan", person.id("care plan"), speech, title, told, **content)


def _activity(person: _Person, one: Order) -> Json:
    if person.release.is_r5:
        return {"plannedActivityReference": {"reference": f"urn:uuid:{one.id}"}}
    return {"detail": detail(one)}


def _notes(person: _Person) -> Iterator[str]:
    """Why there is nothing to do, else what to heed; then the signs to stop for."""
    plan, words = person.plan, person.speech.words
    if plan.refused:
        yield words(say("person.referral.head" if plan.refused == REFER else "case.unanswered"))
    for one in person.on.protocol.cautions:
        yield words(one_after_the_other(if_so(one.condition), lines(one.lines)))
    yield from stop_lines(person.on, person.speech)


def _goals(person: _Person) -> Iterator[Json]:
    for at, prose in enumerate(person.plan.protocol.goals, 1):
        said = person.speech.words(line(prose))
        content: Json = {"lifecycleStatus": "planned", "description": {"text": said}, "subject": person.subject}
        yield resource("Goal", person.id("goal", str(at)), person.speech, said, (), **content)
