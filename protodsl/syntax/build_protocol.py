"""Nodes of a protocol file, one function for each form in grammar/protocol.lark."""

from __future__ import annotations

from datetime import date
from decimal import Decimal

from protodsl.diagnostics import text as say
from protodsl.syntax import tree
from protodsl.syntax.build_dose import CALENDAR_UNITS
from protodsl.syntax.building import Building, only, unit_of, whole
from protodsl.syntax.tree import Amount, Condition, Name, Statement, Words

FRESH_UNITS = ("hour", "hours", *CALENDAR_UNITS, "year", "years")
Lines = tuple[Statement, ...]


def protocol_file(b: Building, start: int, end: int, *statements: Statement) -> Lines:
    return statements


def block(b: Building, start: int, end: int, *statements: Statement | None) -> Lines:
    return tuple(statement for statement in statements if statement is not None)


def broken(b: Building, start: int, end: int, token: int, line_end: int, lines: Lines | None) -> None:
    """Nothing stays of a line that could not be read; what stands under it was read for its own mistakes."""


def prose(b: Building, start: int, end: int, *parts: Words | int) -> tuple[Words, ...]:
    return tuple(part for part in parts if isinstance(part, Words))


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
    _ordered(b, start, end, low, high)
    return "measure" if unit else "scale", low, high, unit


def answer_measure(
    b: Building, start: int, end: int, unit: str, low: Decimal | None, high: Decimal | None, again: str | None
) -> AnswerKind:
    if low is not None and high is not None:
        _ordered(b, start, end, low, high)
    unit_of(b, again, (unit,), "this answer", start, end)
    return "measure", low, high, unit


def answer_date(b: Building, start: int, end: int, word: str) -> AnswerKind:
    return "date", None, None, None


def _ordered(b: Building, start: int, end: int, low: Decimal, high: Decimal) -> None:
    if high < low:
        b.report(say.range_backwards(b.span(start, end), str(low), str(high)))


def fresh(b: Building, start: int, end: int, keyword: str, amount: Amount, line_end: int) -> Statement:
    unit_of(b, amount.unit or "", FRESH_UNITS, f"`{keyword}`", start, line_end)
    return _amount_line(b, start, keyword, amount, line_end)


def fresh_one_session(b: Building, start: int, end: int, keyword: str, line_end: int) -> Statement:
    return _amount_line(b, start, keyword, None, line_end)


def budget(b: Building, start: int, end: int, keyword: str, amount: Amount, line_end: int) -> Statement:
    unit_of(b, amount.unit or "", ("min",), f"`{keyword}`", start, line_end)
    return _amount_line(b, start, keyword, amount, line_end)


def lasts(b: Building, start: int, end: int, keyword: str, amount: Amount, line_end: int) -> Statement:
    unit_of(b, amount.unit or "", CALENDAR_UNITS, f"`{keyword}`", start, line_end)
    return _amount_line(b, start, keyword, amount, line_end)


def _amount_line(b: Building, start: int, keyword: str, amount: Amount | None, line_end: int) -> Statement:
    place = b.span(start, line_end)
    return tree.AmountLine(keyword, amount, span=place, head=place)


def better(b: Building, start: int, end: int, keyword: str, direction: str, line_end: int) -> Statement:
    place = b.span(start, line_end)
    word = Name(direction, span=b.span(line_end - len(direction), line_end))
    return tree.NamesLine(keyword, (word,), span=place, head=place)


def declaration(
    b: Building, start: int, end: int, keyword: str, name: Name, like: Name | None, head_end: int, lines: Lines | None
) -> Statement:
    return tree.Declaration(keyword, name, like, lines or (), span=b.span(start, end), head=b.span(start, head_end))


def opened(
    b: Building, start: int, end: int, keyword: str, name: Name, head_end: int, lines: Lines | None
) -> Statement:
    return tree.Declaration(keyword, name, None, lines or (), span=b.span(start, end), head=b.span(start, head_end))


def prose_line(b: Building, start: int, end: int, keyword: str, words: Words, line_end: int) -> tree.ProseLine:
    place = b.span(start, line_end)
    return tree.ProseLine(keyword, words, span=place, head=place)


