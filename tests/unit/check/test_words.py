"""What is said of the words a patient reads."""

from __future__ import annotations

import re
from dataclasses import replace

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from markdown_it import MarkdownIt

from protodsl.check import check
from protodsl.check.context import Context, context_of
from protodsl.check.texts import Text
from protodsl.check.words.unmatched_emphasis import unmatched_emphasis
from protodsl.diagnostics.diagnostic import Diagnostic
from protodsl.model.emphasis import STAR_IN_WORD
from protodsl.model.exercise import Exercise
from protodsl.model.protocol import Entry, Scope
from protodsl.model.text import Prose
from tests.support import compiled
from tests.unit.check.saying import CLINIC, checked, codes, exercise, messages, protocol


def step(line: str) -> str:
    """An exercise with one step."""
    return exercise().replace("Rise as high as you can.", line) + protocol("give heel raise")


@pytest.mark.parametrize(
    ("line", "side"),
    [
        ("Stand on your left leg.", "left"),
        ("Right foot first.", "Right"),
        ("Turn left, then right.", "left"),
        ("Keep the knee at a right angle.", None),
        ("Stop right away.", None),
        ("Blow until no air is left.", None),
        ("Stand on your [affected side] leg.", None),
        ("Stand upright, as bright as day.", None),
    ],
)
def test_a_bare_side(line: str, side: str | None) -> None:
    assert [message.split("`")[1] for message in messages(step(line), "W804")][:1] == ([side] if side else [])


def test_a_side_of_the_house_is_not_the_exercise() -> None:
    """Only the prose of an exercise is printed for either side; advice may speak of the left bank of the river."""
    text = exercise() + protocol("advice Where to walk", "  Keep to the left bank.", "give heel raise")
    assert codes(text) == []


@pytest.mark.parametrize(
    ("line", "count"),
    [
        ("Stand on the step, bend your knees and lift one foot.", 3),
        ("Bend your knees. Lift your hips. Lower them again.", 3),
        ("Sit down, then stand up and then turn round.", 3),
        ("Lower your heel slowly. Count to three.", 0),
        ("Hold and keep breathing.", 0),
        ("Lie on your back with your knees bent, feet flat and arms by your side.", 0),
    ],
)
def test_actions_in_a_step(line: str, count: int) -> None:
    (found,) = messages(step(line), "W802") or [""]
    assert found.startswith(f"this step asks for {count} things") is (count > 0)


def test_a_long_sentence_is_marked_alone() -> None:
    """The mark stands under the sentence that is too long, and a sentence of just so many words is fine."""
    long = "One two three four five six seven eight nine ten one two three four five six seven eight nine ten one."
    text = step(f"Rise. {long} Rest.")
    (found,) = [one for one in checked(text) if one.code.id == "W801"]
    assert text[found.primary.span.start : found.primary.span.end] == long
    assert messages(step(long.removesuffix(" one.") + "."), "W801") == []


def test_fault_and_cure_are_two_sentences() -> None:
    fault, cure = " ".join(["word"] * 15), " ".join(["word"] * 15)
    assert codes(exercise("heel raise", f"fix {fault}: {cure}") + protocol("give heel raise")) == []


@pytest.mark.parametrize(
    ("line", "said"),
    [
        ("Rise **slowly** and *gently*.", False),
        ("Rise **slowly.", True),
        ("Rise *slowly**.", True),
        ("Rise slowly*.", True),
        ("Do 3 * 10 of them.", False),
        ("Rise \\* slowly.", False),
        ("Rise ***slowly***.", False),
        ("Rise ** slowly **.", True),
    ],
)
def test_emphasis(line: str, said: bool) -> None:
    assert bool(messages(step(line), "W806")) is said


@pytest.mark.parametrize(
    ("line", "said"),
    [
        ("Do 2*10 slowly, then 1*5 fast.", True),
        ("Do 2*10 slowly.", True),
        ("Do 2**10 slowly, then 1**5.", True),
        ("Do 2 *10 slowly, then 1* 5.", True),
        ("Do 2\\*10 slowly, then 1\\*5.", True),
        ("Rise un*believ*ably.", True),
        ("Rise *slow*ly.", True),
        ("Do 2 * 10, then 1 * 5.", False),
        ("Do *10* of them, **slowly**.", False),
        ("Do (*2*), then *three*.", False),
        ("Do 2 × 10 or 2 x 10.", False),
    ],
)
def test_a_star_inside_a_word(line: str, said: bool) -> None:
    """Said of all prose, and not once more as emphasis that is not closed."""
    text = step(line)
    found = [one.code.id for one in all_of(text) if one.code.id in ("W806", "W807")]
    assert found == (["W807"] if said else [])


@settings(max_examples=300, deadline=None)
@given(st.lists(st.sampled_from(("*", "**", "2", "10", " ", "word", "\\", ",")), min_size=1, max_size=9).map("".join))
def test_no_number_that_is_printed_runs_together(middle: str) -> None:
    """CommonMark 0.31.2 by markdown-it-py, backslashes escaped as in the product."""
    line = f"A {middle} Z"
    if STAR_IN_WORD.search(line):
        return
    tokens = MarkdownIt("commonmark").parseInline(literal(line))[0].children or ()
    text = "".join(token.content for token in tokens)
    assert re.findall(r"\d+", text) == re.findall(r"\d+", line)


@settings(max_examples=200, deadline=None)
@given(st.lists(st.sampled_from(("*", "**", "word", " ", "other")), min_size=1, max_size=8).map("".join))
def test_every_star_that_would_be_printed_is_named(middle: str) -> None:
    """CommonMark 0.31.2, section 6.2 (emphasis and strong emphasis), by markdown-it-py; a star between blanks is meant.

    Pairs that the standard finds in crossed or crowded stars are named as well: nobody can see what they mean.
    """
    line = f"A {middle} Z"
    text = "".join(token.content for token in MarkdownIt("commonmark").parseInline(line)[0].children or ())
    left = "*" in re.sub(r"(?<!\S)\*(?!\S)", "", text)
    prose = Prose(line)
    said = list(unmatched_emphasis(Entry("", (), Scope()), context_with(prose)))
    assert said or not left or STAR_IN_WORD.search(line)


def literal(line: str) -> str:
    return line.replace("\\", "\\\\")


def all_of(text: str) -> tuple[Diagnostic, ...]:
    """What is said when a text is resolved, and when it is checked."""
    value, said = compiled(text)
    assert value is not None
    return (*said, *check(value, CLINIC, None, None))


def context_with(prose: Prose) -> Context:
    """A context that holds nothing but a line of prose."""
    text = Text(prose, "do", Exercise("heel raise", Prose("Heel raise")))
    return replace(context_of(Entry("", (), Scope()), CLINIC, None, None), texts=(text,))


def test_fonts_are_asked_once_for_all_characters() -> None:
    asked: list[str] = []

    def lacks(text: str) -> tuple[str, ...]:
        asked.append(text)
        return tuple(sign for sign in text if sign == "ᚠ")

    found = checked(step("Rise ᚠ slowly."), lacks=lacks)
    assert [one.message for one in found] == ["the fonts of the sheet do not have `ᚠ` (U+16A0)"]
    assert len(asked) == 1


def test_other_languages_are_not_measured_by_english_rules() -> None:
    clinic = replace(CLINIC, languages=("de", "en"))
    text = step("Stand on the step, bend your knees and lift one foot.")
    assert [one.code.id for one in checked(text, clinic=clinic)] == []
