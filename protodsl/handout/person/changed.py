"""What changed since the last sheet, and why: the first question of somebody who comes back."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace

from protodsl.decide.plan import Move, NotGiven, Plan, PlannedItem, Reason
from protodsl.handout.blocks import Item, Row, Section
from protodsl.handout.draft import Draft
from protodsl.handout.person.compare import (
    FINISHED,
    LABELS,
    NEW,
    SAME,
    Changed,
    changes,
    conditions_of,
    moves_since,
    reasons_for,
)
from protodsl.handout.person.masthead import phase_number
from protodsl.handout.person.today import printed_dose
from protodsl.handout.person.voice import side_of
from protodsl.handout.phrase import Day, DoseInWords, InWords, Listed, Phrase, Written
from protodsl.handout.words import counted, lines, number, one_after_the_other, say
from protodsl.model.dose import NO_DOSE

_WAYS = {"up": "up", "down": "down", "add": "more", "take off": "less"}


def changed(plan: Plan, on: Draft, previous: Plan | None) -> Section[Phrase] | None:
    """A row for each way of changing; None where there was no sheet before."""
    if previous is None or previous.refused:
        return None
    found = changes(previous, plan)
    rows = [*_part(plan, previous)]
    for label in LABELS:
        some = [one for one in found if one.label == label]
        if some and label == SAME:
            numbers = Listed(tuple(number(on.numbers[one.now.exercise.name]) for one in some if one.now))
            rows.append(
                Row(
                    say("person.changed.same.head"), (Item(counted("person.changed.same", len(some), numbers=numbers)),)
                )
            )
        elif some:
            items = tuple(_item(plan, previous, on, one) for one in some)
            rows.append(Row(say(f"person.changed.{label}.head"), items))
    if all(one.label == SAME for one in found) and len(rows) <= 1:
        rows = [Row(say("person.changed.same.head"), (Item(say("person.changed.nothing")),))]
    head = say("person.changed.head", date=Day(previous.as_of))
    return Section("changed", head, tuple(rows))


def _part(plan: Plan, previous: Plan) -> Iterator[Row[Phrase]]:
    """The part of the plan, where it is another one now."""
    if plan.phase is None or previous.phase is None or plan.phase.name == previous.phase.name:
        return
    said: list[Phrase] = [
        say("person.changed.part", number=number(phase_number(plan)), title=Written(plan.phase.title))
    ]
    said += _reasons(plan, [move for move in moves_since(previous, plan) if move.kind in ("phase", "phase back")])
    yield Row(say("person.changed.part.head"), (Item(one_after_the_other(*said)),))


def _item(plan: Plan, previous: Plan, on: Draft, one: Changed) -> Item[Phrase]:
    """The exercise, what is otherwise about it, and why."""
    if one.now is None:
        assert one.before is not None, "what is on neither sheet has not changed"
        title = Written(one.before.exercise.title)
        said: list[Phrase] = [say("person.changed.gone", title=title), *_why_gone(plan, previous, on, one.before)]
        return Item(one_after_the_other(*said))
    at = number(on.numbers[one.now.exercise.name])
    said = [say("person.changed.named", number=at, title=Written(one.now.exercise.title))]
    if one.before is not None and one.before.exercise.name != one.now.exercise.name:
        said.append(say("person.instead", title=Written(one.before.exercise.title)))
    elif one.before is not None:
        said += _doses(one.before, one.now)
    said += _why(plan, previous, one)
    return Item(one_after_the_other(*said))


def _doses(before: PlannedItem, now: PlannedItem) -> Iterator[Phrase]:
    """What of the dose is otherwise: then and now, in short."""
    old, new = printed_dose(before), printed_dose(now)
    names = [
        name
        for name in ("volume", "load", "repetition", "rest", "frequency")
        if getattr(old, name) != getattr(new, name)
    ]
    if names:
        then = replace(NO_DOSE, **{name: getattr(old, name) for name in names})
        today = replace(NO_DOSE, **{name: getattr(new, name) for name in names})
        if then != NO_DOSE and today != NO_DOSE:
            yield say("person.changed.dose", before=DoseInWords(then, "short"), now=DoseInWords(today, "short"))
    if now.focus is not None and (before.focus is None or now.focus.side != before.focus.side):
        yield say("person.focus", side=side_of(now.focus.side))


def _why(plan: Plan, previous: Plan, one: Changed) -> list[Phrase]:
    """The moves of the item since the last sheet; for what is new without one, what it is given for."""
    assert one.now is not None
    item = one.now
    if item.level is not None and item.level.held:
        return [say("person.held")]
    found = _reasons(plan, reasons_for(one, moves_since(previous, plan)))
    if one.before is not None and one.before.asked == item.asked == item.exercise.name != one.before.exercise.name:
        found.append(say("person.why.again"))
    if found or one.label != NEW:
        return found
    if item.asked != item.exercise.name:
        asked = plan.protocol.scope.exercises.get(item.asked)
        found = [say("person.instead", title=Written(asked.title))] if asked else []
    for reason in item.reasons:
        found += _reason(plan, item.asked, reason)
    if not found and item.give.condition is not None:
        found.append(say("person.why", clause=InWords(item.give.condition, negated=item.give.unless)))
    return found


def _why_gone(plan: Plan, previous: Plan, on: Draft, item: PlannedItem) -> list[Phrase]:
    """Why something is no longer on the sheet: what bars it, or the moves that ended it."""
    name = item.exercise.name
    gone = next((one for one in plan.not_given if one.asked == name), None)
    found: list[Phrase] = []
    if gone is not None:
        for reason in gone.reasons:
            found += _reason(plan, name, reason)
        found += _replacement(plan, on, gone)
    if not found:
        found = _reasons(plan, reasons_for(Changed(FINISHED, item, None), moves_since(previous, plan)))
    return found


def _replacement(plan: Plan, on: Draft, gone: NotGiven) -> list[Phrase]:
    other = gone.replacement
    if other is None or other not in on.numbers:
        return []
    title = plan.protocol.scope.exercises[other].title
    return [say("person.changed.instead", number=number(on.numbers[other]), title=Written(title))]


def _reason(plan: Plan, name: str, reason: Reason) -> list[Phrase]:
    """Why a line bars an exercise: its condition, that something is missing, or what was written."""
    found: list[Phrase] = []
    exercise = plan.protocol.scope.exercises.get(name)
    if reason.kind == "avoid" and exercise is not None:
        lines_of = [avoid for avoid in exercise.avoid if avoid.span == reason.span]
        found += [say("person.why.avoid", clause=InWords(avoid.condition)) for avoid in lines_of]
    elif reason.kind == "needs":
        found.append(say("person.why.needs"))
    elif reason.kind in ("table ended", "dose ended"):
        found.append(say("person.why.ended"))
    elif reason.kind in ("limit", "forbid", "bearing", "load limit"):
        found.append(say("person.why.limit"))
    elif reason.kind == "condition":
        found.append(say("person.why.condition"))
    if reason.because is not None:
        found.append(say("card.because", reason=Written(reason.because)))
    return found


def _reasons(plan: Plan, moves: list[Move]) -> list[Phrase]:
    """Each move with its date and conditions and what the clinician wrote; what to do upon it, after the last alone."""
    found: list[Phrase] = []
    for move in moves:
        for at, (condition, streak) in enumerate(conditions_of(plan.protocol, move)):
            clause = InWords(condition, streak)
            found.append(say("person.why.and", clause=clause) if at else _moved(move, clause))
        if move.because is not None:
            found.append(say("card.because", reason=Written(move.because)))
    if moves and moves[-1].lines:
        found.append(lines(moves[-1].lines))
    return found


def _moved(move: Move, clause: Phrase) -> Phrase:
    """Which way it went, and when, where that can be told in a word."""
    if move.kind in _WAYS:
        return say(f"person.why.{_WAYS[move.kind]}", date=Day(move.date, short=True), clause=clause)
    return say("person.why", clause=clause)
