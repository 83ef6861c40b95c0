"""Why something is printed, replaced or left out: every step in words, with its line and the values that decided."""

from __future__ import annotations

from collections.abc import Iterable

from protodsl.decide.plan import NotGiven, Plan, PlannedItem, Reason
from protodsl.decide.truth import Truth
from protodsl.handout.blocks import Cell, Section, Table
from protodsl.handout.draft import Draft
from protodsl.handout.person.evidence import all_known, prose_or_name
from protodsl.handout.phrase import Day, Listed, Phrase, Written
from protodsl.handout.places import places
from protodsl.handout.words import number, one_after_the_other, say
from protodsl.source import NOWHERE

# Every kind of reason, each with a message `case.reason.KIND`.
KINDS = (
    *("give", "added", "start", "level", "place", "held", "choice", "avoid", "needs", "leave out", "personal"),
    *("forbid", "limit", "bearing", "load limit", "table ended", "dose ended", "condition"),
)
# How something came to be offered: told of what is on the sheet, not again of what is kept from it.
_OFFERED = frozenset(("give", "added", "start", "level", "place", "held", "choice"))
_WIDTHS = (26, 24, 50)


def left_out(plan: Plan, on: Draft) -> Section[Phrase] | None:
    """What is not on the sheet as the protocol asks for it, what stands in for it, and why."""
    if plan.refused or not plan.not_given:
        return None
    rows = tuple(_missing(on, one) for one in plan.not_given)
    heads = (say("case.out.asked"), say("case.out.now"), say("case.out.why"))
    return Section("left-out", say("case.out.head"), (Table(None, heads, rows, kind="rules", widths=_WIDTHS),))


def printed(plan: Plan, on: Draft) -> Section[Phrase] | None:
    """What is on the sheet, and the steps that led to it."""
    if not plan.items:
        return None
    rows = tuple(_there(on, item) for item in plan.items)
    heads = (say("case.on.exercise"), say("case.on.since"), say("case.out.why"))
    return Section("printed", say("case.on.head"), (Table(None, heads, rows, kind="rules", widths=_WIDTHS),))


def reason(on: Draft, one: Reason) -> Phrase:
    """One step: what the line does, how sure it is, the values, why it was written, and where it stands."""
    key = f"case.reason.{one.kind.replace(' ', '-')}"
    if one.kind == "choice" and one.truth is Truth.NO:
        key = "case.reason.choice.other"
    said: list[Phrase] = [say(key, name=prose_or_name(on, one.name))]
    if one.truth is Truth.UNKNOWN and one.unknown:
        cautious = "case.unknown.cautious" if one.kind == "avoid" else "case.unknown"
        said.append(say(cautious, known=all_known(on, one.unknown)))
    if one.deciding:
        said.append(say("case.deciding", known=all_known(on, one.deciding)))
    if one.because is not None:
        said.append(say("card.because", reason=Written(one.because)))
    if one.span != NOWHERE:
        said.append(say("case.at", lines=places(on, (one.span,))))
    return one_after_the_other(*said)


def _reasons(on: Draft, several: Iterable[Reason]) -> Phrase:
    """Each reason once."""
    found = tuple(reason(on, one) for one in dict.fromkeys(several))
    return one_after_the_other(*found) if found else say("dose.none")


def _missing(on: Draft, one: NotGiven) -> tuple[Cell[Phrase], ...]:
    said: list[Phrase] = [say("line", text=prose_or_name(on, one.asked))]
    if one.item not in ("", one.asked):
        said.append(say("case.out.of", item=prose_or_name(on, one.item)))
    if one.replacement is None:
        now = [say("case.out.nothing")]
    else:
        now = [say("line", text=prose_or_name(on, one.replacement))]
    if one.uncovered:
        targets = Listed(tuple(prose_or_name(on, name) for name in one.uncovered), by="comma")
        now.append(say("case.out.uncovered", targets=targets))
    return (
        Cell(one_after_the_other(*said)),
        Cell(one_after_the_other(*now)),
        Cell(_reasons(on, [reason for reason in one.reasons if not _offered(reason)] or one.reasons)),
    )


def _offered(one: Reason) -> bool:
    return one.kind in _OFFERED and one.truth in (None, Truth.YES)


def _there(on: Draft, item: PlannedItem) -> tuple[Cell[Phrase], ...]:
    at = number(on.numbers[item.exercise.name])
    name = say("chains.detail", number=at, dose=Written(item.exercise.title))
    since = say("case.on.week", date=Day(item.since), week=number(item.week))
    return Cell(name), Cell(since), Cell(_reasons(on, item.reasons))
