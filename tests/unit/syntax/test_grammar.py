"""The grammar itself: no terminal hides another, lark's own parser agrees with ours, every rule is explained."""

from __future__ import annotations

import re
from pathlib import Path
from typing import Any

import pytest
from lark import Token, Tree
from lark.indenter import Indenter

from protodsl.source import Source, Span
from protodsl.syntax import (
    build_case,
    build_conditions,
    build_dose,
    build_figure,
    build_findings,
    build_protocol,
    tree,
)
from protodsl.syntax.lexis import Lexis, compiled, keywords_of_grammar, lexis
from protodsl.syntax.parser import cut
from protodsl.syntax.tables import FILES, grammar_text, lark, tables
from protodsl.syntax.tokens import MAKERS, plain
from tests.unit.syntax.samples import CHECKOUT, parse, sample_paths

NAME = next(at for at, terminal in enumerate(tables().terminals) if terminal.name == "NAME")

# Keywords that stand where a name can, and that could be one by their letters. Each is a decision.
HIDES_A_NAME = {
    "means": "a row of a finding: `means` is how it reads, and no value of it",
    "yes means": "likewise",
    "to": "a run of days in a session, and no item of it",
    "to fatigue": "how far a set went, and no finding",
    "at least": "only before a number",
    "load": "only before a weight; a finding whose name begins so cannot be declared",
    "chose": "only before a colon",
    "nothing": "alone behind `has`: none of the things",
    "one of": "only before a bracket",
    "phase start": "alone behind `since`",
}


def places_with_names() -> list[tuple[int, Lexis]]:
    """The states in which a name can stand, with what can stand there besides."""
    made = tables()
    return [(state, lexis(made, row)) for state, row in enumerate(made.rows) if NAME in row]


def test_no_keyword_hides_a_name_unless_decided() -> None:
    """Where a name can stand, a keyword that is a name by its letters is one of the decisions above."""
    match = compiled(tables().terminals[NAME].pattern)
    hidden = {
        keyword.text
        for _, lex in places_with_names()
        for keywords in lex.words.values()
        for keyword in keywords
        if (found := match(keyword.text, 0)) and found.end() == len(keyword.text)
    }
    assert hidden == {word for word in HIDES_A_NAME if word != "means"} | {"means"}


def test_a_name_may_begin_with_a_keyword() -> None:
    """`start date` is a name where `start` is a keyword; the exceptions are those that end a name by the design."""
    match = compiled(tables().terminals[NAME].pattern)
    taken: set[str] = set()
    for _, lex in places_with_names():
        for keyword in {keyword for keywords in lex.words.values() for keyword in keywords}:
            text = f"{keyword.text} ache"
            found = match(text, 0)
            if found and found.end() == len(text) and cut(lex, text, 0)[0] != NAME:
                taken.add(keyword.text)
    assert taken == {"means", "yes means", "to", "to fatigue"}


def test_no_two_patterns_match_at_one_place_unless_ordered() -> None:
    """Of two patterns that match the same text in one state the longer one is meant, and it is tried first."""
    made = tables()
    samples = (  # noqa: SIM905
        "3|-3|3.5|12RM|2026-11-02|1.3.0|cm|m|min|in|s|%|deg|week|left|right|none|nothing|no|yes|unknown|date|one|x|W|N"
        "|km/h|km|reps|hours|days|otherwise|part|as|not|lift|light band|daily|rest|to|+|-|–|P-1|library/calf|es|a|up"
        "|add|same|=|>=|≥|(|)|:|,|pain|pain 3|pain left 3|a at b|Hi|Hello there|lower case"
    ).split("|")
    patterns = {
        number: compiled(terminal.pattern)
        for number, terminal in enumerate(made.terminals)
        if terminal.pattern and terminal.name != "NL"
    }
    pairs: set[tuple[str, ...]] = set()
    for row in made.rows:
        for sample in samples:
            found = sorted(made.terminals[at].name for at in row if at in patterns and patterns[at](sample, 0))
            if len(found) > 1:
                pairs.add(tuple(found))
                best = max(found, key=lambda name: len(_matched(name, sample)))
                assert made.terminals[cut(lexis(made, row), sample, 0)[0]].name in (best, "SCORED"), (found, sample)
    assert pairs == {
        ("BODY", "LIFT"), ("DATE", "NUMBER"), ("NAME", "NOTHING"), ("NAME", "SCORED"), ("NAME", "_TO"),
        ("NUMBER", "RM"),
    }  # fmt: skip


