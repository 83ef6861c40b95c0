"""A mistake costs its line: what stands around it is read, and what it may have taken along is told to later stages."""

from __future__ import annotations

import time

import pytest

from protodsl.source import Source
from protodsl.syntax import parse_condition, parse_protocol, read_source, tree
from tests.unit.syntax.samples import codes, parse

MANY = """\
use library/leg, other
question fever Have you had a fever?
question pain: How strong was your worst pain?
  answr 0 to 10
  fresh for 4 weks
exersise heel raise
  titel Heel raise
  dose 3 x 12, hold 2 sec
  do
    rise as high as you can.
  avoid pain > 5
    instead seated heel raise
  avoid if pain > 5 or fever and pain > 3
   stop sharp pain
exercise seated heel raise
  do
    Sit.
  dose 3 x 12, load 2,5 kg
protocol sore heel
  version 1.0.0
  review 2026-02-30 by us, next by 2027-01-01
  source Common practice.
  for adults
  phase settle
    gve seated heel raise
    limit ankle dorsiflexion => 10 deg
"""


def test_every_mistake_is_told_in_one_run() -> None:
    assert codes(MANY) == [
        ("T123", 1), ("T109", 2), ("T104", 4), ("T114", 5), ("T104", 6), ("T104", 7), ("T114", 8), ("T112", 10),
        ("T108", 11), ("T111", 13), ("T102", 14), ("T118", 18), ("T116", 21), ("T104", 25), ("T140", 26),
    ]  # fmt: skip


def test_what_could_be_read_is_there() -> None:
    """A line whose mistake leaves no doubt is read as it was meant; the others are left out."""
    file = parse(MANY).value
    assert file is not None
    pain, raised, seated, protocol = file.statements
    assert isinstance(pain, tree.FindingDeclaration) and isinstance(raised, tree.Declaration)
    assert [line.keyword for line in pain.lines] == ["answer"]
    assert [line.keyword for line in raised.lines] == ["title", "do", "avoid if", "stop"]
    assert isinstance(seated, tree.Declaration) and isinstance(protocol, tree.Declaration)
    assert [line.keyword for line in protocol.lines] == ["version", "source", "for", "phase"]


def test_declarations_that_are_not_whole_are_named() -> None:
    """So that nobody is told that `fever` is not declared, or that an exercise lacks what was in a lost line."""
    file = parse(MANY).value
    assert file is not None
    names = {name.text for name in file.damaged}
    assert {"fever", "pain", "heel raise", "seated heel raise", "sore heel", "settle"} <= names


@pytest.mark.parametrize(
    ("text", "told"),
    [
        pytest.param("exercise x like\n  titel Y\n  do\n    Go.\n", [("T124", 1), ("T104", 2)], id="below a lost head"),
        pytest.param("exercise x\n  do\n    go.\n    Stop.\n", [("T112", 3)], id="small letter"),
        pytest.param("exercise x\n  do\n  feel warm\n", [("T106", 2)], id="no steps"),
        pytest.param("exercise x\n  do\n", [("T106", 2)], id="no steps at the end"),
        pytest.param("protocol x like y\n  pain zones\n    a: b\n", [("T123", 3)], id="only row lost"),
        pytest.param("exercise x\n  do\n      Far in.\n      Again.\n  feel y\n", [("T103", 3)], id="block too deep"),
        pytest.param("exercise x\n    do\n        Go.\n    feel y\n", [], id="four blanks a step"),
        pytest.param("exercise x\n   do\n      Go.\n   feel y\n", [], id="three blanks a step"),
        pytest.param("exercise x\n\tdo\n\t\tGo.\n", [("T101", 2), ("T101", 3)], id="tabs are read as steps"),
        pytest.param("  exercise x\n    do\n      Go.\n", [("T103", 1)], id="all too far in"),
        pytest.param("case P-1\n", [("T133", 1)], id="case in a protocol"),
    ],
)
def test_no_mistake_is_told_twice(text: str, told: list[tuple[str, int]]) -> None:
    assert codes(text) == told


