"""Bundles of FHIR: read by the library fhir.resources, and held against the codes and rules of the standard."""

from __future__ import annotations

import copy
import json
from functools import cache
from typing import Any

import pytest
from fhir.resources.bundle import Bundle
from fhir.resources.R4B.bundle import Bundle as BundleR4B

from protodsl.exchange.written import condition_text
from protodsl.handout.draft import draft
from protodsl.handout.rules import rules
from protodsl.model.condition import findings_in
from tests.evidence.rows import oracle, table
from tests.unit.exchange import demo
from tests.unit.exchange import fhir_rules as standard

FORMS = {"fhir-r5": "r5", "fhir-r4b": "r4b"}
LIBRARY: dict[str, Any] = {"fhir-r5": Bundle, "fhir-r4b": BundleR4B}


@cache
def of_protocol(form: str, name: str) -> Any:
    """The bundle of a protocol; not to be changed."""
    return json.loads(demo.protocol_file(form, name))


@cache
def of_case(form: str, case: str) -> Any:
    """The bundle of a case; not to be changed."""
    return json.loads(demo.case_file(form, case))


def resources(bundle: Any, kind: str) -> list[Any]:
    """The resources of a kind."""
    return [entry["resource"] for entry in bundle["entry"] if entry["resource"]["resourceType"] == kind]


def check(bundle: Any, form: str) -> None:
    """All that the library and the rules here look at."""
    LIBRARY[form].model_validate(bundle)
    release = FORMS[form]
    assert standard.wrong_codes(bundle, release) == []
    assert standard.broken_invariants(bundle) == []
    assert standard.broken_references(bundle) == []
    assert standard.wrong_uris(bundle) == []


@pytest.mark.parametrize("name", demo.protocols())
@pytest.mark.parametrize("form", FORMS)
def test_a_protocol_keeps_the_standard(form: str, name: str) -> None:
    """The bundle is valid in its release, by its types, its codes, its invariants and its references."""
    check(of_protocol(form, name), form)


@pytest.mark.parametrize("case", demo.CASES)
@pytest.mark.parametrize("form", FORMS)
def test_a_case_keeps_the_standard(form: str, case: str) -> None:
    """So is the bundle of a person."""
    check(of_case(form, case), form)


@pytest.mark.parametrize("form", FORMS)
def test_how_much_is_looked_at(form: str) -> None:
    """The rules above are not idle: these elements with codes are met, in the release that has them."""
    met: set[str] = set()
    for bundle in (*map(of_case_of(form), demo.CASES), *(of_protocol(form, name) for name in demo.protocols())):
        met |= standard.codes_looked_at(bundle, FORMS[form])
    wanted = {id for id in table("fhir") if id.startswith(f"{FORMS[form]}.")}
    # In R4B a plan has details and no orders; in R5 it is the other way round.
    absent = {"r4b": {"r4b.ServiceRequest.status", "r4b.ServiceRequest.intent"}, "r5": set()}[FORMS[form]]
    assert wanted - met == absent


def of_case_of(form: str) -> Any:
    """The bundles of cases in a format."""
    return lambda case: of_case(form, case)


@pytest.mark.parametrize(
    ("path", "value", "said"),
    [
        ("status", "zzz", "PlanDefinition.status: zzz"),
        ("action.0.action.0.condition.0.kind", "if", "PlanDefinitionActionCondition.kind: if"),
        ("action.0.action.0.priority", "now", "PlanDefinitionAction.priority: now"),
    ],
)
def test_a_wrong_code_is_seen(path: str, value: str, said: str) -> None:
    """What the library lets through (row `fhirres_status`) the rules here do not."""
    bundle = copy.deepcopy(of_protocol("fhir-r5", "lateral ankle sprain"))
    put(bundle["entry"][0]["resource"], path, value)
    Bundle.model_validate(bundle)
    assert standard.wrong_codes(bundle, "r5") == [said]


@pytest.mark.parametrize(
    ("repeat", "rule"),
    [
        ({"duration": 3}, "tim-1"),
        ({"period": 1}, "tim-2"),
        ({"duration": -1, "durationUnit": "s"}, "tim-4"),
        ({"period": -1, "periodUnit": "d"}, "tim-5"),
        ({"periodMax": 2}, "tim-6"),
        ({"durationMax": 2}, "tim-7"),
        ({"countMax": 2}, "tim-8"),
        ({"offset": 30}, "tim-9"),
        ({"offset": 30, "when": ["C"]}, "tim-9"),
        ({"timeOfDay": ["09:00:00"], "when": ["MORN"]}, "tim-10"),
    ],
)
def test_a_broken_invariant_is_seen(repeat: Any, rule: str) -> None:
    """Each rule of Timing.repeat, broken, is found by its published expression; kept, it is not."""
    bundle = copy.deepcopy(of_case("fhir-r5", "P-0417"))
    resources(bundle, "ServiceRequest")[0]["occurrenceTiming"] = {"repeat": repeat}
    assert standard.broken_invariants(bundle) == [f"{rule}: TimingRepeat"]


