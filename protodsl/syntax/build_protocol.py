"""Nodes of exercises, progressions and protocols, one function for each form in grammar/protocol.lark."""

from __future__ import annotations

from datetime import date
from decimal import Decimal

from protodsl.diagnostics import lines as say
from protodsl.syntax import tree
from protodsl.syntax.build_dose import CALENDAR_UNITS
from protodsl.syntax.building import Building, amount_line, only, ordered, unit_of, whole
from protodsl.syntax.tree import Amount, Condition, Name, Statement, Words

Lines = tuple[Statement, ...]


def protocol_file(b: Building, start: int, end: int, *statements: Statement) -> Lines:
    return statements


def block(b: Building, start: int, end: int, *statements: Statement | None) -> Lines:
    return tuple(statement for statement in statements if statement is not None)


def broken(b: Building, start: int, end: int, token: int, line_end: int, lines: Lines | None) -> None:
    """Nothing stays of a line that could not be read; what stands under it was read for its own mistakes."""


def prose(b: Building, start: int, end: int, *parts: Words | int) -> tuple[Words, ...]:
    return tuple(part for part in parts if isinstance(part, Words))


def budget(b: Building, start: int, end: int, keyword: str, amount: Amount, line_end: int) -> Statement:
    unit_of(b, amount.unit or "", ("min",), f"`{keyword}`", start, line_end)
    return amount_line(b, start, keyword, amount, line_end)


def lasts(b: Building, start: int, end: int, keyword: str, amount: Amount, line_end: int) -> Statement:
    unit_of(b, amount.unit or "", CALENDAR_UNITS, f"`{keyword}`", start, line_end)
    return amount_line(b, start, keyword, amount, line_end)


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
    ordered(b, start, line_end, low, last)
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
