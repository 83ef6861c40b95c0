"""Every form a line can have, as it may be written and as it is spelled; places; what a word processor makes of it."""

from __future__ import annotations

from datetime import date
from decimal import Decimal
from pathlib import Path

import pytest

from protodsl.source import Source
from protodsl.syntax import condition_text, format_source, format_tree, line_of, parse_condition, tree
from tests.unit.syntax.samples import GOOD, parse, sample_paths, statements

CONDITIONS = [
    "recent calf tear",
    "not recent calf tear on either side",
    "not (fever and pain > 3)",
    "fever and (cough or pain on each side) and chills",
    "heel raises >= 15 on each side",
    "symmetry of heel raises >= 90 % on the affected side",
    "difference of knee-to-wall < 2 cm on the other side",
    "change of pain since start >= 3",
    "change of heart rate since last time > 20 bpm",
    "weeks since start >= 2",
    "days since phase start < 3",
    "weeks since operation date >= weeks in brace on the left side",
    "pain next morning > pain + 1",
    "pain = pain before - 2.5",
    "pain site is heel on the right side",
    "pain site is not mid tendon",
    "pain site is one of (heel, mid tendon)",
    "at least 2 of (fever, chills and cough, pain > 3)",
    "start date is known",
    "sit to stand >= 12",
    "pain on stairs > 3",
    "Romberg's test is positive",
    "weeks in brace > 2",
    "no-show",
]


@pytest.mark.parametrize("text", CONDITIONS)
def test_a_condition_is_printed_as_it_is_written(text: str) -> None:
    outcome = parse_condition(text)
    assert outcome.diagnostics == () and outcome.value is not None
    assert condition_text(outcome.value) == text


def test_what_a_condition_is_made_of() -> None:
    """One example by hand, against a printer and a parser that could be wrong in the same way."""
    outcome = parse_condition("symmetry of heel raises >= 90 % on the left side and not fever")
    assert outcome.value == tree.All(
        (
            tree.Compare(
                tree.Subject("symmetry", tree.Name("heel raises")),
                ">=",
                tree.Operand(None, tree.Amount(Decimal(90), "%")),
                "left",
            ),
            tree.Not(tree.Fact(tree.Name("fever"))),
        )
    )


@pytest.mark.parametrize(
    ("written", "meant"),
    [
        ("dose 3x12,each side,rest 60s", "dose 3 x 12, each side, rest 60 s"),
        ("dose 3 × 8–12", "dose 3 x 8 to 12"),
        ("dose 3 x 12 reps", "dose 3 x 12"),
        ("dose   3  x 12 ,  daily", "dose 3 x 12, daily"),
        ("dose 1 times a day", "dose once a day"),
        ("dose 2 times a day", "dose twice a day"),
        ("dose week 2 on: daily", "dose weeks 2 on: daily"),
        ("dose weeks 2: daily", "dose week 2: daily"),
        ("dose 3 to 3 x 2.50 min", "dose 3 x 2.5 min"),
        ("dose load body weight+5 kg", "dose load body weight + 5 kg"),
        ("works calf ,balance", "works calf, balance"),
        ("avoid  if pain≥5 and fever", "avoid if pain >= 5 and fever"),
        ("avoid if (pain)", "avoid if pain"),
        ("avoid if ((pain and fever)) or cough", "avoid if (pain and fever) or cough"),
        ("avoid if pain\u00a0site is heel", "avoid if pain site is heel"),
        ("avoid if Romberg’s  test", "avoid if Romberg's test"),
        ("avoid if knee‑to‑wall < −5 cm", "avoid if knee-to-wall < -5 cm"),
        ("moves knee extension to −5 deg", "moves knee extension to -5 deg"),
        ("title “Heel” raise – slowly", "title “Heel” raise – slowly"),
        ("stop sharp\u00a0pain", "stop sharp\u00a0pain"),
        ("add 5 kg when pain < 3, 1 sessions in a row", "add 5 kg when pain < 3, 1 session in a row"),
    ],
)
def test_there_is_one_spelling(written: str, meant: str) -> None:
    """Many ways to write a line are read; one is written. Prose stays letter by letter."""
    (exercise,) = statements(f"exercise x like y\n  {written}\n")
    assert isinstance(exercise, tree.Declaration)
    assert line_of(exercise.lines[0]) == meant


