"""Nodes of doses, one function for each form in grammar/dose.lark."""

from __future__ import annotations

from decimal import Decimal

from protodsl.diagnostics import lines as say
from protodsl.syntax import tree
from protodsl.syntax.build_conditions import signed
from protodsl.syntax.building import Building, unit_of, whole
from protodsl.syntax.tree import Amount, Name, Range

VOLUME_UNITS = ("reps", "s", "min", "hour", "hours", "mm", "cm", "m", "km", "ft", "in", "steps", "breaths")
REST_UNITS = ("s", "min")
CALENDAR_UNITS = ("day", "days", "week", "weeks", "month", "months")


def dose(
    b: Building, start: int, end: int, keyword: str, weeks: tree.Weeks | None, *parts: tree.DosePart | int
) -> tree.DoseLine:
    *given, head_end = parts
    return tree.DoseLine(
        keyword, _parts(given), weeks, None, span=b.span(start, end), head=b.span(start, _int(head_end))
    )


def set_dose(
    b: Building, start: int, end: int, keyword: str, number: Decimal, *parts: tree.DosePart | int
) -> tree.DoseLine:
    *given, head_end = parts
    count = whole(b, number, start, end)
    return tree.DoseLine(
        keyword, _parts(given), None, count, span=b.span(start, end), head=b.span(start, _int(head_end))
    )


def _parts(given: list[tree.DosePart | int]) -> tuple[tree.DosePart, ...]:
    return tuple(part for part in given if not isinstance(part, int))


def _int(value: object) -> int:
    assert isinstance(value, int)
    return value


def one_week(b: Building, start: int, end: int, number: Decimal) -> tree.Weeks:
    week = whole(b, number, start, end)
    return tree.Weeks(week, week, span=b.span(start, end))


def week_run(b: Building, start: int, end: int, first: Decimal, last: Decimal) -> tree.Weeks:
    return tree.Weeks(whole(b, first, start, end), whole(b, last, start, end), span=b.span(start, end))


def weeks_on(b: Building, start: int, end: int, first: Decimal) -> tree.Weeks:
    return tree.Weeks(whole(b, first, start, end), None, span=b.span(start, end))


def timing(b: Building, start: int, end: int, phase: str, seconds: Range, unit: str) -> tree.Timing:
    unit_of(b, unit, ("s",), f"`{phase}`", start, end)
    return tree.Timing(phase, seconds, span=b.span(start, end))


def until_settled(b: Building, start: int, end: int, phase: str) -> tree.Timing:
    return tree.Timing(phase, None, span=b.span(start, end))


def rest(b: Building, start: int, end: int, keyword: str, amount: Range, unit: str) -> tree.Rest:
    return tree.Rest(amount, unit_of(b, unit, REST_UNITS, f"`{keyword}`", start, end), span=b.span(start, end))


def rest_until_settled(b: Building, start: int, end: int, keyword: str) -> tree.Rest:
    return tree.Rest(None, None, span=b.span(start, end))


def sides(b: Building, start: int, end: int, words: str) -> tree.Sides:
    return tree.Sides(words.removesuffix(" side"), span=b.span(start, end))


def effort(b: Building, start: int, end: int, amount: Range) -> tree.Effort:
    return tree.Effort("effort", amount, span=b.span(start, end))


def in_reserve(b: Building, start: int, end: int, amount: Range) -> tree.Effort:
    return tree.Effort("reserve", amount, span=b.span(start, end))


def often(b: Building, start: int, end: int, words: str) -> tree.Often:
    times = {"once a day": 1, "twice a day": 2}.get(words)
    if times is not None:
        count = Decimal(times)
        return tree.Often("times a day", Range(count, count, span=b.span(start, end)), span=b.span(start, end))
    return tree.Often(words, None, span=b.span(start, end))


def every_hours(b: Building, start: int, end: int, amount: Range, unit: str) -> tree.Often:
    unit_of(b, unit, ("hour", "hours"), "`every`", start, end)
    return tree.Often("every hours", amount, span=b.span(start, end))


def counted_often(b: Building, start: int, end: int, amount: Range, words: str) -> tree.Often:
    form = "days a week" if words.startswith("day") else "times a day"
    return tree.Often(form, amount, span=b.span(start, end))


def some_supervised(b: Building, start: int, end: int, count: Decimal, keyword: str) -> tree.Supervised:
    return tree.Supervised(whole(b, count, start, end), span=b.span(start, end))


def lasting(b: Building, start: int, end: int, amount: Amount) -> tree.Lasting:
    unit_of(b, amount.unit or "", CALENDAR_UNITS, "`for`", start, end)
    return tree.Lasting(amount, span=b.span(start, end))


def sets(b: Building, start: int, end: int, count: Range, amount: Range, unit: str | None) -> tree.Sets:
    unit_of(b, unit, VOLUME_UNITS, "a set", start, end)
    _whole_range(b, count, start, end)
    if unit in (None, "reps"):
        _whole_range(b, amount, start, end)
    return tree.Sets(count, amount, None if unit == "reps" else unit, span=b.span(start, end))


def _whole_range(b: Building, amount: Range, start: int, end: int) -> None:
    """Sets and repetitions are whole."""
    for number in dict.fromkeys((amount.low, amount.high)):
        whole(b, number, start, end)


