"""Conditions and doses written from what they mean, against the text that the demo's authors wrote."""

from __future__ import annotations

import re
from collections.abc import Iterator

import pytest
from ucumvert import get_ucum_parser

from protodsl.exchange.measures import NAMES, measures
from protodsl.exchange.written import condition_text, volume_text
from protodsl.handout.draft import draft
from protodsl.handout.rules import rules
from protodsl.model.condition import Condition
from protodsl.units import UNITS
from tests.evidence.rows import table
from tests.support import dose, entry
from tests.unit.exchange import demo


def conditions() -> Iterator[tuple[str, Condition]]:
    """Every condition of the demo, with its text as it stands in the file, settings by their values."""
    for protocol in demo.protocols().values():
        settings = protocol.scope.settings
        for rule in rules(draft(protocol, demo.clinic(), demo.options())):
            span = rule.condition.span
            text = demo.run().sources()[span.path].text[span.start : span.end]
            for name, setting in settings.items():
                value = re.sub(r" weeks?$| days?$", "", str(setting.value)) if "since" in text else str(setting.value)
                text = re.sub(rf"(?<=[<>=] ){name}\b", value, text)
            yield text, rule.condition


def test_conditions_are_written_as_their_authors_did() -> None:
    """Each condition of the demo, some hundred of them, is the text it was read from."""
    found = list(conditions())
    assert len(found) > 100
    assert [(text, condition_text(one)) for text, one in found if condition_text(one) != text] == []


FORMS = (
    "dizzy", "not dizzy", "not (dizzy or sore)", "dizzy and (sore or not dizzy)",
    "at least 2 of (dizzy, sore, ache > 3)", "kind is mild", "kind is not mild", "kind is one of (mild, bad)",
    "ache >= ache next + 1", "ache > 3 and bend < 10 cm", "reach >= 3 cm on each side",
    "reach < 2 cm on the affected side", "symmetry of reach >= 90 %", "difference of reach > 2 cm",
    "change of ache since start >= 2", "change of ache since last time >= 2", "weeks since start >= 2",
    "days since phase start < 3",
)  # fmt: skip


@pytest.mark.parametrize("text", FORMS)
def test_every_form_is_read_back_as_the_same(text: str) -> None:
    """What is written from a condition means that condition to the language itself."""
    condition = read(text)
    assert condition_text(condition) == text
    assert read(condition_text(condition)) == condition


def read(text: str) -> Condition:
    """A condition as the language reads it."""
    declared = (
        "question dizzy: Dizzy?\n\nquestion sore: Sore?\n\n"
        "question ache: How bad?\n  answer 0 to 10\n\nquestion ache next: How bad next day?\n  answer 0 to 10\n\n"
        "test bend: How far?\n  answer cm from 0 to 50\n\ntest reach: How far?\n  answer cm from 0 to 50, each side\n\n"
        "question kind: Which?\n  answer one of mild, bad\n\nexercise practice\n  do\n    Move.\n\n"
    )
    head = "  version 1.0.0\n  for anybody\n  source Common practice.\n"
    head += "  review 2026-10-05 by lead, next by 2027-10-05\n"
    text = f"{declared}protocol one\n{head}  phase only\n    give practice if {text}\n"
    give = entry(text).protocols[0].phases[0].contents[0]
    condition = getattr(give, "condition", None)
    assert condition is not None
    return condition  # type: ignore[no-any-return]


@pytest.mark.parametrize(
    "text",
    ["3 x 12", "3 x 8 to 12", "3 x 30 s", "3 x to fatigue", "12 then 10 then 8", "12 reps", "20 min", "400 m",
     "5 x (4 min walk + 1 min run)"],
)  # fmt: skip
def test_volumes(text: str) -> None:
    """Every form of an amount is written as it was read."""
    volume = dose(text).volume
    assert volume is not None and volume_text(volume) == text


def test_units_are_ucum_codes() -> None:
    """Every unit is one of HL7's list of common UCUM codes, but for annotations and two made of codes of that list."""
    common = {row["value"] for row in table("fhir").values() if row["quantity"] == "UCUM code"}
    made = {"km/h"}
    codes = {unit.ucum for unit in UNITS.values()}
    assert {code for code in codes - common - made if not re.fullmatch(r"\{[a-z]+\}", code)} == set()
    for name, code in (("kg", "kg"), ("cm", "cm"), ("mm", "mm"), ("deg", "deg"), ("s", "s"), ("min", "min"),
                       ("hours", "h"), ("days", "d"), ("weeks", "wk"), ("%", "%"), ("in", "[in_i]")):  # fmt: skip
        assert UNITS[name].ucum == table("fhir")[f"ucum.{code}"]["value"]


def test_measures_are_ucum_too() -> None:
    """Every code that a measure of a dose can have is read by ucumvert, a parser of the UCUM grammar."""
    parser = get_ucum_parser()
    said = [
        "3 x 8 to 12, each side, lift 2 s, hold 5 s, lower 3 s, rest 60 s, load 70 % of 1RM up to 20 kg, effort 6 to 7",
        "3 x 10, 2 reps in reserve, load 8RM, 3 times a day, 3 days a week, rest day between, for 6 weeks",
        "3 x 10, 2 supervised",
        "5 x (4 min walk + 1 min run), every 2 hours", "3 x 10 breaths, every other day", "3 x 20 steps, load 10 lb",
        "400 m, daily", "3 x 30 s", "12 then 10 then 8", "3 x to fatigue, rest until settled",
        "3 x 10, hold until settled", "3 x 10, load body weight + 5 kg",
    ]  # fmt: skip
    found = [one for text in said for one in measures(dose(text))]
    assert [one for one in found if one.low is not None and not parser.parse(one.ucum)] == []
    assert sorted({one.name for one in found}) == sorted(NAMES)
