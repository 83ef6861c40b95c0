"""Nodes of what a file brings in and declares for others: settings, equipment, questions, tests and findings."""

from __future__ import annotations

from decimal import Decimal

from protodsl.syntax import tree
from protodsl.syntax.build_dose import CALENDAR_UNITS
from protodsl.syntax.building import Building, amount_line, ordered, unit_of
from protodsl.syntax.tree import Amount, Condition, Name, Statement, Words

FRESH_UNITS = ("hour", "hours", *CALENDAR_UNITS, "year", "years")
Lines = tuple[Statement, ...]


def use(b: Building, start: int, end: int, keyword: str, path: Words, head_end: int, *lines: object) -> tree.Use:
    settings: list[tuple[Name, Amount]] = []
    without: list[Name] = []
    for line in lines:
        if isinstance(line, list):
            without += line
        elif isinstance(line, tuple):
            settings.append(line)
    return tree.Use(
        keyword, path, tuple(settings), tuple(without), span=b.span(start, end), head=b.span(start, head_end)
    )


def use_with(
    b: Building, start: int, end: int, keyword: str, name: Name, amount: Amount, line_end: int
) -> tuple[Name, Amount]:
    return name, amount


def use_without(b: Building, start: int, end: int, keyword: str, *names: Name | int) -> list[Name]:
    return [name for name in names if isinstance(name, Name)]


def setting(
    b: Building, start: int, end: int, keyword: str, name: Name, value: Amount, low: Amount | None,
    high: Amount | None, head_end: int,
) -> Statement:  # fmt: skip
    place = b.span(start, head_end)
    return tree.SettingLine(keyword, name, value, low, high, span=place, head=place)


def described(b: Building, start: int, end: int, keyword: str, name: Name, words: Words, head_end: int) -> Statement:
    place = b.span(start, head_end)
    return tree.Described(keyword, name, words, span=place, head=place)


def asked(
    b: Building, start: int, end: int, keyword: str, name: Name, words: Words, head_end: int, lines: Lines | None
) -> Statement:
    return tree.FindingDeclaration(
        keyword, name, words, lines or (), span=b.span(start, end), head=b.span(start, head_end)
    )


def derived(
    b: Building, start: int, end: int, keyword: str, name: Name, words: Words | None, head_end: int,
    *lines: Statement | None,
) -> Statement:  # fmt: skip
    rows = tuple(line for line in lines if line is not None)
    return tree.FindingDeclaration(keyword, name, words, rows, span=b.span(start, end), head=b.span(start, head_end))


def verdict(
    b: Building, start: int, end: int, value: Name, keyword: str, condition: Condition, line_end: int
) -> Statement:
    place = b.span(start, line_end)
    return tree.Verdict(keyword, value, condition, span=place, head=place)


def otherwise(b: Building, start: int, end: int, keyword: str, value: Name, line_end: int) -> Statement:
    place = b.span(start, line_end)
    return tree.Verdict(keyword, value, None, span=place, head=place)


def verdict_value(b: Building, start: int, end: int, value: Name | str) -> Name:
    return Name(value, span=b.span(start, end)) if isinstance(value, str) else value


AnswerKind = tuple[str, Decimal | None, Decimal | None, str | None]


def answer(
    b: Building, start: int, end: int, keyword: str, kind: AnswerKind, each_side: str | None, line_end: int
) -> Statement:
    place = b.span(start, line_end)
    name, low, high, unit = kind
    return tree.AnswerLine(keyword, name, low, high, unit, (), each_side is not None, span=place, head=place)


def answer_choice(b: Building, start: int, end: int, keyword: str, *rest: Name | str | int | None) -> Statement:
    *choices, each_side, line_end = rest
    assert isinstance(line_end, int)
    place = b.span(start, line_end)
    names = tuple(choice for choice in choices if isinstance(choice, Name))
    return tree.AnswerLine(keyword, "choice", None, None, None, names, each_side is not None, span=place, head=place)


def answer_yes_no(b: Building, start: int, end: int, words: str) -> AnswerKind:
    return "yes or no", None, None, None


def answer_scale(b: Building, start: int, end: int, low: Decimal, high: Decimal, unit: str | None) -> AnswerKind:
    ordered(b, start, end, low, high)
    return "measure" if unit else "scale", low, high, unit


def answer_measure(
    b: Building, start: int, end: int, unit: str, low: Decimal | None, high: Decimal | None, again: str | None
) -> AnswerKind:
    if low is not None and high is not None:
        ordered(b, start, end, low, high)
    unit_of(b, again, (unit,), "this answer", start, end)
    return "measure", low, high, unit


def answer_date(b: Building, start: int, end: int, word: str) -> AnswerKind:
    return "date", None, None, None


def fresh(b: Building, start: int, end: int, keyword: str, amount: Amount, line_end: int) -> Statement:
    unit_of(b, amount.unit or "", FRESH_UNITS, f"`{keyword}`", start, line_end)
    return amount_line(b, start, keyword, amount, line_end)


def fresh_one_session(b: Building, start: int, end: int, keyword: str, line_end: int) -> Statement:
    return amount_line(b, start, keyword, None, line_end)


def better(b: Building, start: int, end: int, keyword: str, direction: str, line_end: int) -> Statement:
    place = b.span(start, line_end)
    word = Name(direction, span=b.span(line_end - len(direction), line_end))
    return tree.NamesLine(keyword, (word,), span=place, head=place)