def put(node: Any, path: str, value: object) -> None:
    """Another value at a path of names and numbers."""
    *way, last = path.split(".")
    for step in way:
        node = node[int(step)] if step.isdigit() else node[step]
    node[last] = value


def test_the_timing_of_an_order() -> None:
    """Worked by hand: three days a week as weekdays, as in the example that fhir.resources accepts (`tim_ex_mwf`)."""
    example = json.loads(table("10_informatics")["tim_ex_mwf"]["value"])["repeat"]
    orders = resources(of_case("fhir-r5", "P-0417"), "ServiceRequest")
    order = next(one for one in orders if one["code"]["concept"]["text"] == "Heel raise on both legs")
    repeat = order["occurrenceTiming"]["repeat"]
    assert example.items() <= repeat.items()
    assert repeat["boundsPeriod"] == {"start": "2026-11-25", "end": "2026-12-08"}
    # From Wednesday 25 November to Tuesday 8 December there are two of each weekday.
    assert repeat["count"] == 6
    assert repeat["durationUnit"] in oracle("10_informatics", "tim_units").split(":")[0].split()


def test_the_dose_of_an_order() -> None:
    """In R5 as parameters of the order, in R4B as an extension that the bundle defines: the same numbers and units."""
    order = next(
        one for one in resources(of_case("fhir-r5", "P-0423"), "ServiceRequest")
        if one["occurrenceTiming"]["repeat"]["boundsPeriod"]["start"] == "2026-11-25"
    )  # fmt: skip
    parameters = {one.pop("code")["text"]: one for one in copy.deepcopy(order["orderDetail"][0]["parameter"])}
    ucum = {"system": "http://unitsofmeasure.org"}
    assert parameters["sets"] == {"valueQuantity": {"value": 4, **ucum, "code": "{set}"}}
    assert parameters["repetitions"] == {"valueQuantity": {"value": 10, "unit": "reps", **ucum, "code": "{repetition}"}}
    assert parameters["rest"] == {"valueQuantity": {"value": 120, "unit": "s", **ucum, "code": "s"}}
    assert parameters["sides"] == {"valueString": "left"}
    care_plan = resources(of_case("fhir-r4b", "P-0423"), "CarePlan")[0]
    extension = care_plan["activity"][0]["detail"]["extension"][0]
    (definition,) = resources(of_case("fhir-r4b", "P-0423"), "StructureDefinition")
    assert extension["url"] == definition["url"]
    assert {one["url"]: one for one in extension["extension"]} == {
        name: {"url": name, **value} for name, value in parameters.items()
    }


@pytest.mark.parametrize("form", FORMS)
@pytest.mark.parametrize("case", demo.CASES)
def test_an_activity_for_each_dose(case: str, form: str) -> None:
    """As many orders or details as there are doses in the period, of the exercises of the plan, in its order."""
    plan = demo.decided(case).plan
    wanted = [item.exercise.title.text for item in plan.items for _ in (0, *(one for one in item.later if one.dose))]
    bundle = of_case(form, case)
    activities = resources(bundle, "CarePlan")[0]["activity"]
    if form == "fhir-r5":
        orders = {f"urn:uuid:{one['id']}": one for one in resources(bundle, "ServiceRequest")}
        found = [orders[one["plannedActivityReference"]["reference"]]["code"]["concept"]["text"] for one in activities]
    else:
        found = [one["detail"]["code"]["text"] for one in activities]
    assert found == wanted


@pytest.mark.parametrize("form", FORMS)
@pytest.mark.parametrize("case", demo.CASES)
def test_a_person_is_an_opaque_identifier(case: str, form: str) -> None:
    """No Patient, no practitioner and no contributor; whose plan it is stands in an identifier alone."""
    bundle = of_case(form, case)
    kinds = {entry["resource"]["resourceType"] for entry in bundle["entry"]}
    assert not kinds & {"Patient", "Practitioner", "PractitionerRole", "RelatedPerson", "Person"}
    for kind in ("CarePlan", "Goal", "ServiceRequest"):
        for one in resources(bundle, kind):
            assert one["subject"].keys() == {"type", "identifier"} and one["subject"]["identifier"]["value"] == case
            assert not one.keys() & {"author", "contributor", "performer", "requester"}
    notes = [note.words for note in demo.person(case).case.notes]
    assert not [text for text in standard.strings(bundle) if any(words in text for words in notes)]


