"""The product's own JSON against its published schemas, and its numbers and conditions against the model."""

from __future__ import annotations

import json
import re
from collections.abc import Iterator
from dataclasses import fields
from functools import cache
from pathlib import Path
from typing import Any

import jsonschema
import pytest

from protodsl.decide.plan import REFER, UNANSWERED
from protodsl.exchange.json.fields import EVERYWHERE, FIELDS, LEFT_OUT
from protodsl.exchange.written import condition_text
from protodsl.handout.draft import draft
from protodsl.handout.rules import rules
from tests.unit.exchange import demo

SCHEMAS = Path(__file__).resolve().parents[2] / "schemas"


@cache
def validator(kind: str) -> Any:
    """The validator of a kind of document; its schema is one itself (JSON Schema, draft 2020-12)."""
    schema = json.loads((SCHEMAS / f"protodsl-{kind}-1.json").read_bytes())
    jsonschema.Draft202012Validator.check_schema(schema)
    return jsonschema.Draft202012Validator(schema, format_checker=jsonschema.FormatChecker())


def faults(kind: str, document: Any) -> list[str]:
    """What a document of a kind has wrong."""
    return [f"{list(one.absolute_path)}: {one.message[:200]}" for one in validator(kind).iter_errors(document)]


def test_every_field_of_the_model_is_decided_on() -> None:
    """A field that the model has is handed on, or left out on purpose: a new safety line is not forgotten."""
    forgotten = {
        f"{kind.__name__}.{field.name}"
        for kind, names in FIELDS.items()
        for field in fields(kind)
        if field.name not in (*names, *EVERYWHERE, *LEFT_OUT.get(kind, ()))
    }
    assert forgotten == set()


def nodes(node: Any) -> Iterator[Any]:
    """Every value of a document."""
    yield node
    for inner in node.values() if isinstance(node, dict) else node if isinstance(node, list) else ():
        yield from nodes(inner)


@pytest.mark.parametrize("case", demo.CASES)
def test_a_plan_keeps_its_schema(case: str) -> None:
    """What is handed on of a person is what the schema of format 1 says, no field more or less."""
    assert faults("plan", json.loads(demo.case_file("json", case))) == []


@pytest.mark.parametrize("why", [REFER, UNANSWERED])
def test_a_refused_plan_keeps_its_schema(why: str) -> None:
    """Also where there is nothing to do; and one with an exercise in it does not."""
    document = json.loads(demo.plan_file("json", demo.refused("P-0423", why)) or b"")
    assert faults("plan", document) == []
    document["items"] = json.loads(demo.case_file("json", "P-0423"))["items"]
    assert faults("plan", document)


@pytest.mark.parametrize("name", demo.protocols())
def test_a_protocol_keeps_its_schema(name: str) -> None:
    """What is handed on of a protocol is what the schema of format 1 says."""
    assert faults("protocol", json.loads(demo.protocol_file("json", name))) == []


@pytest.mark.parametrize("path", ["format", "exercises", "protocol"])
def test_a_schema_can_fail(path: str) -> None:
    """A field too few or another number of the format is not format 1."""
    document = json.loads(demo.protocol_file("json", "lateral ankle sprain"))
    del document[path]
    assert faults("protocol", document)


@pytest.mark.parametrize("name", demo.protocols())
def test_every_rule_is_there_with_its_words_and_its_place(name: str) -> None:
    """Each condition of the protocol stands in the document as a tree and in words, and each line with its file."""
    document = json.loads(demo.protocol_file("json", name))
    protocol = demo.protocols()[name]
    found = [one for one in nodes(document) if isinstance(one, dict) and "expression" in one]
    assert all(one["words"] for one in found)
    trees = {text_of(one["expression"]) for one in found}
    on = draft(protocol, demo.clinic(), demo.options())
    assert {condition_text(rule.condition) for rule in rules(on)} <= trees
    places = {one["place"] for one in nodes(document) if isinstance(one, dict) and one.get("place")}
    for rule in rules(on):
        assert f"{rule.span.path}:{demo.run().sources()[rule.span.path].position(rule.span.start)[0]}" in places


@pytest.mark.parametrize("case", demo.CASES)
def test_nothing_but_whole_numbers(case: str) -> None:
    """A decimal is a string, so that no reader rounds it; nothing else is a number with a fraction."""
    text = demo.case_file("json", case).decode()
    assert not [one for one in nodes(json.loads(text)) if isinstance(one, float)]
    assert json.loads(text)["items"][0]["dose"]["volume"]["sets"]["low"] == "3" or case != "P-0417"


@pytest.mark.parametrize("case", demo.CASES)
def test_no_free_text_of_the_case(case: str) -> None:
    """Notes, reasons and the name of the file of a case are not handed on: they may say who it is."""
    text = demo.case_file("json", case).decode()
    notes = [note.words for note in demo.person(case).case.notes]
    assert not [words for words in notes if words in text]
    assert f"cases/{case}.case" not in text and re.search(r'"case:\d+"', text)


def text_of(tree: Any) -> str:
    """An expression in the language's spelling, by a reader of its own."""
    side = tree.get("side")
    on = "" if side is None else f" on {side} side" if side in ("each", "either") else f" on the {side} side"
    match tree["is"]:
        case "fact":
            return f"{tree['finding']}{on}"
        case "not":
            inner = text_of(tree["of"])
            return f"not {inner}" if tree["of"]["is"] == "fact" else f"not ({inner})"
        case "all" | "any" as by:
            parts = [f"({text_of(one)})" if one["is"] in ("all", "any") else text_of(one) for one in tree["of"]]
            return (" and " if by == "all" else " or ").join(parts)
        case "at-least":
            return f"at least {tree['count']} of ({', '.join(map(text_of, tree['of']))})"
        case "one-of":
            values = tree["values"]
            is_ = "is not" if tree["negated"] else "is"
            return f"{tree['finding']} {is_} {values[0]}{on}" if len(values) == 1 else (
                f"{tree['finding']} is one of ({', '.join(values)}){on}"
            )  # fmt: skip
    left, right = term_text(tree["left"]), term_text(tree["right"])
    if tree["left"]["term"] == "elapsed":
        right = tree["right"]["quantity"]["value"]
    return f"{left} {tree['comparator']} {right}{on}"


def term_text(term: Any) -> str:
    """One side of a comparison."""
    match term["term"]:
        case "finding":
            plus = term["plus"]
            if plus is None:
                return str(term["finding"])
            sign = "-" if plus["value"].startswith("-") else "+"
            unit = f" {plus['unit']}" if plus["unit"] else ""
            return f"{term['finding']} {sign} {plus['value'].lstrip('-')}{unit}"
        case "constant":
            one = term["quantity"]
            return str(one["value"]) + (f" {one['unit']}" if one["unit"] not in (None, "count") else "")
        case "elapsed":
            return f"{term['unit']} since {term['since']}"
        case "change":
            return f"change of {term['finding']} since {term['since']}"
    return f"{term['term']} of {term['finding']}"
