"""What the standard asks of a bundle and the library fhir.resources does not look at: codes, invariants, references.

fhir.resources 8.3.0 accepts any code (rows `fhirres_status`, `fhirres_fortnight` of 10_informatics.csv) and looks at no
invariant. The codes are those of the published value sets and the invariants the published FHIRPath expressions, both
in tests/evidence/data/fhir.csv with their addresses; fhirpathpy evaluates the expressions.
"""

from __future__ import annotations

import re
from collections.abc import Iterator
from functools import cache
from typing import Any

from fhirpathpy import compile

from tests.evidence.rows import oracle, table

Json = Any
RELEASES = ("r5", "r4b")
# Elements of a backbone by the name that the evidence knows them by.
BACKBONES = {
    "PlanDefinition.action": "PlanDefinitionAction",
    "PlanDefinition.action.action": "PlanDefinitionAction",
    "PlanDefinitionAction.action": "PlanDefinitionAction",
    "PlanDefinitionAction.condition": "PlanDefinitionActionCondition",
    "PlanDefinitionAction.relatedAction": "PlanDefinitionActionRelatedAction",
    "PlanDefinitionAction.documentation": "RelatedArtifact",
    "PlanDefinitionAction.timingTiming": "Timing",
    "PlanDefinition.relatedArtifact": "RelatedArtifact",
    "CarePlan.activity": "CarePlanActivity",
    "CarePlanActivity.detail": "CarePlanActivityDetail",
    "CarePlanActivityDetail.scheduledTiming": "Timing",
    "ServiceRequest.occurrenceTiming": "Timing",
    "Timing.repeat": "TimingRepeat",
    "Questionnaire.item": "QuestionnaireItem",
    "QuestionnaireItem.item": "QuestionnaireItem",
    **{f"{kind}.contact": "Contact" for kind in ("PlanDefinition", "ActivityDefinition", "Questionnaire")},
    "Contact.telecom": "ContactPoint",
    "Provenance.entity": "ProvenanceEntity",
    "StructureDefinition.context": "StructureDefinitionContext",
}
# Where an invariant is looked at, by the name of the element.
LOCATIONS = {
    "Timing.repeat": "TimingRepeat",
    "Questionnaire.item": "QuestionnaireItem",
    "CarePlan.activity": "CarePlanActivity",
}


def elements(bundle: Json) -> Iterator[tuple[str, Json]]:
    """Every element of a bundle by the name of its type, as far as a rule here needs it; the resources by theirs."""
    yield "Bundle", bundle
    for entry in bundle["entry"]:
        yield "Bundle.entry", entry
        yield from _inside(entry["resource"]["resourceType"], entry["resource"])


def _inside(kind: str, node: Json) -> Iterator[tuple[str, Json]]:
    yield kind, node
    for name, value in node.items():
        path = f"{kind}.{name}"
        inner = "Narrative" if name == "text" and isinstance(value, dict) else BACKBONES.get(path, path)
        for one in value if isinstance(value, list) else [value]:
            if isinstance(one, dict):
                yield from _inside(inner, one)


def wrong_codes(bundle: Json, release: str) -> list[str]:
    """Codes that are in no published value set of their element."""
    found = []
    for kind, node in elements(bundle):
        for name, value in node.items():
            id = f"{release}.{kind}.{name}"
            if id in table("fhir"):
                allowed = oracle("fhir", id).split()
                given = value if isinstance(value, list) else [value]
                found += [f"{kind}.{name}: {code}" for code in given if code not in allowed]
    return found


def codes_looked_at(bundle: Json, release: str) -> set[str]:
    """The elements of a bundle that hold a code of a published value set."""
    names = {f"{release}.{kind}.{name}" for kind, node in elements(bundle) for name in node}
    return names & table("fhir").keys()


def broken_invariants(bundle: Json) -> list[str]:
    """Published invariants that an element does not keep."""
    return [
        f"{id}: {kind}"
        for kind, node in elements(bundle)
        for id, holds in invariants().get(kind, [])
        if holds(node, {"resource": bundle}) not in ([True], [])
    ]


@cache
def invariants() -> dict[str, list[tuple[str, Any]]]:
    """The published invariants by the type of element they are of, each as a function of an element."""
    rules: dict[str, list[tuple[str, Any]]] = {}
    for id, row in table("fhir").items():
        if row["quantity"] == "invariant":
            kind = LOCATIONS.get(row["unit"], row["unit"])
            rules.setdefault(kind, []).append((id, compile(oracle("fhir", id))))
    return rules


def broken_references(bundle: Json) -> list[str]:
    """References, canonical addresses and pointers between actions that lead to nothing in the bundle.

    pld-3, pld-4 and the text of PlanDefinition.action.relatedAction say that the action has to be there.
    """
    there = {entry["fullUrl"] for entry in bundle["entry"]}
    text = list(_strings(bundle))
    found = [value for name, value in text if name == "reference" and value not in there]
    found += [value for name, value in text if name == "definitionCanonical" and value.split("|")[0] not in there]
    names = {value for name, value in text if name in ("linkId", "id")}
    found += [value for name, value in text if name in ("targetId", "actionId") and value not in names]
    return found


def wrong_uris(bundle: Json) -> list[str]:
    """Full URLs that are not the UUID of their resource (hl7.org/fhir/R5/bundle.html#bundle-unique)."""
    return [
        entry["fullUrl"]
        for entry in bundle["entry"]
        if entry["fullUrl"] != f"urn:uuid:{entry['resource']['id']}"
        or not re.fullmatch(r"urn:uuid:[0-9a-f]{8}(?:-[0-9a-f]{4}){3}-[0-9a-f]{12}", entry["fullUrl"])
    ]


def strings(node: Json) -> Iterator[str]:
    """Every string of a bundle."""
    return (value for _, value in _strings(node))


def _strings(node: Json, name: str = "") -> Iterator[tuple[str, str]]:
    if isinstance(node, str):
        yield name, node
    elif isinstance(node, list):
        for one in node:
            yield from _strings(one, name)
    elif isinstance(node, dict):
        for key, value in node.items():
            yield from _strings(value, key)
