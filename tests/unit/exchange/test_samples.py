"""What the demo does not have: choices, more for one side, another script, words that nobody read, doubtful bundles."""

from __future__ import annotations

import copy
import json
from dataclasses import replace
from typing import Any

import icalendar
import pytest

from protodsl.decide import decide
from protodsl.decide.plan import REFER
from protodsl.diagnostics.diagnostic import Diagnostic
from protodsl.diagnostics.project import NO_SUCH_LANGUAGE
from protodsl.exchange import Translation
from protodsl.exchange.export import export_plan, export_protocol
from protodsl.exchange.safety import stop_lines
from protodsl.exchange.speech import speech
from protodsl.handout.person.today import drafted
from protodsl.localise.catalogue import languages
from protodsl.model.case import Added
from protodsl.model.exercise import Give
from protodsl.model.text import Prose
from protodsl.source import Source, Span
from tests.unit.exchange import demo, test_fhir, test_json
from tests.unit.exchange import fhir_rules as standard
from tests.unit.handout import samples
from tests.unit.handout.person import plans


def sample(form: str) -> bytes:
    """The plan that holds one of every kind of thing."""
    made = export_plan(form, plans.plan(), samples.CLINIC, plans.OPTIONS).value
    assert made is not None
    return made


def test_the_sample_keeps_every_format() -> None:
    """A plan and a protocol with one of every kind of line are valid by the schemas and by the standard."""
    assert test_json.faults("plan", json.loads(sample("json"))) == []
    for form in test_fhir.FORMS:
        test_fhir.check(json.loads(sample(form)), form)
        made = export_protocol(form, samples.protocol(), samples.CLINIC, plans.OPTIONS).value
        test_fhir.check(json.loads(made or b""), form)
    made = export_protocol("json", samples.protocol(), samples.CLINIC, plans.OPTIONS).value
    assert test_json.faults("protocol", json.loads(made or b"")) == []


def test_an_open_choice_is_a_choice() -> None:
    """What is chosen among is not asked for all at once: an option in FHIR R5, words in a calendar."""
    chosen = [item.exercise.title.text for item in plans.plan().items if item.options]
    assert chosen
    orders = test_fhir.resources(json.loads(sample("fhir-r5")), "ServiceRequest")
    assert [one["code"]["concept"]["text"] for one in orders if one["intent"] == "option"] == chosen
    text = sample("ics").decode().replace("\r\n ", "")
    assert "Do only 1 of these: 3 or 4." in text and "SUMMARY;LANGUAGE=en:Exercises 1 and 3 or 4" in text
    (plan,) = test_fhir.resources(
        json.loads(export_protocol("fhir-r4b", samples.protocol(), samples.CLINIC, plans.OPTIONS).value or b""),
        "PlanDefinition",
    )
    assert "exactly-one" in {one.get("selectionBehavior") for one in test_fhir.actions(plan)}


@pytest.mark.parametrize("form", ["ics", "json", "fhir-r5", "fhir-r4b"])
@pytest.mark.parametrize("case", demo.CASES)
def test_the_signs_to_stop_for_are_in_it(case: str, form: str) -> None:
    """Every line of the STOP frame of the sheet goes with the exercises, into every entry of a calendar too."""
    plan = demo.decided(case).plan
    spoken = speech(plan.protocol.scope, demo.clinic(), demo.options(), plan.case).value
    assert spoken is not None
    wanted = stop_lines(drafted(plan, demo.clinic(), demo.options()), spoken)
    assert len(wanted) > 5
    data = demo.case_file(form, case)
    if form == "ics":
        calendar: Any = icalendar.Calendar.from_ical(data)
        texts = [str(one["DESCRIPTION"]) for one in calendar.events if one["SUMMARY"].startswith("Exercise")]
    elif form == "json":
        texts = ["\n".join(json.loads(data)["stop"])]
    else:
        (care_plan,) = test_fhir.resources(json.loads(data), "CarePlan")
        texts = [care_plan["note"][0]["text"].replace("\\", "")]
    assert texts and [line for line in wanted for text in texts if line not in text] == []


