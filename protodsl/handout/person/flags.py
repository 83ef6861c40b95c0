"""What the clinician has to know now, and every flag with the dates on which it was yes."""

from __future__ import annotations

from collections.abc import Iterator

from protodsl.decide.plan import FlagState, Plan
from protodsl.decide.truth import NO, YES
from protodsl.handout.blocks import Bullets, Cell, Item, Section, Table
from protodsl.handout.draft import Draft
from protodsl.handout.person.evidence import all_known, prose_or_name
from protodsl.handout.person.moves import happened, why
from protodsl.handout.phrase import Day, InWords, Listed, Phrase, Written
from protodsl.handout.places import places
from protodsl.handout.words import counted, one_after_the_other, say

_WIDTHS = (14, 38, 12, 22, 14)


def told(plan: Plan, on: Draft) -> Section[Phrase] | None:
    """Calls that are due, levels held, tables at their end, conditions gone stale, personal reasons to look again."""
    found = (*_calls(plan, on), *_moves(plan, on), *_stale(plan, on), *_again(plan, on), *_uncovered(plan, on))
    return Section("told", say("case.told.head"), (Bullets(found),)) if found else None


def flags(plan: Plan, on: Draft) -> Section[Phrase] | None:
    """A row for each flag that is not plainly no, or was ever yes; the rest is counted in words."""
    states = (*plan.emergencies, *plan.red_flags, *plan.calls)
    if not states:
        return None
    rows = tuple(_row(on, state) for state in states if state.truth is not NO or state.was_yes)
    quiet = len(states) - len(rows)
    blocks: list[Table[Phrase] | Bullets[Phrase]] = []
    if rows:
        heads = tuple(say(f"case.flags.{name}") for name in ("kind", "sign", "today", "was", "line"))
        blocks.append(Table(None, heads, rows, kind="rules", widths=_WIDTHS))
    if quiet:
        blocks.append(Bullets((Item(counted("case.flags.quiet", quiet)),)))
    return Section("flags", say("case.flags.head"), tuple(blocks))


def _row(on: Draft, state: FlagState) -> tuple[Cell[Phrase], ...]:
    deciding = all_known(on, (*state.deciding, *state.unknown))
    sign: Phrase = say("line", text=InWords(state.flag.condition, state.flag.streak))
    if state.deciding or state.unknown:
        sign = one_after_the_other(sign, say("case.deciding", known=deciding))
    was = Listed(tuple(Day(day) for day in state.was_yes), by="comma") if state.was_yes else say("dose.none")
    kind = say(f"rule.{state.kind.removesuffix(' if').replace(' ', '-')}")
    today = say(f"case.truth.{state.truth.value}")
    return (Cell(kind), Cell(sign), Cell(today), Cell(was), Cell(places(on, (state.flag.span,))))


def _calls(plan: Plan, on: Draft) -> Iterator[Item[Phrase]]:
    for state in plan.calls:
        if state.truth is YES:
            clause = InWords(state.flag.condition, state.flag.streak)
            text = say("case.told.call", clause=clause, lines=places(on, (state.flag.span,)))
            yield Item(text)


def _moves(plan: Plan, on: Draft) -> Iterator[Item[Phrase]]:
    for move in plan.told:
        yield Item(one_after_the_other(happened(on, move), *why(on, move)))


def _stale(plan: Plan, on: Draft) -> Iterator[Item[Phrase]]:
    for one in plan.not_given:
        if one.until is not None:
            yield Item(say("case.told.stale", item=prose_or_name(on, one.asked), date=Day(one.until)))


def _again(plan: Plan, on: Draft) -> Iterator[Item[Phrase]]:
    """What was left out for this person and comes back within the period; the sheet is made as of today."""
    for out in plan.case.left_out:
        if out.date <= plan.as_of and out.until is not None and plan.as_of <= out.until < plan.last:
            values = {"item": prose_or_name(on, out.item), "date": Day(out.until), "last": Day(plan.last)}
            yield Item(say("case.told.again", **values))


def _uncovered(plan: Plan, on: Draft) -> Iterator[Item[Phrase]]:
    if plan.uncovered:
        targets = Listed(tuple(_target(on, name) for name in plan.uncovered), by="comma")
        yield Item(say("case.told.uncovered", targets=targets))


def _target(on: Draft, name: str) -> Phrase:
    term = on.protocol.scope.targets.get(name)
    return Written(term.words) if term is not None else prose_or_name(on, name)
