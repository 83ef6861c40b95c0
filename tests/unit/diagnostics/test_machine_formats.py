"""JSON and SARIF: what other programs read."""

import json
from datetime import date
from decimal import Decimal
from pathlib import Path

import jsonschema
import pytest

from protodsl.diagnostics.diagnostic import Code, Diagnostic, Fix, Label, Severity
from protodsl.diagnostics.render_json import render_json
from protodsl.diagnostics.render_sarif import render_sarif
from protodsl.source import Source, Span

TESTS = next(folder for folder in Path(__file__).parents if folder.name == "tests")
SCHEMA = json.loads((TESTS / "schemas" / "sarif-2.1.0.json").read_text("utf-8"))

SOURCES = {
    "my clinic/a.protocol": Source("my clinic/a.protocol", "exercise 漢 x\n  works calve\n"),
    "lib.protocol": Source("lib.protocol", "target calf: the calf\n"),
}
AT = Span("my clinic/a.protocol", 21, 26)
LISTED = (
    Diagnostic(
        Code("N901", "no-such-target", Severity.ERROR),
        "`calve` is not declared",
        Label(AT, "here"),
        (Label(Span("lib.protocol", 7, 11), "did you mean this?"),),
        ("a fact",),
        "write `calf`",
        Fix(AT, "calf"),
        {"name": "calve", "limit": Decimal("2.50"), "on": date(2026, 11, 2), "all": ("a", "b"), "set": {"c"}},
    ),
    Diagnostic(
        Code("W902", "too-long", Severity.WARNING), "a sentence is too long", Label(Span("lib.protocol", 22, 22))
    ),
    Diagnostic(Code("H903", "old", Severity.HINT), "the review date has passed", Label(Span("gone.protocol", 0, 0))),
    Diagnostic(Code("P904", "nowhere", Severity.ERROR), "there is no clinic"),
)


def page(code: str) -> str:
    return f"# {code} x\n\nWhat it means,\nin a paragraph.\n\n## Wrong\n"


@pytest.mark.parametrize("listed", [LISTED, LISTED[:1], ()])
def test_sarif_is_valid_against_the_published_schema(listed: tuple[Diagnostic, ...]) -> None:
    """The JSON schema of SARIF 2.1.0 as tests/schemas/README.md names it."""
    log = json.loads(render_sarif(listed, SOURCES, "1.2.3", page))
    jsonschema.Draft4Validator(SCHEMA).validate(log)


def test_the_schema_refuses_what_is_not_sarif() -> None:
    log = json.loads(render_sarif(LISTED, SOURCES, "1.2.3", page))
    log["runs"][0]["results"][0]["level"] = "fatal"
    assert list(jsonschema.Draft4Validator(SCHEMA).iter_errors(log))


def test_sarif_says_where_and_what() -> None:
    """Paths are URIs (RFC 3986), places count characters from 1 with the end exclusive (SARIF 2.1.0, 3.30)."""
    run = json.loads(render_sarif(LISTED, SOURCES, "1.2.3", page))["runs"][0]
    first = run["results"][0]
    physical = first["locations"][0]["physicalLocation"]
    assert run["columnKind"] == "unicodeCodePoints"
    assert physical["artifactLocation"]["uri"] == "my%20clinic/a.protocol"
    assert physical["region"] == {"startLine": 2, "startColumn": 9, "endLine": 2, "endColumn": 14}
    assert [result["level"] for result in run["results"]] == ["error", "warning", "note", "error"]
    assert [run["tool"]["driver"]["rules"][result["ruleIndex"]]["id"] for result in run["results"]] == [
        one.code.id for one in LISTED
    ]
    assert first["fixes"][0]["artifactChanges"][0]["replacements"][0]["insertedContent"]["text"] == "calf"
    assert run["results"][3]["locations"] == []


def test_json_keeps_every_part_of_a_diagnostic() -> None:
    document = json.loads(render_json(LISTED, SOURCES, "1.2.3"))
    assert (document["format"], document["version"]) == (1, "1.2.3")
    assert document["summary"] == {"errors": 2, "warnings": 1, "hints": 1}
    first = document["diagnostics"][0]
    place = {"file": AT.path, "line": 2, "column": 9, "endLine": 2, "endColumn": 14, "start": 21, "end": 26}
    assert first["place"] == place
    assert SOURCES[AT.path].text[AT.start : AT.end] == "calve"
    assert first["fix"] == {"place": place, "replacement": "calf"}
    assert first["data"] == {"name": "calve", "limit": "2.50", "on": "2026-11-02", "all": ["a", "b"], "set": ["c"]}
    assert document["diagnostics"][2]["place"] == {"file": "gone.protocol"}
    assert document["diagnostics"][3]["place"] is None
