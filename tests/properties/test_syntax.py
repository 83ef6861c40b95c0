"""What holds of every text and every tree: printing and parsing undo each other, and nothing a person writes raises."""

from __future__ import annotations

from pathlib import Path

import pytest
from hypothesis import HealthCheck, example, given, settings
from hypothesis import strategies as st

from protodsl.source import Source
from protodsl.syntax import (
    condition_text,
    format_source,
    format_tree,
    line_of,
    parse_case,
    parse_condition,
    parse_protocol,
    tree,
)
from tests.properties import trees
from tests.unit.syntax.samples import sample_paths

SLOW = settings(
    max_examples=150, deadline=None, suppress_health_check=[HealthCheck.too_slow, HealthCheck.filter_too_much]
)
# What the shape of a tree lacks or has twice is said beside a tree that is right as far as it was read.
SHAPE = ("T125", "T126", "T127")


def read(text: str, case: bool) -> tree.File:
    """The tree of a text that holds no mistake but those of shape."""
    outcome = (parse_case if case else parse_protocol)(Source("x", text))
    assert outcome.value is not None
    assert [(one.code.id, one.message) for one in outcome.diagnostics if one.code.id not in SHAPE] == [], text
    return outcome.value


@SLOW
@given(trees.conditions)
def test_a_condition_survives_being_printed(condition: tree.Condition) -> None:
    outcome = parse_condition(condition_text(condition))
    assert outcome.value == condition, condition_text(condition)


@SLOW
@given(st.lists(trees.declarations, max_size=3))
def test_a_protocol_file_survives_being_printed(statements: list[tree.Statement]) -> None:
    file = tree.File("x", tuple(statements))
    text = format_tree(file)
    again = read(text, case=False)
    assert again.statements == file.statements, text
    assert format_tree(again) == text


@SLOW
@given(trees.cases)
def test_a_case_survives_being_printed(case: tree.Statement) -> None:
    text = format_tree(tree.File("x", (case,)))
    again = read(text, case=True)
    assert again.statements == (case,), text
    assert format_tree(again) == text


@SLOW
@given(trees.exercise_lines)
def test_the_line_of_a_statement_is_its_first(statement: tree.Statement) -> None:
    """What `lift` and `allow if` are compared by is what the formatter writes."""
    text = format_tree(tree.File("x", (tree.Declaration("exercise", tree.Name("x"), None, (statement,)),)))
    assert text.split("\n")[1] == f"  {line_of(statement)}"


@settings(max_examples=300, deadline=None)
@given(st.text(st.characters() | st.sampled_from(" \n\t:,#\r\u00a0\ufeff")), st.booleans())
@example("exercise x\n  avoid if not\n", False)
@example("case P-1\n  on 2026-01-01\n", True)
def test_no_text_makes_the_parser_raise(text: str, case: bool) -> None:
    source = Source("x.case" if case else "x.protocol", text)
    outcome = (parse_case if case else parse_protocol)(source)
    assert outcome.value is not None
    for one in outcome.diagnostics:
        assert 0 <= one.primary.span.start <= one.primary.span.end <= len(text) + 1
        assert one.message and "\n" not in one.message.replace("\n", "", text.count("\n"))
    format_source(source)
    parse_condition(text)


@pytest.mark.parametrize("path", sample_paths(), ids=lambda path: path.name)
@settings(max_examples=15, deadline=None, suppress_health_check=[HealthCheck.function_scoped_fixture])
@given(data=st.data())
def test_no_edit_of_a_sample_makes_the_parser_raise(path: Path, data: st.DataObject) -> None:
    """Lines moved, cut, joined and given other letters: closer to what happens in an editor than any text."""
    lines = path.read_text(encoding="utf-8").split("\n")
    start = data.draw(st.integers(0, max(len(lines) - 40, 0)))
    lines = lines[start : start + 40]
    for _ in range(data.draw(st.integers(1, 6))):
        at = data.draw(st.integers(0, len(lines) - 1))
        line = lines[at]
        cut = data.draw(st.integers(0, len(line)))
        match data.draw(st.sampled_from(["letter", "cut", "join", "indent", "move", "drop"])):
            case "letter":
                lines[at] = line[:cut] + data.draw(st.sampled_from(list(":,()#- aZ9\t–and or if"))) + line[cut + 1 :]
            case "cut":
                lines[at : at + 1] = [line[:cut], line[cut:]]
            case "join":
                lines[at : at + 2] = ["".join(lines[at : at + 2])]
            case "indent":
                lines[at] = " " * data.draw(st.integers(0, 7)) + line.lstrip()
            case "move":
                lines.insert(data.draw(st.integers(0, len(lines) - 1)), lines.pop(at))
            case _ if len(lines) > 1:
                del lines[at]
    text = "\n".join(lines)
    source = Source(path.name, text)
    outcome = (parse_case if path.suffix == ".case" else parse_protocol)(source)
    assert outcome.value is not None
    if not outcome.diagnostics:
        formatted = format_tree(outcome.value)
        assert (parse_case if path.suffix == ".case" else parse_protocol)(Source("x", formatted)).value == tree.File(
            "x", outcome.value.statements, outcome.value.comments
        )