@pytest.mark.parametrize("path", sorted(GOOD.glob("every-form.*")), ids=lambda path: path.name)
def test_the_file_of_every_form_is_its_own_spelling(path: Path) -> None:
    """So that each form of section 4 is read and written back without a change, blank lines apart."""
    text = path.read_text(encoding="utf-8")
    formatted = format_source(Source(path.name, text)).value
    assert formatted is not None
    assert [line for line in formatted.split("\n") if line] == [line for line in text.split("\n") if line]


def test_names_are_compared_in_one_form() -> None:
    """A letter and its accent are one letter however they were typed (Unicode NFC, UAX #15)."""
    composed, decomposed = (statements(f"target {name}: x\n") for name in ("caf\u00e9", "cafe\u0301"))
    assert composed == decomposed


@pytest.mark.parametrize("name", ["тест боли", "اختبار الألم", "痛み", "दर्द का स्तर", "kneeﬂexion", "ACL-test b2"])
def test_names_are_words_of_any_script(name: str) -> None:
    (target,) = statements(f"target {name}: x\n")
    assert isinstance(target, tree.Described)
    assert target.name.text == name


def test_text_of_a_script_without_capitals_is_free() -> None:
    statements("exercise x\n  do\n    قف على الدرجة.\n    站好。\n    1 step.\n    “Hold.”\n    - Rest.\n")


def test_places() -> None:
    """A node's place is where it stands; a statement's takes in what stands under it, its head does not."""
    text = "# é\nexercise heel raise like other\n  avoid if pain > 5\n    instead rest\n\n  stop pain\n"
    (exercise,) = statements(text)
    assert isinstance(exercise, tree.Declaration)
    guard, stop = exercise.lines
    assert isinstance(guard, tree.Guard) and guard.instead is not None
    assert isinstance(guard.condition, tree.Compare)

    def at(span: tuple[str, int, int]) -> str:
        return text[span[1] : span[2]]

    assert at(exercise.head) == "exercise heel raise like other"
    assert at(exercise.span) == text[text.index("exercise") :].rstrip()
    assert at(exercise.name.span) == "heel raise"
    assert at(guard.head) == "avoid if pain > 5"
    assert at(guard.span) == "avoid if pain > 5\n    instead rest"
    assert at(guard.condition.span) == "pain > 5"
    assert at(guard.instead.span) == "rest"
    assert at(stop.span) == at(stop.head) == "stop pain"


@pytest.mark.parametrize("path", sample_paths(), ids=lambda path: path.name)
def test_every_place_of_a_tree_lies_inside_its_parent(path: Path) -> None:
    text = path.read_text(encoding="utf-8")
    file = parse(text, path.name).value
    assert file is not None
    for statement in file.statements:
        _inside(statement, 0, len(text))


def _inside(node: object, start: int, end: int) -> None:
    if isinstance(node, tuple):
        for one in node:
            _inside(one, start, end)
    if not isinstance(node, tree.Node):
        return
    assert start <= node.span.start < node.span.end <= end, node
    for name in node.__dataclass_fields__:
        if name not in ("span", "head"):
            _inside(getattr(node, name), node.span.start, node.span.end)


def test_dates_and_numbers_are_exact() -> None:
    (setting,) = statements("setting best = 0.1 kg\n")
    assert isinstance(setting, tree.SettingLine)
    assert setting.value.value == Decimal("0.1")
    text = "case P-1\n  protocol x, version 1.0.0\n  started 2024-02-29\n  language pt-BR\n  side left\n"
    (case,) = statements(text, "x.case")
    assert isinstance(case, tree.CaseDeclaration) and isinstance(case.lines[1], tree.DateLine)
    assert case.lines[1].date == date(2024, 2, 29)
    assert format_tree(tree.File("x.case", (case,))) == text