@pytest.mark.parametrize("form", FORMS)
@pytest.mark.parametrize("name", demo.protocols())
def test_no_rule_is_lost(name: str, form: str) -> None:
    """Each line with a condition that the general sheet knows is an action or a condition, with its file and line."""
    plan = resources(of_protocol(form, name), "PlanDefinition")[0]
    places = {one["display"] for action in actions(plan) for one in action.get("documentation", [])}
    on = draft(demo.protocols()[name], demo.clinic(), demo.options())
    # An avoid line turns the condition of its exercise round, and stands with the action of what is done instead.
    for rule in rules(on):
        if rule.kind not in ("avoid", "start"):
            assert on.origin(rule.span) in places, rule
    words = {one["expression"]["expression"] for action in actions(plan) for one in action.get("condition", [])}
    said = " ".join(words)
    for rule in rules(on):
        assert condition_text(rule.condition) in said, rule


def actions(node: Any) -> list[Any]:
    """Every action at every depth."""
    return [one for action in node.get("action", []) for one in (action, *actions(action))]


@pytest.mark.parametrize("form", FORMS)
@pytest.mark.parametrize("name", demo.protocols())
def test_danger_signs_come_first_and_stand_against_everything(name: str, form: str) -> None:
    """The first action holds every emergency and red flag; the second has none of them as its condition."""
    protocol = demo.protocols()[name]
    signs, programme = resources(of_protocol(form, name), "PlanDefinition")[0]["action"]
    urgent = [one for one in signs["action"] if one.get("priority") in ("stat", "urgent")]
    assert len(urgent) == len(protocol.emergencies) + len(protocol.red_flags)
    (condition,) = programme["condition"]
    against = condition["expression"]["expression"]
    assert condition["kind"] == "applicability" and against.startswith("not ")
    assert all(one["condition"][0]["expression"]["expression"] in against for one in urgent)


@pytest.mark.parametrize("form", FORMS)
@pytest.mark.parametrize("name", demo.protocols())
def test_every_exercise_is_an_activity(name: str, form: str) -> None:
    """An activity definition for each exercise that can be given; a draft, of the clinic, with all its steps."""
    bundle = of_protocol(form, name)
    protocol = demo.protocols()[name]
    on = draft(protocol, demo.clinic(), demo.options())
    found = resources(bundle, "ActivityDefinition")
    assert [one["title"] for one in found] == [one.title.text for one in on.exercises()]
    for one, exercise in zip(found, on.exercises(), strict=True):
        assert (one["status"], one["version"], one["publisher"]) == ("draft", protocol.version, "Alder Quay clinic")
        assert len(one["description"].split("\n\n")) == len(exercise.do)


@pytest.mark.parametrize("form", FORMS)
@pytest.mark.parametrize("name", demo.protocols())
def test_what_decides_is_asked(name: str, form: str) -> None:
    """Every question and test that a rule looks at is in the questionnaire; an answer left open is not known."""
    (asked,) = resources(of_protocol(form, name), "Questionnaire")
    names = {one["linkId"] for one in items(asked)}
    on = draft(demo.protocols()[name], demo.clinic(), demo.options())
    scope = on.protocol.scope.findings
    for rule in rules(on):
        for finding in findings_in(rule.condition):
            if scope[finding].role != "finding":
                assert finding.replace(" ", "-") in names
    assert not [one for one in items(asked) if one.get("required")]


def items(node: Any) -> list[Any]:
    """Every item at every depth."""
    return [one for item in node.get("item", []) for one in (item, *items(item))]


@pytest.mark.parametrize("form", FORMS)
def test_where_it_comes_from(form: str) -> None:
    """The sources by the hash of their text (RFC 6920), the program without a person, the date of the sheet."""
    (found,) = resources(of_case(form, "P-0417"), "Provenance")
    assert found["recorded"] == "2026-11-25T00:00:00Z"
    assert [one["who"] for one in found["agent"]] == [{"type": "Device", "display": "protodsl 0.1.0"}]
    assert oracle("fhir", "provenance-agent-type").split().count(found["agent"][0]["type"]["coding"][0]["code"]) == 1
    assert found["agent"][0]["type"]["coding"][0]["system"] == table("fhir")["provenance-agent-type"]["unit"]
    files = [one["what"]["display"] for one in found["entity"]]
    assert files == ["ankle-sprain.protocol", "library/common.protocol", "library/leg.protocol"]
    assert all(one["what"]["identifier"]["value"].startswith("ni:///sha-256;") for one in found["entity"])


@pytest.mark.parametrize("form", demo.DATA)
def test_the_same_bytes(form: str) -> None:
    """The same files give the same bytes."""
    assert demo.case_file(form, "P-0431") == demo.case_file(form, "P-0431")