def _matched(name: str, sample: str) -> str:
    """What the terminal of a name matches of a sample; a keyword counts a little more than a pattern."""
    terminal = next(one for one in tables().terminals if one.name == name)
    found = compiled(terminal.pattern)(sample, 0)
    keyword = name not in ("NAME", "UNIT", "NUMBER", "BODY")
    return (found.group() if found else "") + ("!" if keyword else "")


def test_every_keyword_ends_where_a_word_ends() -> None:
    """`stopping` is not `stop`: the letters of a keyword followed by more letters are no token of it."""
    allowed_inside = {"x", "chose", "at least", "one of", "in"}
    for keyword in keywords_of_grammar().values():
        match = compiled(tables().terminals[keyword.terminal].pattern)
        if keyword.text not in allowed_inside:
            assert match(keyword.text, 0), keyword.text
        assert not match(f"{keyword.text}ping", 0), keyword.text


@pytest.mark.parametrize("file", FILES)
def test_every_rule_stands_under_an_example(file: str) -> None:
    """A comment with an example comes right before each rule, or before the alternatives of it."""
    text = (CHECKOUT / "grammar" / f"{file}.lark").read_text(encoding="utf-8")
    bare = []
    lines = text.split("\n")
    for at, line in enumerate(lines):
        if re.match(r"\??[a-z_]+: ", line) and not lines[at - 1].startswith("//"):
            following = next((n for n in range(at + 1, len(lines)) if not lines[n].startswith("    ")), len(lines))
            if not any("//" in one for one in lines[at:following]) and not _only_gathers(lines[at:following]):
                bare.append(line)
    assert bare == []


def _only_gathers(rule: list[str]) -> bool:
    """Whether a rule only lists other rules or keywords, and so has no form of its own."""
    text = " ".join(rule).partition(":")[2]
    return "_INDENT statement+" in text or ('"' not in text and not re.search(r"\bNL\b|_INDENT", text))


@pytest.mark.parametrize("path", sample_paths(), ids=lambda path: path.name)
def test_lark_itself_makes_the_same_tree(path: Path) -> None:
    """Lark's contextual lexer, its indenter and its parser, over the same grammar, are the oracle of ours."""
    text = path.read_text(encoding="utf-8")
    outcome = parse(text, path.name)
    assert outcome.value is not None and outcome.diagnostics == ()
    start = "case_file" if path.suffix == ".case" else "protocol_file"
    assert outcome.value.statements == _FromLark(Source(path.name, text)).build(start)


class _Layout(Indenter):
    NL_type = "NL"
    OPEN_PAREN_types: list[str] = []  # noqa: RUF012
    CLOSE_PAREN_types: list[str] = []  # noqa: RUF012
    INDENT_type = "_INDENT"
    DEDENT_type = "_DEDENT"
    tab_len = 8


class _FromLark:
    """A tree of lark's, turned into ours by the same functions."""

    reader = lark(grammar_text(), postlex=_Layout())
    functions: dict[str, Any] = {  # noqa: RUF012
        name: thing
        for module in (build_conditions, build_dose, build_findings, build_figure, build_protocol, build_case)
        for name, thing in vars(module).items()
        if callable(thing)
    }

    def __init__(self, source: Source) -> None:
        self.source = source
        self.path = source.path
        self.plain = plain(source.text)
        self.brackets = 0

    def span(self, start: int, end: int) -> Span:
        return Span(self.path, start, end)

    def report(self, diagnostic: object) -> None:
        raise AssertionError(diagnostic)

    def build(self, start: str) -> Any:
        # Lark's line end token takes comments along but none before the first line, and wants a line end at the end.
        text = re.sub(r"\A(?: *(?:#[^\n]*)?\n)+", lambda found: " " * 0 + "", self.plain).rstrip() + "\n"
        self.offset = len(self.plain.rstrip()) + 1 - len(text)
        return self._node(self.reader.parse(text, start=start))

    def _node(self, node: Any) -> Any:
        if isinstance(node, Tree):
            return self.functions[str(node.data)](self, 0, 0, *[self._node(child) for child in node.children])
        if not isinstance(node, Token):
            return node
        if node.type == "NL":
            return 0
        maker = MAKERS.get(node.type)
        start = (node.start_pos or 0) + self.offset
        return maker(self, start, start + len(node)) if maker else re.sub(" +", " ", str(node))  # type: ignore[arg-type]


def test_the_same_equality_holds_for_a_known_tree() -> None:
    """The comparison above can fail: another text gives another tree."""
    first, second = (parse(f"target {name}: x\n").value for name in ("a", "b"))
    assert isinstance(first, tree.File) and first != second
