"""The questions and tests of a protocol as a questionnaire; a question that is left open is not known."""

from __future__ import annotations

from protodsl.exchange.fhir.amounts import UCUM, number
from protodsl.exchange.fhir.release import Json, Release
from protodsl.exchange.fhir.resources import defined, protocol_id, resource
from protodsl.exchange.reached import findings
from protodsl.exchange.speech import Speech
from protodsl.handout.draft import Draft
from protodsl.handout.phrase import Written
from protodsl.handout.words import say
from protodsl.model.finding import Answer, Finding, Kind
from protodsl.model.text import Prose

_STRUCTURE = "http://hl7.org/fhir/StructureDefinition"
_SIDES = ("left", "right")


def questionnaire(on: Draft, speech: Speech, release: Release) -> Json | None:
    """The questionnaire of all that a rule of the protocol looks at; None where that is nothing."""
    asked = [one for one in findings(on) if one.role in ("question", "test")]
    if not asked:
        return None
    title = speech.words(Written(on.protocol.title))
    id = protocol_id(speech, on.protocol, "questionnaire")
    items = [_item(speech, release, one) for one in asked]
    content = {**defined(speech, on.protocol, id, title), "subjectType": ["Patient"], "item": items}
    return resource("Questionnaire", id, speech, title, [_words(speech, one) for one in asked], **content)


def _item(speech: Speech, release: Release, finding: Finding) -> Json:
    """One question; a sided one is a group with a question for each side."""
    name = finding.name.replace(" ", "-")
    text = _words(speech, finding)
    answer = _answer(release, finding.answer)
    if not finding.answer.sided:
        return {**_extended(finding.answer), "linkId": name, "text": text, **answer}
    sides: list[Json] = [
        {
            **_extended(finding.answer),
            "linkId": f"{name}-{side}",
            "text": speech.words(say("name", name=say(f"prose.{side}"))),
            **answer,
        }
        for side in _SIDES
    ]
    return {"linkId": name, "text": text, "type": "group", "item": sides}


def _answer(release: Release, answer: Answer) -> Json:
    if answer.kind is Kind.CHOICE:
        return {**release.choice_type(), "answerOption": [{"valueString": one} for one in answer.choices]}
    if answer.kind is Kind.MEASURE and not _counts(answer):
        return {"type": "quantity"}
    return {"type": {Kind.YES_NO: "boolean", Kind.DATE: "date"}.get(answer.kind, "integer")}


def _extended(answer: Answer) -> Json:
    """The unit of a measure, and the least and most of a number, by the extensions of the standard."""
    found: list[Json] = []
    if answer.kind is Kind.MEASURE and answer.unit is not None and not _counts(answer):
        coded = {"system": UCUM, "code": answer.unit.ucum, "display": answer.unit.name}
        found.append({"url": f"{_STRUCTURE}/questionnaire-unit", "valueCoding": coded})
    elif answer.kind in (Kind.SCALE, Kind.MEASURE):
        for name, end in (("minValue", answer.low), ("maxValue", answer.high)):
            if end is not None:
                found.append({"url": f"{_STRUCTURE}/{name}", "valueInteger": int(number(end))})
    return {"extension": found} if found else {}


def _counts(answer: Answer) -> bool:
    return answer.unit is None or answer.unit.dimension == "count"


def _words(speech: Speech, finding: Finding) -> str:
    prose = finding.words or Prose(finding.name, f"finding/{finding.name}/name")
    return speech.words(Written(prose))
