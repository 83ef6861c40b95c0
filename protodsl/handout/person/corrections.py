"""What was changed for this person alone, what was corrected, and where two answers stand against each other."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from datetime import date

from protodsl.decide.corrections import corrected
from protodsl.decide.plan import Plan
from protodsl.handout.blocks import Bullets, Item, Section
from protodsl.handout.draft import Draft
from protodsl.handout.person.evidence import finding, prose_or_name, value
from protodsl.handout.phrase import AUTHOR, Day, Listed, Literal, Phrase, Written
from protodsl.handout.places import places
from protodsl.handout.words import say
from protodsl.model.case import Added, Case, Changed, LeftOut, Observation, Placing
from protodsl.source import Span


def corrections(plan: Plan, on: Draft) -> Section[Phrase] | None:
    """A list in the order of kind, then of date; what comes after today is not in it."""
    notes = (
        _item(on, say("case.note", date=Day(one.date), words=Literal(one.words, AUTHOR)), one.span)
        for one in plan.case.notes
        if one.date <= plan.as_of
    )
    found = (*_personal(plan.case, on, plan.as_of), *_corrected(plan, on), *_contradictions(plan, on), *notes)
    return Section("personal", say("case.personal.head"), (Bullets(found),)) if found else None


def contradictions(case: Case, as_of: date) -> tuple[tuple[Observation, ...], ...]:
    """Answers of one date that differ for one finding and side, corrections made."""
    found: dict[tuple[str, str | None, date], list[Observation]] = {}
    for one in corrected(case).observations:
        if one.date <= as_of:
            found.setdefault((one.finding, one.side, one.date), []).append(one)
    return tuple(tuple(several) for several in found.values() if len({repr(one.value) for one in several}) > 1)


def _personal(case: Case, on: Draft, as_of: date) -> Iterator[Item[Phrase]]:
    changed: list[tuple[str, LeftOut | Added | Changed, str]] = [
        *(("out", one, one.item) for one in case.left_out),
        *(("added", one, one.give.item) for one in case.added),
        *(("changed", one, one.item) for one in case.changed),
    ]
    for key, one, item in changed:
        if one.date <= as_of:
            yield _item(on, _from(on, key, item, one), one.span)
    for placing in case.placings:
        if placing.date <= as_of:
            yield _item(on, _placed(on, placing), placing.span)
    for version in case.versions:
        if version.date <= as_of:
            said = say("case.personal.version", date=Day(version.date), version=Literal(version.version))
            yield _item(on, said, version.span)


def _placed(on: Draft, placing: Placing) -> Phrase:
    values: dict[str, Phrase] = {
        "date": Day(placing.date),
        "item": prose_or_name(on, placing.item),
        "level": prose_or_name(on, placing.level),
        "reason": Written(placing.because),
    }
    return say("case.personal.placed", **values)


def _from(on: Draft, key: str, item: str, one: LeftOut | Added | Changed) -> Phrase:
    """From when, until when where that was said, what, and why."""
    values: dict[str, Phrase] = {
        "item": prose_or_name(on, item),
        "first": Day(one.date),
        "reason": Written(one.because),
    }
    if one.until is None:
        return say(f"case.personal.{key}", **values)
    return say(f"case.personal.{key}.until", last=Day(one.until), **values)


def _corrected(plan: Plan, on: Draft) -> Iterator[Item[Phrase]]:
    """What stood first, and what stands now, with the reason."""
    observations = plan.case.observations
    for one in observations:
        if not one.corrects or one.date > plan.as_of:
            continue
        earlier = [
            before
            for before in (*observations, *(value for session in plan.case.sessions for value in session.values))
            if (before.finding, before.side, before.date) == (one.finding, one.side, one.date) and not before.corrects
        ]
        values: dict[str, Phrase] = {
            "name": finding(one.finding, one.side),
            "date": Day(one.date),
            "value": value(one.value),
            "was": _values(earlier) if earlier else say("case.never.said"),
        }
        if one.because is None:
            yield _item(on, say("case.corrected", **values), one.span)
        else:
            yield _item(on, say("case.corrected.because", reason=Written(one.because), **values), one.span)


def _contradictions(plan: Plan, on: Draft) -> Iterator[Item[Phrase]]:
    for several in contradictions(plan.case, plan.as_of):
        first = several[0]
        said = say(
            "case.contradiction", name=finding(first.finding, first.side), date=Day(first.date), values=_values(several)
        )
        yield _item(on, said, several[-1].span)


def _values(several: Iterable[Observation]) -> Phrase:
    found = tuple(value(one.value) for one in several)
    return found[0] if len(found) == 1 else Listed(found)


def _item(on: Draft, said: Phrase, span: Span) -> Item[Phrase]:
    return Item(say("case.line", text=said, lines=places(on, (span,))))
