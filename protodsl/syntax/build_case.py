"""Nodes of a case file, one function for each form in grammar/case.lark."""

from __future__ import annotations

from datetime import date

from protodsl.diagnostics import lines as say
from protodsl.syntax import tree
from protodsl.syntax.build_protocol import GiveWhen, Lines
from protodsl.syntax.building import Building, only
from protodsl.syntax.tree import Amount, Name, SessionPart, Statement, Value, Words

SidedValues = tuple[tuple[str | None, Value], ...]


def case_file(b: Building, start: int, end: int, *cases: Statement) -> Lines:
    return cases


def case(
    b: Building, start: int, end: int, keyword: str, name: Name, head_end: int, *lines: Statement | None
) -> Statement:
    return tree.CaseDeclaration(keyword, name, _given(lines), span=b.span(start, end), head=b.span(start, head_end))


def broken_case(b: Building, start: int, end: int, token: int, line_end: int, *lines: Statement | None) -> None:
    """Nothing stays of a case whose first line could not be read."""


def broken_answers(b: Building, start: int, end: int, token: int, line_end: int, *lines: Statement) -> None:
    """Nothing stays of a day whose first line could not be read."""


def _given(lines: tuple[Statement | None, ...]) -> Lines:
    return tuple(line for line in lines if line is not None)


def case_protocol(
    b: Building, start: int, end: int, keyword: str, name: Name, version: str, line_end: int
) -> Statement:
    place = b.span(start, line_end)
    return tree.CaseProtocol(keyword, name, version, span=place, head=place)


def started(b: Building, start: int, end: int, keyword: str, day: date, line_end: int) -> Statement:
    place = b.span(start, line_end)
    return tree.DateLine(keyword, day, span=place, head=place)


next_visit = started


def language(b: Building, start: int, end: int, keyword: str, tag: str, line_end: int) -> Statement:
    place = b.span(start, line_end)
    return tree.LanguageLine(keyword, tag, span=place, head=place)


def case_side(b: Building, start: int, end: int, keyword: str, which: str, line_end: int) -> Statement:
    place = b.span(start, line_end)
    return tree.SideLine(keyword, which, None, span=place, head=place)


def both_sides(b: Building, start: int, end: int, keyword: str, both: str, worse: str, line_end: int) -> Statement:
    place = b.span(start, line_end)
    return tree.SideLine(keyword, both, worse, span=place, head=place)


def has(b: Building, start: int, end: int, keyword: str, *names: Name | int) -> Statement:
    *listed, line_end = names
    assert isinstance(line_end, int)
    place = b.span(start, line_end)
    return tree.NamesLine(keyword, tuple(n for n in listed if isinstance(n, Name)), span=place, head=place)


def has_nothing(b: Building, start: int, end: int, keyword: str, nothing: str, line_end: int) -> Statement:
    place = b.span(start, line_end)
    return tree.NamesLine(keyword, (), span=place, head=place)


def on(
    b: Building, start: int, end: int, keyword: str, day: date, head_end: int, *lines: Statement | None
) -> Statement:
    return tree.OnDate(keyword, day, _given(lines), span=b.span(start, end), head=b.span(start, head_end))


def answered(b: Building, start: int, end: int, name: Name, values: SidedValues, line_end: int) -> Statement:
    place = b.span(start, line_end)
    return tree.Answered("answered", name, values, span=place, head=place)


def listed(b: Building, start: int, end: int, keyword: str, *names: Name | int) -> Statement:
    *given, line_end = names
    assert isinstance(line_end, int)
    place = b.span(start, line_end)
    return tree.ListedAnswers(keyword, tuple(n for n in given if isinstance(n, Name)), span=place, head=place)


def corrected(
    b: Building, start: int, end: int, keyword: str, day: date, name: Name, values: SidedValues, head_end: int,
    *reasons: tree.ProseLine,
) -> Statement:  # fmt: skip
    because = only(b, keyword, reasons)
    return tree.Answered(
        keyword,
        name,
        values,
        day,
        because.words if because else None,
        span=b.span(start, end),
        head=b.span(start, head_end),
    )


def one_value(b: Building, start: int, end: int, value: Value) -> SidedValues:
    return ((None, value),)


def values_by_side(
    b: Building, start: int, end: int, side: str, value: Value, other: str | None, other_value: Value | None
) -> SidedValues:
    if other is None or other_value is None:
        return ((side, value),)
    if other == side:
        b.report(say.side_twice(b.span(start, end), side))
        return ((side, value),)
    return (side, value), (other, other_value)


def word_value(b: Building, start: int, end: int, word: str) -> Value:
    return Value(word, span=b.span(start, end))


def amount_value(b: Building, start: int, end: int, amount: Amount) -> Value:
    return Value("amount", amount, span=amount.span)


def date_value(b: Building, start: int, end: int, day: date) -> Value:
    return Value("date", date=day, span=b.span(start, end))


def name_value(b: Building, start: int, end: int, name: Name) -> Value:
    return Value("name", name=name, span=name.span)


def session(
    b: Building, start: int, end: int, keyword: str, days: tuple[tuple[date, ...], date | None], item: Name | None,
    *parts: SessionPart | int,
) -> Statement:  # fmt: skip
    *given, line_end = parts
    assert isinstance(line_end, int)
    place = b.span(start, line_end)
    joined: list[SessionPart] = []
    for one in given:
        assert isinstance(one, SessionPart)
        if one.form != "other side":
            joined.append(one)
        elif joined and joined[-1].form == "score" and joined[-1].values[0][0] and len(joined[-1].values) == 1:
            joined[-1] = _with_other_side(b, joined[-1], one)
        else:
            b.report(say.side_without_name(one.span))
    return tree.Session(keyword, *days, item, tuple(joined), span=place, head=place)


