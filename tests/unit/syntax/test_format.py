"""The formatter: comments stay where they are, paragraphs stay, and a second run changes nothing."""

from __future__ import annotations

from pathlib import Path

import pytest

from protodsl.source import Source
from protodsl.syntax import format_source
from tests.unit.syntax.samples import parse, sample_paths


def formatted(text: str, path: str = "x.protocol") -> str:
    """The spelling of a text, which a second run leaves alone."""
    first = format_source(Source(path, text)).value
    assert first is not None
    assert format_source(Source(path, first)).value == first
    return first


def test_comments_stay_between_the_lines_they_stand_between() -> None:
    text = """\
# head of the file

# about x
exercise x
  # before do
  do
    # inside
    Go.
    # last of the block
  # after it
  stop pain
# between
# two

exercise y like x
  # only a comment
# end
"""
    assert (
        formatted(text)
        == """\
# head of the file

# about x
exercise x
  # before do
  do
    # inside
    Go.
    # last of the block
  # after it
  stop pain
# between
# two

exercise y like x
  # only a comment
# end
"""
    )


def test_blank_lines() -> None:
    """One between declarations with lines of their own and before a phase; the author's elsewhere, one at a time."""
    text = """\

target a: b
target c: d


target e: f
exercise x
  do

    Go.


    Stop.


  stop pain


  feel it
protocol p like q
  phase a

    give x
  # about b
  phase b
    give x
  phase c
    give x


"""
    assert (
        formatted(text)
        == """\
target a: b
target c: d

target e: f

exercise x
  do
    Go.
    Stop.

  stop pain

  feel it

protocol p like q
  phase a
    give x

  # about b
  phase b
    give x

  phase c
    give x
"""
    )


def test_columns_and_indents_become_one_blank_and_two() -> None:
    assert formatted("exercise x\n    title      Y\n    do\n        Go.\n") == "exercise x\n  title Y\n  do\n    Go.\n"


def test_one_changed_line_is_one_changed_line() -> None:
    """A longer keyword does not move its neighbours, so the difference is the line and nothing else."""
    before = formatted("exercise x like y\n  stop pain\n  feel it\n").split("\n")
    after = formatted("exercise x like y\n  stop pain\n  feel it\n  caution if z\n    Go slowly.\n").split("\n")
    assert [line for line in after if line not in before] == ["  caution if z", "    Go slowly."]


def test_line_ends_and_signs_are_made_plain() -> None:
    text = "\ufeffexercise x like y\r\n\tdose 3 × 12\r\n"
    assert format_source(Source("x.protocol", text)).value is None
    assert formatted(text.replace("\t", "  ")) == "exercise x like y\n  dose 3 x 12\n"


@pytest.mark.parametrize("text", ["exercise x\n  doze 3 x 12\n", "exercise x\n", "exercise x like\n"])
def test_a_text_with_mistakes_is_not_written_anew(text: str) -> None:
    """Nothing that somebody wrote may be lost."""
    outcome = format_source(Source("x.protocol", text))
    assert outcome.value is None and outcome.diagnostics


@pytest.mark.parametrize("text", ["", "\n", "  \n\n"])
def test_nothing_stays_nothing(text: str) -> None:
    assert formatted(text) == ""


def test_only_comments() -> None:
    assert formatted("\n# a\n\n\n  # b\n") == "# a\n\n# b\n"


@pytest.mark.parametrize("path", sample_paths(), ids=lambda path: path.name)
def test_formatting_changes_nothing_but_blanks(path: Path) -> None:
    """The tree, the comments and every sign that is not a blank are what they were."""
    text = path.read_text(encoding="utf-8")
    again = formatted(text, path.name)
    assert parse(again, path.name).value == parse(text, path.name).value
    assert "".join(again.split()) == "".join(text.split())
