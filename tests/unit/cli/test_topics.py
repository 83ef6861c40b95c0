"""The topics of the reference are true: the grammar reads every example, and no form of it is without one."""

from __future__ import annotations

import re
from pathlib import Path

import pytest

from protodsl.cli.topics import ALIASES, TOPICS, Topic, topic
from protodsl.source import Source
from protodsl.syntax import parse_protocol
from protodsl.syntax.keywords import entries
from tests.unit.cli.conftest import Cli

GRAMMAR = Path(__file__).parents[3] / "grammar"
ROWS = [pytest.param(one, example, id=example) for one in TOPICS for example, _ in one.rows]


@pytest.mark.parametrize(("one", "example"), ROWS)
def test_every_example_is_read(one: Topic, example: str) -> None:
    assert parse_protocol(Source("x.protocol", one.frame.format(example))).diagnostics == ()


def words_of(grammar: str, skip: frozenset[str]) -> dict[str, re.Pattern[str]]:
    """The keywords of a grammar file as patterns."""
    text = (GRAMMAR / grammar).read_text("utf-8")
    found = re.findall(r"^(_?[A-Z_]+): (?:\"([^\"]+)\"|/(.+?)/)(?: _END| _ALONE)?$", text, re.MULTILINE)
    return {name: re.compile(rf"\b(?:{word or pattern})") for name, word, pattern in found if name not in skip}


@pytest.mark.parametrize(
    ("grammar", "names", "skip"),
    [
        ("dose.lark", ("dose parts",), {"_LOAD_BY_REPS_IN_SET", "_SET", "_NEXT_SESSION", "_OR_MORE", "_SAME_LOAD",
                                        "_WHEN", "_DOWN_TO"}),
        ("conditions.lark", ("conditions", "streaks"), set()),
    ],
)  # fmt: skip
def test_every_word_of_the_grammar_has_an_example(grammar: str, names: tuple[str, ...], skip: set[str]) -> None:
    """Those of `adjust`, `add` and `take off` stand with the statements."""
    examples = "\n".join(example for name in names for example, _ in (topic(name) or TOPICS[0]).rows)
    words = words_of(grammar, frozenset(skip))
    assert len(words) > 15
    assert not [name for name, pattern in words.items() if not pattern.search(examples)]


def test_a_topic_is_no_keyword_and_is_found(cli: Cli) -> None:
    keywords = {one.keyword for one in entries()}
    for name in (*(one.name for one in TOPICS), *ALIASES, "units", "closed lists"):
        assert name not in keywords
        assert cli("reference", *name.split()).status == 0
    assert "`[affected side]`" in cli("reference", "prose").out
    everything = cli("reference", "--all").out
    assert all(meaning in everything for one in TOPICS for _, meaning in one.rows)
    assert "dose parts" in cli("reference").out
