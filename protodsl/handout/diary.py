"""The diary: a table for the first weeks, with a box for every exercise whose days are known beforehand.

Without a person nobody knows the phase or the step of a progression: where the protocol has phases the boxes stay
empty and numbers are written in; the steps of a progression share one box.
"""

from __future__ import annotations

from collections.abc import Iterator
from decimal import ROUND_CEILING

from protodsl.dose.plan import Alternatives, Item, groups, timed, with_us_only
from protodsl.dose.plan import items as items_of
from protodsl.dose.weekdays import WEEK
from protodsl.handout.blocks import Diary, DiaryWeek, Paragraphs, Row, Section
from protodsl.handout.blocks import Item as Line
from protodsl.handout.draft import Draft
from protodsl.handout.phrase import Listed, Number, Phrase, Weekday, Written
from protodsl.handout.rules import conditions
from protodsl.handout.words import counted, number, one_after_the_other, say
from protodsl.model import named
from protodsl.model.condition import findings_in
from protodsl.model.finding import Finding, Kind
from protodsl.units import UNITS

_WEEKS = 4
_COMPACT_WEEKS = 2


def diary(draft: Draft) -> Section[Phrase]:
    """How to fill it in, then the table."""
    asked = _asked(draft)
    weeks = weeks_covered(draft)
    boxes = not draft.protocol.phases
    intro: list[Phrase] = [say("diary.intro.tick" if boxes else "diary.intro.write")]
    if boxes:
        intro += [*_example(draft), *_without_a_box(draft)]
    intro.append(counted("diary.weeks", weeks))
    paragraphs = Paragraphs((Line(one_after_the_other(*intro)),))
    scales: tuple[Line[Phrase], ...] = tuple(
        Line(Written(finding.words)) for finding in asked if finding.words is not None
    )
    how: tuple[Row[Phrase], ...] = (Row(say("diary.asked"), scales),) if scales else ()
    blanks = (*(_head(finding) for finding in asked), say("diary.notes"))
    heads = (say("diary.day"), say("diary.done" if boxes else "diary.numbers"), *blanks)
    table = Diary(heads, tuple(_week(draft, at, boxes) for at in range(1, weeks + 1)), len(blanks))
    return Section("diary", say("diary.head"), (paragraphs, *how, table), new_page=True)


def weeks_covered(draft: Draft) -> int:
    """Four weeks, two where the sheet is compact, fewer where the protocol lasts less."""
    most = _COMPACT_WEEKS if draft.options.compact else _WEEKS
    lasts = draft.protocol.lasts
    if lasts is None or lasts.unit is None or lasts.dimension != "time":
        return most
    whole = lasts.to(UNITS["weeks"]).value.to_integral_value(ROUND_CEILING)
    return max(1, min(most, int(whole)))


def _asked(draft: Draft) -> tuple[Finding, ...]:
    """What the protocol's rules look at after each session, in the order in which they first do."""
    names = dict.fromkeys(name for condition in conditions(draft) for name in findings_in(condition))
    found = (draft.protocol.scope.findings.get(name) for name in names)
    return tuple(
        one
        for one in found
        if one is not None and one.one_session and one.role == "question" and one.answer.kind is not Kind.DATE
    )


def _head(finding: Finding) -> Phrase:
    return say("name", name=Written(named.finding_name(finding)))


def _week(draft: Draft, at: int, boxes: bool) -> DiaryWeek[Phrase]:
    due: tuple[tuple[Phrase, ...], ...] = _boxes(draft, at) if boxes else ((),) * WEEK
    days = tuple((Weekday(day, short=True), due[day]) for day in range(WEEK))
    return DiaryWeek(say("diary.week", number=number(at)), days)


def _boxes(draft: Draft, week: int) -> tuple[tuple[Phrase, ...], ...]:
    """For each day the boxes of what is due then, in the order of the plan."""
    due: list[list[Phrase]] = [[] for _ in range(WEEK)]
    chosen = list(_lines(draft))
    plan = timed([items[0] for items in chosen], week)
    for one in plan.items:
        items = next(items for items in chosen if items[0] is one.item)
        for day in one.days:
            due[day].append(_box(draft, items))
    return tuple(tuple(boxes) for boxes in due)


def _lines(draft: Draft) -> Iterator[tuple[Item, ...]]:
    """Each exercise alone; the steps of a progression, or the choice among several, together under the first.

    Only what everybody does at home has a box: what depends on a condition, or is done with us, has none.
    """
    for one in groups(draft.protocol, None):
        every = (one,) if isinstance(one, Item) else tuple(_flat(one))
        sure = tuple(item for item in every if not _on_condition(item) and not with_us_only(draft.protocol, item))
        if sure:
            yield sure


def _on_condition(item: Item) -> bool:
    return item.give.condition is not None or (item.outer is not None and item.outer.condition is not None)


def _without_a_box(draft: Draft) -> Iterator[Phrase]:
    """Which exercises have no box, and why: not for everybody, or with us only."""
    boxed = {item.exercise for items in _lines(draft) for item in items}
    others = [at for name, at in draft.numbers.items() if name not in boxed]
    found = items_of(draft.protocol, None)
    with_us = {draft.numbers[item.exercise] for item in found if with_us_only(draft.protocol, item)}
    for key, numbers in (
        ("diary.intro.not-sure", [number(at) for at in others if at not in with_us]),
        ("diary.intro.with-us", [number(at) for at in others if at in with_us]),
    ):
        if numbers:
            yield counted(key, len(numbers), numbers=Listed(tuple(numbers)))


def _example(draft: Draft) -> list[Phrase]:
    """What a box for several exercises means, shown by the first there is."""
    for items in _lines(draft):
        box = _box(draft, items)
        if not isinstance(box, Number):
            return [say("diary.intro.steps", box=box)]
    return []


def _flat(found: Alternatives) -> Iterator[Item]:
    for option in found.options:
        for one in option:
            if isinstance(one, Item):
                yield one
            else:
                yield from _flat(one)


def _box(draft: Draft, items: tuple[Item, ...]) -> Phrase:
    numbers = sorted({draft.numbers[item.exercise] for item in items})
    if len(numbers) == 1:
        return number(numbers[0])
    if numbers[-1] - numbers[0] >= len(numbers):
        return Listed(tuple(number(at) for at in numbers), by="comma")
    return say("diary.box", first=number(numbers[0]), last=number(numbers[-1]))