def test_a_day_of_a_case_is_read_though_its_date_is_wrong() -> None:
    head = "case P-1\n  protocol x, version 1.0.0\n  started 2026-11-02\n  language en\n  side none\n"
    text = f"{head}  on 2026-13-02\n    pain 3\n    no: fever\n  sesion 2026-11-03: missed\n"
    assert codes(text, "x.case") == [("T116", 6), ("T109", 7), ("T104", 9)]


def test_a_condition_that_cannot_be_read_is_none() -> None:
    outcome = parse_condition("pain > 5 or fever and cough")
    assert outcome.value is None
    assert [one.code.id for one in outcome.diagnostics] == ["T111"]


def test_a_text_that_is_no_protocol_is_not_read_to_its_end() -> None:
    """T147 after a hundred mistakes, with the names of what was not read."""
    text = "12;14;some table\n" * 100_000 + "exercise heel raise\n  do\n    Rise.\n"
    start = time.perf_counter()
    outcome = parse_protocol(Source("x.protocol", text))
    assert time.perf_counter() - start < 5
    assert [one.code.id for one in outcome.diagnostics].count("T147") == 1
    assert len(outcome.diagnostics) == 101
    assert outcome.value is not None
    assert [name.text for name in outcome.value.damaged] == ["heel raise"]


def test_many_mistakes_in_a_long_file_are_all_told() -> None:
    good = "exercise e{n}\n  do\n    Rise.\n  doze 3 x 12\n  feel warm\n  normal a warm calf\n"
    text = "".join(good.format(n=n) for n in range(400))
    assert len(parse(text).diagnostics) == 400


@pytest.mark.parametrize(
    "text",
    [
        pytest.param("\n".join("  " * depth + "exercise x" for depth in range(200)), id="200 steps"),
        pytest.param("\n".join("  " * depth + "Hello" for depth in range(200)), id="200 steps of text"),
        pytest.param("exercise x\n  avoid if " + "(" * 100_000, id="brackets"),
        pytest.param("exercise x\n  avoid if " + "not (" * 100_000, id="not"),
        pytest.param("exercise x\n  dose " + "1" * 100_000, id="digits"),
        pytest.param("exercise x\n  dose " + "," * 100_000, id="commas"),
        pytest.param("exercise x\n  dose 3 x 12, load " + "a-" * 100_000, id="hyphens"),
        pytest.param("progression x\n  harder than " + "at " * 3_000 + ":", id="at"),
        pytest.param("exercise " + "a " * 100_000, id="a long name"),
        pytest.param("exercise \ud800 \U0010ffff \u202e \x00 \x0c", id="odd characters"),
        pytest.param("# only a comment", id="comment"),
        pytest.param("", id="nothing"),
    ],
)
def test_odd_texts_are_read_fast_and_raise_nothing(text: str) -> None:
    start = time.perf_counter()
    parse(text)
    parse(text, "x.case")
    assert time.perf_counter() - start < 3


@pytest.mark.parametrize("word", ["exercise a", "Word.", "phase a", "give a", "colour blue"])
def test_lines_that_go_down_like_stairs_are_told_once(word: str) -> None:
    """Two hundred lines, each further to the right than the one above, are one mistake or two, not hundreds."""
    text = "exercise b\n  do\n    Rise.\n" + "".join("  " * depth + f"{word}\n" for depth in range(1, 201))
    assert 1 <= len(parse_protocol(Source("x.protocol", text)).diagnostics) <= 4


def test_a_line_too_long_leaves_no_block_empty() -> None:
    """T132 is told where the bytes are read, and nothing else of it."""
    source = read_source("x.protocol", ("exercise a\n  do\n    " + "Rise " * 3000 + "\n  dose 3 x 12\n").encode()).value
    assert source is not None
    assert parse_protocol(source).diagnostics == ()


def test_a_sign_in_a_declared_name_is_told_there_alone() -> None:
    """The name is remembered as far as it can be read, so that nobody is told that it is not declared."""
    file = parse_protocol(Source("x.protocol", "exercise heel raise!\n  do\n    Rise.\n")).value
    assert file is not None
    assert "heel raise" in {name.text for name in file.damaged}