@pytest.mark.parametrize("language", sorted(set(languages()) - {"en"}))
def test_another_language_and_script(language: str) -> None:
    """Entries and resources say which language they are in; no line of a calendar is longer than 75 octets."""
    options = replace(demo.options(), language=language)
    made = export_plan("ics", demo.decided("P-0417").plan, demo.clinic(), options).value or b""
    assert max(map(len, made.split(b"\r\n"))) <= 75
    calendar: Any = icalendar.Calendar.from_ical(made)
    assert {one["SUMMARY"].params["LANGUAGE"] for one in calendar.events} == {language}
    bundle = json.loads(export_plan("fhir-r5", demo.decided("P-0417").plan, demo.clinic(), options).value or b"")
    test_fhir.check(bundle, "fhir-r5")
    assert {entry["resource"]["language"] for entry in bundle["entry"]} == {language}
    direction = {"ar": "rtl"}.get(language, "ltr")
    assert f'lang="{language}" dir="{direction}"' in bundle["entry"][0]["resource"]["text"]["div"]


@pytest.mark.parametrize("form", demo.DATA)
def test_words_that_nobody_read_are_not_handed_on(form: str) -> None:
    """With a gap in the words that it uses a file is not made; of a refused plan that is no error."""
    gap = Diagnostic(NO_SUCH_LANGUAGE, "no words")
    used: list[str] = []

    def gaps(proses: Any) -> tuple[Diagnostic, ...]:
        used.extend(prose.text for prose in proses)
        return (gap,)

    translation = Translation({}, "en", gaps)
    made = export_plan(form, demo.decided("P-0417").plan, demo.clinic(), demo.options(), None, translation)
    assert made.value is None and made.diagnostics == (gap,)
    assert "Heel raise on both legs" in used
    held = export_plan(form, demo.refused("P-0417", REFER), demo.clinic(), demo.options(), None, translation)
    assert held.value is None and [one.code.id for one in held.diagnostics] == ["P960"]


@pytest.mark.parametrize(
    ("path", "value", "rule"),
    [
        ("type", "batch", "bdl-3: Bundle"),
        ("total", 3, "bdl-1: Bundle"),
        ("entry.1.fullUrl", "urn:uuid:x/_history/1", "bdl-8: Bundle.entry"),
        ("entry.0.resource.activity.0.reference", {"display": "x"}, "cpl-3: CarePlanActivity"),
    ],
)
def test_a_bundle_that_breaks_a_rule_is_seen(path: str, value: object, rule: str) -> None:
    """The published rules that are looked at are not idle."""
    bundle = copy.deepcopy(test_fhir.of_case("fhir-r4b", "P-0417"))
    test_fhir.put(bundle, path, value)
    assert rule in standard.broken_invariants(bundle)


def test_a_questionnaire_that_breaks_a_rule_is_seen() -> None:
    """Two questions of one name, and a group without questions."""
    bundle = copy.deepcopy(test_fhir.of_protocol("fhir-r5", "lateral ankle sprain"))
    (asked,) = test_fhir.resources(bundle, "Questionnaire")
    asked["item"][1]["linkId"] = asked["item"][0]["linkId"]
    asked["item"][2] = {"linkId": "x", "type": "group"}
    assert {"que-1: QuestionnaireItem", "que-2: Questionnaire"} <= set(standard.broken_invariants(bundle))


@pytest.mark.parametrize("form", demo.DATA)
def test_what_a_case_changes_for_one_person(form: str) -> None:
    """What a case gives besides the protocol is handed on; the reason and the name of its file are not."""
    who = demo.person("P-0417")
    path, day = "cases/of-somebody.case", demo.decided("P-0417").plan.as_of
    give = Give("hop both legs", span=Span(path, 3, 4))
    because = Prose("as her sister asked", "", Span(path, 5, 6))
    case = replace(
        who.case, span=Span(path, 0, 1), added=(Added(day, None, give, because, span=Span(path, 3, 4)),), left_out=()
    )
    plan = decide(who.versions, case, demo.clinic()).value
    assert plan is not None and "hop both legs" in {item.item for item in plan.items}
    options = replace(demo.options(), sources={**demo.run().sources(), path: Source(path, "\n" * 9)})
    made = (export_plan(form, plan, demo.clinic(), options).value or b"").decode().replace("\r\n ", "")
    assert plan.protocol.scope.exercises["hop both legs"].title.text in made
    assert "sister" not in made and "somebody" not in made