def fix(b: Building, start: int, end: int, keyword: str, words: Words, line_end: int) -> Statement:
    fault, colon, cure = words.text.partition(":")
    if not colon or not fault.strip() or not cure.strip():
        b.report(say.fix_without_colon(words.span))
    return prose_line(b, start, end, keyword, words, line_end)


def names_line(b: Building, start: int, end: int, keyword: str, *names: Name | int) -> Statement:
    *listed, line_end = names
    assert isinstance(line_end, int)
    place = b.span(start, line_end)
    return tree.NamesLine(keyword, tuple(n for n in listed if isinstance(n, Name)), span=place, head=place)


name_line = names_line
bare_line = names_line
instead = names_line


def block_line(b: Building, start: int, end: int, keyword: str, head_end: int, lines: tuple[Words, ...]) -> Statement:
    return tree.BlockLine(keyword, None, lines, span=b.span(start, end), head=b.span(start, head_end))


def advice(
    b: Building, start: int, end: int, keyword: str, title: Words, head_end: int, lines: tuple[Words, ...]
) -> Statement:
    return tree.BlockLine(keyword, title, lines, span=b.span(start, end), head=b.span(start, head_end))


def moves(b: Building, start: int, end: int, keyword: str, *moves: tree.Move | int) -> Statement:
    *listed, line_end = moves
    assert isinstance(line_end, int)
    place = b.span(start, line_end)
    return tree.MovesLine(keyword, tuple(m for m in listed if isinstance(m, tree.Move)), span=place, head=place)


def move(b: Building, start: int, end: int, name: Name, to: Amount) -> tree.Move:
    unit_of(b, to.unit or "", ("deg",), "a movement", to.span.start, to.span.end)
    return tree.Move(name, to, span=b.span(start, end))


def needs(b: Building, start: int, end: int, keyword: str, *rest: Name | int | tree.NamesLine | None) -> Statement:
    *names, head_end, other = rest
    assert isinstance(head_end, int)
    return tree.NeedsLine(
        keyword,
        tuple(name for name in names if isinstance(name, Name)),
        other.names[0] if isinstance(other, tree.NamesLine) else None,
        span=b.span(start, end),
        head=b.span(start, head_end),
    )


def harder(b: Building, start: int, end: int, keyword: str, level: Name, joint: Name, line_end: int) -> Statement:
    place = b.span(start, line_end)
    return tree.HarderThan(keyword, level, joint, span=place, head=place)


def figure(
    b: Building, start: int, end: int, keyword: str, like: Name | None, head_end: int, *lines: Words | int | None
) -> Statement:
    words = tuple(line for line in lines if isinstance(line, Words))
    return tree.FigureLine(keyword, like, words, span=b.span(start, end), head=b.span(start, head_end))


def image(
    b: Building, start: int, end: int, keyword: str, path: Words, alternative: Words | None, line_end: int
) -> Statement:
    place = b.span(start, line_end)
    return tree.ImageLine(keyword, path, alternative, span=place, head=place)


def focus(
    b: Building, start: int, end: int, keyword: str, finding: Name, extra: Decimal | None, line_end: int
) -> Statement:
    place = b.span(start, line_end)
    count = None if extra is None else whole(b, extra, start, line_end)
    return tree.FocusLine(keyword, finding, count, span=place, head=place)


GuardBlock = tuple[Words | tree.NamesLine | tree.ProseLine, ...]


def guard(
    b: Building, start: int, end: int, keyword: str, condition: Condition, streak: int | None, head_end: int,
    under: GuardBlock | None,
) -> Statement:  # fmt: skip
    return _guard(b, start, end, keyword, condition, streak, head_end, under, None)


def back(
    b: Building, start: int, end: int, keyword: str, target: Name, if_: str, condition: Condition,
    streak: int | None, head_end: int, under: GuardBlock | None,
) -> Statement:  # fmt: skip
    return _guard(b, start, end, keyword, condition, streak, head_end, under, target)


def start_at(
    b: Building, start: int, end: int, keyword: str, target: Name, if_: str, condition: Condition, head_end: int
) -> Statement:
    return _guard(b, start, end, keyword, condition, None, head_end, None, target)