def sets_to_fatigue(b: Building, start: int, end: int, count: Range) -> tree.Sets:
    _whole_range(b, count, start, end)
    return tree.Sets(count, None, None, span=b.span(start, end))


def amount_alone(b: Building, start: int, end: int, amount: Range, unit: str) -> tree.Sets:
    unit_of(b, unit, VOLUME_UNITS, "how much", start, end)
    return tree.Sets(None, amount, None if unit == "reps" else unit, span=b.span(start, end))


def to_fatigue(b: Building, start: int, end: int) -> tree.Sets:
    return tree.Sets(None, None, None, span=b.span(start, end))


def sets_of(b: Building, start: int, end: int, *counts: Decimal) -> tree.SetsOf:
    return tree.SetsOf(tuple(whole(b, count, start, end) for count in counts), span=b.span(start, end))


def intervals(b: Building, start: int, end: int, rounds: Range, *legs: tree.Leg) -> tree.Intervals:
    return tree.Intervals(rounds, legs, span=b.span(start, end))


def range(b: Building, start: int, end: int, low: Decimal, high: Decimal | None) -> Range:
    if high is not None and high < low:
        b.report(say.range_backwards(b.span(start, end), str(low), str(high)))
    return Range(low, low if high is None else high, span=b.span(start, end))


def leg(b: Building, start: int, end: int, number: Decimal, unit: str, activity: Name) -> tree.Leg:
    unit_of(b, unit, VOLUME_UNITS, "a stretch", start, end)
    return tree.Leg(Amount(number, unit, span=b.span(start, activity.span.start)), activity, span=b.span(start, end))


def load_part(b: Building, start: int, end: int, load: tree.Load, up_to: Amount | None) -> tree.Load:
    return tree.Load(load.amount, load.percent, load.of, load.maximum, load.name, up_to, span=b.span(start, end))


def load_weight(b: Building, start: int, end: int, amount: Amount) -> tree.Load:
    return tree.Load(amount, span=b.span(start, end))


def load_share(b: Building, start: int, end: int, share: Amount, of: Name | int) -> tree.Load:
    if share.unit != "%":
        b.report(say.wrong_unit(share.span, "a share", share.unit or "", ("%",)))
    name = of if isinstance(of, Name) else Name(f"{of}RM", span=b.span(end - len(f"{of}RM"), end))
    return tree.Load(percent=share.value, of=name, span=b.span(start, end))


def load_maximum(b: Building, start: int, end: int, maximum: int) -> tree.Load:
    return tree.Load(maximum=maximum, span=b.span(start, end))


def load_named(b: Building, start: int, end: int, name: Name, sign: str | None, amount: Amount | None) -> tree.Load:
    return tree.Load(amount and signed(sign or "+", amount), name=name, span=b.span(start, end))


def adjust(
    b: Building, start: int, end: int, keyword: str, by_set: Decimal, for_set: Decimal, head_end: int,
    *rows: tree.AdjustRow,
) -> tree.AdjustLine:  # fmt: skip
    return _adjust(b, start, end, keyword, by_set, whole(b, for_set, start, head_end), head_end, rows)


def adjust_next(
    b: Building, start: int, end: int, keyword: str, by_set: Decimal, head_end: int, *rows: tree.AdjustRow
) -> tree.AdjustLine:
    return _adjust(b, start, end, keyword, by_set, None, head_end, rows)


def _adjust(
    b: Building, start: int, end: int, keyword: str, by_set: Decimal, for_set: int | None, head_end: int,
    rows: tuple[tree.AdjustRow, ...],
) -> tree.AdjustLine:  # fmt: skip
    places = {"span": b.span(start, end), "head": b.span(start, head_end)}
    return tree.AdjustLine(keyword, whole(b, by_set, start, head_end), for_set, rows, **places)


def adjust_row(
    b: Building, start: int, end: int, counts: tuple[int, int | None], change: Amount | None, line_end: int
) -> tree.AdjustRow:
    return tree.AdjustRow(*counts, change, span=b.span(start, end))


def row_one(b: Building, start: int, end: int, low: Decimal) -> tuple[int, int | None]:
    count = whole(b, low, start, end)
    return count, count


def row_run(b: Building, start: int, end: int, low: Decimal, high: Decimal) -> tuple[int, int | None]:
    if high < low:
        b.report(say.range_backwards(b.span(start, end), str(low), str(high)))
    return whole(b, low, start, end), whole(b, high, start, end)


def row_or_more(b: Building, start: int, end: int, low: Decimal) -> tuple[int, int | None]:
    return whole(b, low, start, end), None


def row_change(b: Building, start: int, end: int, keyword: str, amount: Amount) -> Amount:
    return signed("-" if keyword == "take off" else "+", amount)


def row_same(b: Building, start: int, end: int) -> None:
    return None


def step(
    b: Building,
    start: int,
    end: int,
    keyword: str,
    amount: Amount,
    condition: tree.Condition,
    streak: int | None,
    bound: Amount | None,
    head_end: int,
) -> tree.StepLine:
    place = b.span(start, head_end)
    return tree.StepLine(keyword, amount, condition, streak, bound, span=place, head=place)
