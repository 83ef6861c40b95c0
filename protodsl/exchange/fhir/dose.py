"""The dose of an exercise: parameters of an order in R5; elsewhere an extension, which the bundle brings with it.

FHIR has no element for sets, repetitions, tempo and load; `Dosage` is of medicines. ServiceRequest.orderDetail of R5
takes named parameters. PlanDefinition.action and, in R4B, CarePlan.activity.detail have none.
"""

from __future__ import annotations

from protodsl.exchange.fhir.amounts import measured
from protodsl.exchange.fhir.release import Json, Release
from protodsl.exchange.measures import NAMES, Measure

DOSE = "urn:uuid:f4951d8f-0f80-4c40-a080-3c1ae15b0892"
_EXTENSION = "http://hl7.org/fhir/StructureDefinition/Extension"
_CONTEXTS = ("PlanDefinition.action", "CarePlan.activity.detail")


def extension(measures: tuple[Measure, ...]) -> Json:
    """The dose as an extension with one inner extension for each measure; nothing where none is said."""
    inner = [{"url": one.name, **measured(one)} for one in measures]
    return {"extension": [{"url": DOSE, "extension": inner}]} if inner else {}


def order_detail(measures: tuple[Measure, ...]) -> Json:
    """The dose as the parameters of an order in R5."""
    parameters = [{"code": {"text": one.name}, **measured(one)} for one in measures]
    return {"orderDetail": [{"parameter": parameters}]} if parameters else {}


def definition(release: Release) -> Json:
    """What the extension may hold, as a StructureDefinition."""
    elements: list[Json] = [{"id": "Extension", "path": "Extension", "short": "Dose of an exercise", "max": "1"}]
    for name in NAMES:
        slice_id = f"Extension.extension:{name}"
        path = "Extension.extension"
        types = [{"code": code} for code in ("Quantity", "Range", "string")]
        elements += [
            {"id": slice_id, "path": path, "sliceName": name, "min": 0, "max": "1"},
            {"id": f"{slice_id}.url", "path": f"{path}.url", "fixedUri": name},
            {"id": f"{slice_id}.value[x]", "path": f"{path}.value[x]", "min": 1, "type": types},
        ]
    elements += [
        {"id": "Extension.url", "path": "Extension.url", "fixedUri": DOSE},
        {"id": "Extension.value[x]", "path": "Extension.value[x]", "max": "0"},
    ]
    return {
        "resourceType": "StructureDefinition",
        "id": DOSE.removeprefix("urn:uuid:"),
        "url": DOSE,
        "name": "ExerciseDose",
        "title": "Dose of an exercise",
        "status": "draft",
        "fhirVersion": release.version,
        "kind": "complex-type",
        "abstract": False,
        "context": [{"type": "element", "expression": one} for one in _CONTEXTS if _has(release, one)],
        "type": "Extension",
        "baseDefinition": _EXTENSION,
        "derivation": "constraint",
        "differential": {"element": elements},
    }


def _has(release: Release, element: str) -> bool:
    """Whether the release has the element: R5 dropped the detail of a care plan's activity."""
    return not release.is_r5 or element != "CarePlan.activity.detail"