def _guard(
    b: Building, start: int, end: int, keyword: str, condition: Condition, streak: int | None, head_end: int,
    under: GuardBlock | None, target: Name | None,
) -> Statement:  # fmt: skip
    under = under or ()
    instead = only(b, keyword, [line for line in under if isinstance(line, tree.NamesLine)])
    because = only(b, keyword, [line for line in under if isinstance(line, tree.ProseLine)])
    return tree.Guard(
        keyword,
        condition,
        streak,
        tuple(line for line in under if isinstance(line, Words)),
        instead.names[0] if instead else None,
        because.words if because else None,
        target,
        span=b.span(start, end),
        head=b.span(start, head_end),
    )


def guard_block(b: Building, start: int, end: int, *lines: Words | tree.NamesLine | tree.ProseLine) -> GuardBlock:
    return lines


def guard_sentence(b: Building, start: int, end: int, words: Words, line_end: int) -> Words:
    return words


def limit(
    b: Building, start: int, end: int, keyword: str, name: Name, op: str, operand: tree.Operand, line_end: int
) -> Statement:
    place = b.span(start, line_end)
    return tree.LimitLine(keyword, name, op, operand, span=place, head=place)


def lift(
    b: Building, start: int, end: int, keyword: str, words: Words, head_end: int,
    *reasons: tree.ProseLine,
) -> Statement:  # fmt: skip
    because = only(b, keyword, reasons)
    return tree.LiftLine(
        keyword, words, because.words if because else None, span=b.span(start, end), head=b.span(start, head_end)
    )


def zones(b: Building, start: int, end: int, keyword: str, head_end: int, *rows: tree.Zone) -> Statement:
    return tree.ZonesLine(keyword, rows, span=b.span(start, end), head=b.span(start, head_end))


def zone(
    b: Building, start: int, end: int, low: Decimal, high: Decimal | None, words: Words, line_end: int,
    lines: tuple[Words, ...] | None,
) -> tree.Zone:  # fmt: skip
    last = low if high is None else high
    _ordered(b, start, line_end, low, last)
    return tree.Zone(
        whole(b, low, start, line_end), whole(b, last, start, line_end), words, lines or (), span=b.span(start, end)
    )


def version(b: Building, start: int, end: int, keyword: str, number: str, line_end: int) -> Statement:
    place = b.span(start, line_end)
    return tree.VersionLine(keyword, number, span=place, head=place)


def review(
    b: Building, start: int, end: int, keyword: str, day: date, by: Name, next_by: date, line_end: int
) -> Statement:
    place = b.span(start, line_end)
    return tree.ReviewLine(keyword, day, by, next_by, span=place, head=place)


def part(
    b: Building, start: int, end: int, keyword: str, title: Words, head_end: int, lines: Lines | None
) -> Statement:
    return tree.Group(keyword, title, None, lines or (), span=b.span(start, end), head=b.span(start, head_end))


def choose(
    b: Building, start: int, end: int, keyword: str, count: Decimal, head_end: int, lines: Lines | None
) -> Statement:
    number = whole(b, count, start, head_end)
    return tree.Group(keyword, None, number, lines or (), span=b.span(start, end), head=b.span(start, head_end))


GiveWhen = tuple[bool, Condition]


def give(
    b: Building, start: int, end: int, keyword: str, item: Name, when: GiveWhen | None, head_end: int,
    lines: Lines | None,
) -> tree.Give:  # fmt: skip
    unless, condition = when or (False, None)
    return tree.Give(
        keyword, item, condition, unless, lines or (), span=b.span(start, end), head=b.span(start, head_end)
    )


def give_when(b: Building, start: int, end: int, keyword: str, condition: Condition) -> GiveWhen:
    return keyword == "unless", condition


def level(
    b: Building, start: int, end: int, keyword: str, name: Name, exercise: Name | None, after: Name | None,
    head_end: int, lines: Lines | None,
) -> Statement:  # fmt: skip
    return tree.Level(
        keyword, name, exercise, after, lines or (), span=b.span(start, end), head=b.span(start, head_end)
    )
