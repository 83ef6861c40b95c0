"""The values of each measure over time, with the moves marked; scales that are answered alike share one chart."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from datetime import date, timedelta
from decimal import Decimal

from protodsl.decide.corrections import corrected
from protodsl.decide.plan import Plan
from protodsl.handout.blocks import Chart, ChartLine, ChartMark, Section
from protodsl.handout.person.evidence import finding
from protodsl.handout.person.moves import marked
from protodsl.handout.phrase import Day, Listed, Number, Phrase
from protodsl.handout.words import counted, say
from protodsl.model.case import Case
from protodsl.model.finding import Finding
from protodsl.units import Quantity

Key = tuple[str, str | None]
Points = tuple[tuple[date, Decimal], ...]

_MOST_LINES, _MOST_TICKS, _MOST_DATES = 4, 6, 7
_WEEK = 7


def charts(plan: Plan) -> Section[Phrase] | None:
    """A chart for each group of findings with two dated numbers or more."""
    known = series(plan.case, plan.protocol.scope.findings, plan.as_of)
    drawn = tuple(_chart(plan, group, known) for group in _groups(plan, known))
    return Section("charts", say("case.charts.head"), drawn) if drawn else None


def series(case: Case, findings: Mapping[str, Finding], as_of: date) -> dict[Key, Points]:
    """The numbers of each finding and side by date, in the unit of the finding, corrections made."""
    right = corrected(case)
    seen: dict[Key, list[tuple[date, Decimal]]] = {}
    within = (value for session in right.sessions for value in session.values)
    for one in (*right.observations, *within):
        declared = findings.get(one.finding)
        if declared is not None and isinstance(one.value, Quantity) and one.date <= as_of:
            number = _in_unit(one.value, declared)
            seen.setdefault((one.finding, one.side), []).append((one.date, number))
    return {key: tuple(sorted(points)) for key, points in seen.items()}


def _in_unit(value: Quantity, declared: Finding) -> Decimal:
    unit = declared.answer.unit
    return value.to(unit).value if unit is not None and value.dimension == unit.dimension else value.value


def _groups(plan: Plan, known: dict[Key, Points]) -> Iterator[list[Key]]:
    """Scales of a session that have one range together, every other finding by itself, with its sides."""
    declared = plan.protocol.scope.findings
    groups: dict[object, list[Key]] = {}
    for key, points in known.items():
        if len({day for day, _ in points}) < 2:
            continue
        one = declared[key[0]]
        alike = ("scale", one.answer.low, one.answer.high) if one.one_session else key[0]
        groups.setdefault(alike, []).append(key)
    for keys in groups.values():
        for at in range(0, len(keys), _MOST_LINES):
            yield keys[at : at + _MOST_LINES]


def _chart(plan: Plan, keys: list[Key], known: dict[Key, Points]) -> Chart[Phrase]:
    declared = plan.protocol.scope.findings[keys[0][0]]
    dates = [day for key in keys for day, _ in known[key]]
    first, last = min(dates), max(dates)
    marks = _marks(plan, first, last)
    first, last = min(first, *(day for day, _ in marks), first), max(last, *(day for day, _ in marks), last)
    numbers = [number for key in keys for _, number in known[key]]
    ticks = _ticks(declared, min(numbers), max(numbers))
    lines = tuple(
        ChartLine(finding(*key), tuple(((day - first).days, number) for day, number in known[key])) for key in keys
    )
    names = Listed(tuple(finding(*key) for key in keys), by="comma")
    return Chart(
        caption=say("case.chart", names=names),
        alternative=_alternative(keys, known),
        days=max((last - first).days, 1),
        lines=lines,
        marks=tuple(ChartMark((day - first).days, letters) for day, letters in marks),
        dates=tuple(((day - first).days, Day(day, short=True)) for day in _dates(first, last)),
        values=tuple((tick, Number(tick)) for tick in ticks),
    )


def _marks(plan: Plan, first: date, last: date) -> tuple[tuple[date, str], ...]:
    """The dates of the moves from a little before the first value to a little after the last, with their letters."""
    near = timedelta(_WEEK)
    return tuple((day, letter) for day, letter in marked(plan.moves).items() if first - near <= day <= last + near)


def _dates(first: date, last: date) -> list[date]:
    """The first date, then one each so many weeks."""
    days = (last - first).days
    step = _WEEK * max(1, -(-days // (_WEEK * _MOST_DATES)))
    if days < _WEEK:
        step = max(1, days)
    return [first + timedelta(at) for at in range(0, days + 1, step)]


def _ticks(declared: Finding, low: Decimal, high: Decimal) -> tuple[Decimal, ...]:
    """Round numbers from at most the lowest value to at least the highest; a scale is shown whole."""
    answer = declared.answer
    if declared.one_session and answer.low is not None and answer.high is not None:
        low, high = answer.low, answer.high
    step = _step(high - low)
    start = (low / step).to_integral_value(rounding="ROUND_FLOOR") * step
    found = [start]
    while found[-1] < high:
        found.append(found[-1] + step)
    if len(found) == 1:
        found.append(start + step)
    return tuple(found)


def _step(spread: Decimal) -> Decimal:
    """The least of 1, 2 or 5 times a power of ten with which a spread takes few ticks."""
    if not spread:
        return Decimal(1)
    step = Decimal(1).scaleb(spread.adjusted() - 1)
    while True:
        for times in (1, 2, 5):
            if spread / (step * times) <= _MOST_TICKS - 1:
                return step * times
        step *= 10


def _alternative(keys: list[Key], known: dict[Key, Points]) -> Phrase:
    """Each line in words: how many values, the first and the last."""
    said = []
    for key in keys:
        points = known[key]
        said.append(
            counted(
                "case.chart.alternative",
                len(points),
                name=finding(*key),
                first=Number(points[0][1]),
                since=Day(points[0][0]),
                last=Number(points[-1][1]),
                until=Day(points[-1][0]),
            )
        )
    return Listed(tuple(said), by="sentences")