def _with_other_side(b: Building, score: SessionPart, other: SessionPart) -> SessionPart:
    """`stiffness left 2` and the `right 3` behind it are one score."""
    if other.side == score.values[0][0]:
        b.report(say.side_twice(score.span.join(other.span), str(other.side)))
        return score
    return SessionPart(
        "score", name=score.name, values=(*score.values, *other.values), span=score.span.join(other.span)
    )


def dates_listed(b: Building, start: int, end: int, *days: date) -> tuple[tuple[date, ...], date | None]:
    return days, None


def dates_run(b: Building, start: int, end: int, first: date, last: date) -> tuple[tuple[date, ...], date | None]:
    if last < first:
        b.report(say.range_backwards(b.span(start, end), first.isoformat(), last.isoformat()))
    return (first,), last


def plain_part(b: Building, start: int, end: int, words: str) -> SessionPart:
    return SessionPart(words, span=b.span(start, end))


def done_part(b: Building, start: int, end: int, volume: tree.Sets | tree.SetsOf | tree.Intervals) -> SessionPart:
    return SessionPart("done", volume, span=b.span(start, end))


def side_part(
    b: Building, start: int, end: int, side: str, volume: tree.Sets | tree.SetsOf | tree.Intervals
) -> SessionPart:
    return SessionPart("side done", volume, side, span=b.span(start, end))


def loaded_part(b: Building, start: int, end: int, load: tree.Load) -> SessionPart:
    return SessionPart("load", load=load, span=b.span(start, end))


def scored_part(b: Building, start: int, end: int, name: Name, value: Value) -> SessionPart:
    return SessionPart("score", name=name, values=((None, value),), span=b.span(start, end))


def scored_side_part(b: Building, start: int, end: int, name: Name, side: str, value: Value) -> SessionPart:
    return SessionPart("score", name=name, values=((side, value),), span=b.span(start, end))


def other_side_part(b: Building, start: int, end: int, side: str, value: Value) -> SessionPart:
    return SessionPart("other side", side=side, values=((side, value),), span=b.span(start, end))


def yes_part(b: Building, start: int, end: int, name: Name) -> SessionPart:
    return SessionPart("yes", name=name, span=b.span(start, end))


def no_part(b: Building, start: int, end: int, name: Name) -> SessionPart:
    return SessionPart("no", name=name, span=b.span(start, end))


def place(
    b: Building, start: int, end: int, keyword: str, day: date, item: Name, level: Name, head_end: int,
    *reasons: tree.ProseLine,
) -> Statement:  # fmt: skip
    because = only(b, keyword, reasons)
    return tree.Place(
        keyword,
        day,
        item,
        level,
        because.words if because else None,
        span=b.span(start, end),
        head=b.span(start, head_end),
    )


def from_change(
    b: Building, start: int, end: int, keyword: str, day: date, to: date | None, change: str, name: Name,
    head_end: int, lines: Lines | None,
) -> Statement:  # fmt: skip
    because, rest = _because(b, keyword, lines or ())
    inner = b.span(name.span.start, end)
    changed = tree.Declaration(change, name, None, rest, span=inner, head=b.span(name.span.start, head_end))
    return _from(b, start, end, head_end, keyword, day, to, changed, because)


def from_leave_out(
    b: Building, start: int, end: int, keyword: str, day: date, to: date | None, leave: str, name: Name,
    head_end: int, *reasons: tree.ProseLine,
) -> Statement:  # fmt: skip
    because = only(b, keyword, reasons)
    left = tree.NamesLine(leave, (name,), span=name.span, head=name.span)
    return _from(b, start, end, head_end, keyword, day, to, left, because.words if because else None)


def from_give(
    b: Building, start: int, end: int, keyword: str, day: date, to: date | None, give: str, name: Name,
    when: GiveWhen | None, head_end: int, lines: Lines | None,
) -> Statement:  # fmt: skip
    because, rest = _because(b, keyword, lines or ())
    unless, condition = when or (False, None)
    inner = b.span(name.span.start, end)
    given = tree.Give(give, name, condition, unless, rest, span=inner, head=b.span(name.span.start, head_end))
    return _from(b, start, end, head_end, keyword, day, to, given, because)


def from_version(
    b: Building, start: int, end: int, keyword: str, day: date, word: str, version: str, head_end: int
) -> Statement:
    place = b.span(end - len(version), head_end)
    line = tree.VersionLine(word, version, span=place, head=place)
    return _from(b, start, end, head_end, keyword, day, None, line, None)


def _from(
    b: Building, start: int, end: int, head_end: int, keyword: str, day: date, to: date | None, change: Statement,
    because: Words | None,
) -> Statement:  # fmt: skip
    if to is not None and to < day:
        b.report(say.range_backwards(b.span(start, head_end), day.isoformat(), to.isoformat()))
    return tree.From(keyword, day, to, change, because, span=b.span(start, end), head=b.span(start, head_end))


def _because(b: Building, keyword: str, lines: Lines) -> tuple[Words | None, Lines]:
    """The reason among the lines, and the other lines."""
    reasons = [line for line in lines if isinstance(line, tree.ProseLine) and line.keyword == "because"]
    because = only(b, keyword, reasons)
    return because.words if because else None, tuple(line for line in lines if line not in reasons)


def note(b: Building, start: int, end: int, keyword: str, day: date, words: Words, line_end: int) -> Statement:
    place = b.span(start, line_end)
    return tree.Note(keyword, day, words, span=place, head=place)
