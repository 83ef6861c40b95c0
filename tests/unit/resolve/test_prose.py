"""Prose: keys made of names, placeholders looked up and kept as written."""

from collections.abc import Iterator
from dataclasses import fields, is_dataclass

import pytest

from protodsl.model.text import Prose
from tests.unit.resolve.shelf import codes, resolved
from tests.unit.resolve.test_protocols import ANKLE


def proses(thing: object) -> Iterator[Prose]:
    """Every line of prose inside a model."""
    if isinstance(thing, Prose):
        yield thing
    elif isinstance(thing, (tuple, list)):
        for one in thing:
            yield from proses(one)
    elif isinstance(thing, dict):
        yield from proses(list(thing.values()))
    elif is_dataclass(thing):
        for one in fields(thing):
            yield from proses(getattr(thing, one.name))


def test_keys_are_made_of_names() -> None:
    text = ANKLE + "    call if pain > 6\n      Call us.\n    give heel raise\n      when at noon\n"
    text = text.replace("    up when pain <= 3\n", "    up when pain <= 3\n      Well done.\n")
    entry, said = resolved({"a.protocol": text}, "a.protocol")
    assert not said
    keys = {(one.key, one.text) for one in proses(entry)}
    assert keys >= {
        ("question/pain/question", "How strong?"),
        ("equipment/step/words", "a step"),
        ("exercise/heel raise/title", "Heel raise"),
        ("exercise/heel raise/do", "Rise."),
        ("progression/calf strength/level/heel raise/up when", "Well done."),
        ("protocol/ankle/goal", "walk"),
        ("protocol/ankle/phase/settle/title", "Weeks 0 to [weeks in brace]"),
        ("protocol/ankle/phase/settle/part", "Strength"),
        ("protocol/ankle/phase/build/call if", "Call us."),
        ("protocol/ankle/phase/build/give/heel raise/when", "at noon"),
        ("protocol/ankle/phase/build/title", "build"),
    }


def test_an_inherited_line_keeps_the_key_of_where_it_was_written() -> None:
    """It is translated once, however many variants it has."""
    entry, _ = resolved({"a.protocol": ANKLE}, "a.protocol")
    assert entry.scope.exercises["slow heel raise"].do[0].key == "exercise/heel raise/do"


def test_moving_lines_changes_no_key() -> None:
    text = "exercise a\n  do\n    One.\n  stop pain\n  feel warmth\n"
    moved = "# A comment.\n\nexercise a\n  feel warmth\n  stop pain\n  do\n    One.\n"
    found = [{(p.key, p.text) for p in proses(resolved({"a.protocol": t}, "a.protocol")[0])} for t in (text, moved)]
    assert found[0] == found[1]


def test_a_place_of_prose_is_where_it_stands() -> None:
    entry, _ = resolved({"a.protocol": ANKLE}, "a.protocol")
    for one in proses(entry):
        assert ANKLE[one.span.start : one.span.end] == one.text


@pytest.mark.parametrize(
    ("words", "codes_"),
    [
        ("Wear it for [weeks in brace].", []),
        ("Use the [affected side], not the [other side].", []),
        ("Wear it for [weeks in brac].", ["N201"]),
        ("Lift [left side] and [weeks in brac].", ["N201", "N201"]),
        ("Press [ ].", ["N201"]),
    ],
)
def test_placeholders(words: str, codes_: list[str]) -> None:
    text = f"setting weeks in brace = 2 weeks\nexercise a\n  do\n    {words}\n"
    entry, said = resolved({"a.protocol": text}, "a.protocol")
    assert codes(said) == codes_
    assert entry.scope.exercises["a"].do[0].text == words
