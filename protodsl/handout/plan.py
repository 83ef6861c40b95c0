"""Your plan: what is done in each part of the protocol, when to move on and when to go back, and how far one may go."""

from __future__ import annotations

from collections.abc import Iterator

from protodsl.handout.blocks import Item, Row, Section
from protodsl.handout.draft import Draft
from protodsl.handout.gives import given
from protodsl.handout.limits import bearing, forbidden, limited
from protodsl.handout.minutes import minutes
from protodsl.handout.phrase import InWords, Phrase, Written
from protodsl.handout.rules import progressions, rules
from protodsl.handout.strictest import strictest
from protodsl.handout.titles import phase_title
from protodsl.handout.words import if_so, line, lines, number, one_after_the_other, say
from protodsl.model.condition import All, Condition
from protodsl.model.protocol import Phase, Until


def plan(draft: Draft) -> tuple[Section[Phrase], ...]:
    """A section for what is given at any time, then one for each phase."""
    protocol = draft.protocol
    found = []
    rows = tuple(_whole(draft))
    if rows:
        found.append(Section("plan", say("plan.head"), rows))
    for at, phase in enumerate(protocol.phases, 1):
        head = say("plan.part", number=number(at), title=Written(phase.title))
        found.append(Section(f"plan-{at}", head, tuple(_phase(draft, at, phase))))
    return tuple(found)


def _whole(draft: Draft) -> Iterator[Row[Phrase]]:
    protocol = draft.protocol
    if protocol.goals:
        yield Row(say("plan.goals"), tuple(Item(line(goal)) for goal in protocol.goals))
    if protocol.why is not None:
        yield Row(say("card.why"), (Item(line(protocol.why)),))
    if protocol.when is not None:
        yield Row(say("card.when"), (Item(line(protocol.when)),))
    if protocol.phases:
        yield Row(say("plan.parts"), (Item(say("plan.parts.how")),))
    if any(len(progression.levels) > 1 for progression in progressions(draft)):
        yield Row(say("plan.steps"), (Item(say("plan.steps.how")),))
    if any(rule.streak > 1 or rule.kind in ("up", "add") for rule in rules(draft)):
        yield Row(say("plan.count"), (Item(say("plan.count.how")),))
    yield from given(draft, protocol.contents, "plan", None)
    if not protocol.phases:
        yield from minutes(draft, None)


def _phase(draft: Draft, at: int, phase: Phase) -> Iterator[Row[Phrase]]:
    name = f"plan/phase-{at}"
    yield from given(draft, phase.contents, name, phase)
    if phase.leave_out:
        out = tuple(Item(say("plan.leave-out.one", exercise=draft.exercise(item))) for item in phase.leave_out)
        yield Row(say("plan.leave-out"), out, "out")
    yield from minutes(draft, phase)
    limits = tuple(
        Item(limited(limit), f"{name}/limit/{n}", draft.origin(limit.span))
        for n, limit in enumerate(strictest(phase.limits), 1)
    )
    if limits:
        yield Row(say("plan.limit"), limits, "out")
    forbids = tuple(
        Item(forbidden(one), f"{name}/forbid/{n}", draft.origin(one.span)) for n, one in enumerate(phase.forbids, 1)
    )
    if forbids:
        yield Row(say("plan.forbid"), forbids, "out")
    if phase.bearing is not None:
        text = bearing(phase.bearing)
        yield Row(say("plan.bearing"), (Item(text, f"{name}/bearing", draft.origin(phase.span)),), "side")
    yield from _daily(draft, name, phase)
    for advice in phase.advice:
        yield Row(Written(advice.title), tuple(Item(line(prose)) for prose in advice.lines))
    cautions = tuple(
        Item(
            one_after_the_other(if_so(caution.condition), lines(caution.lines)),
            f"{name}/caution/{n}",
            draft.origin(caution.span),
        )
        for n, caution in enumerate(phase.cautions, 1)
    )
    if cautions:
        yield Row(say("card.caution"), cautions, "change")
    yield from _moves(draft, name, at, phase)


def _daily(draft: Draft, name: str, phase: Phase) -> Iterator[Row[Phrase]]:
    if phase.may:
        yield Row(say("daily.may"), tuple(Item(line(prose)) for prose in phase.may), "feel")
    if phase.not_yet:
        items = tuple(
            Item(line(prose), f"{name}/not-yet/{n}", draft.origin(prose.span))
            for n, prose in enumerate(phase.not_yet, 1)
        )
        yield Row(say("daily.not-yet"), items, "out")


def _needed(until: Until) -> tuple[Condition, ...]:
    """The conditions that are all needed, each for a line of its own; a streak is of all of them together."""
    if isinstance(until.condition, All) and until.streak == 1:
        return until.condition.of
    return (until.condition,)


def _moves(draft: Draft, name: str, at: int, phase: Phase) -> Iterator[Row[Phrase]]:
    if phase.until:
        needed = [(until, part) for until in phase.until for part in _needed(until)]
        conditions = tuple(
            Item(if_so(part, until.streak), f"{name}/until/{n}", draft.origin(until.span))
            for n, (until, part) in enumerate(needed, 1)
        )
        last = at == len(draft.protocol.phases)
        key = "plan.until.last" if last else "plan.until"
        head = say(key if len(conditions) == 1 else f"{key}.all")
        yield Row(head, conditions, "up")
    elif at < len(draft.protocol.phases):
        yield Row(say("plan.until"), (Item(say("plan.until.us")),), "up")
    backs = []
    for n, back in enumerate(phase.back_to, 1):
        to = next((one for one in draft.protocol.phases if one.name == back.phase), phase)
        text: Phrase = say("plan.back.to", phase=phase_title(draft, to), clause=InWords(back.condition, back.streak))
        if back.lines:
            text = one_after_the_other(text, lines(back.lines))
        backs.append(Item(text, f"{name}/back/{n}", draft.origin(back.span)))
    if backs:
        yield Row(say("plan.back"), tuple(backs), "down")
