"""What a protocol offers in a phase: each give with the section and the choice it stands in, in sheet order."""

from __future__ import annotations

import datetime
from collections.abc import Iterable, Iterator
from dataclasses import dataclass

from protodsl.decide.context import Context
from protodsl.decide.evaluate import Verdict
from protodsl.decide.truth import NO, YES, Truth, negation
from protodsl.model.case import Case
from protodsl.model.exercise import Give
from protodsl.model.protocol import Choose, Content, Part, Phase, Protocol
from protodsl.model.text import Prose


@dataclass(frozen=True, slots=True)
class Offer:
    """A give as it stands; `because` is set for what is given to this person alone."""

    give: Give
    part: Prose | None = None
    choice: Choose | None = None
    because: Prose | None = None


@dataclass(frozen=True, slots=True)
class Given:
    """An offer on one date: whether it is given, and what decided.

    `options` is how many there are to choose from where the person has not chosen yet (0: nothing to choose);
    `passed_over` says that it could be had and another was chosen.
    """

    offer: Offer
    truth: Truth
    verdict: Verdict
    options: int = 0
    personal: bool = False
    passed_over: bool = False


def offers(protocol: Protocol, phase: Phase | None, case: Case, day: datetime.date) -> tuple[Offer, ...]:
    """The protocol's own gives, the phase's, then what is given to this person."""
    found = list(_offers(protocol.contents, None))
    if phase is not None:
        found += _offers(phase.contents, None)
    added = [one for one in case.added if in_force(one.date, one.until, day)]
    added.sort(key=lambda one: (one.date, one.give.item, repr(one)))  # the order of lines on one date has no say
    found += [Offer(one.give, because=one.because) for one in added]
    return tuple(found)


def in_force(start: datetime.date, until: datetime.date | None, day: datetime.date) -> bool:
    """Whether a personal change holds on a date; its last date is still in it."""
    return start <= day and (until is None or day <= until)


def barred(protocol: Protocol, phase: Phase | None, case: Case, day: datetime.date) -> frozenset[str]:
    """What is left out on a date, by the protocol, its phase or for this person: on every way, as an `instead` too."""
    personal = [one.item for one in case.left_out if in_force(one.date, one.until, day)]
    return frozenset((*protocol.leave_out, *(phase.leave_out if phase else ()), *personal))


def given(offered: Iterable[Offer], out: frozenset[str], context: Context) -> tuple[Given, ...]:
    """Every offer as it stands on this date."""
    found = [_given(one, out, context) for one in offered]
    return tuple(_chosen(found, context))


def _offers(contents: Iterable[Content], part: Prose | None) -> Iterator[Offer]:
    for one in contents:
        if isinstance(one, Give):
            yield Offer(one, part)
        elif isinstance(one, Choose):
            for give in one.gives:
                yield Offer(give, part, one)
        else:
            assert isinstance(one, Part)
            yield from _offers(one.contents, one.title)


def _given(offer: Offer, out: frozenset[str], context: Context) -> Given:
    if offer.give.item in out:
        return Given(offer, NO, Verdict(NO), personal=True)
    verdict = holds(offer.give, context)
    return Given(offer, verdict.truth, verdict)


def holds(give: Give, context: Context) -> Verdict:
    """Whether a give is given now: only a clear yes gives, with `unless` only a clear no."""
    if give.condition is None:
        return Verdict(YES)
    if give.unless:
        found = context.outside(give.condition, YES)
        return Verdict(negation(found.truth), found.deciding, found.unknown)
    return context.outside(give.condition, NO)


def _chosen(found: list[Given], context: Context) -> Iterator[Given]:
    """Of a choice only what was chosen last; all of it where the person has not chosen as many yet."""
    for one in found:
        choice = one.offer.choice
        if choice is None or one.truth is not YES:
            yield one
            continue
        open_ = [each for each in found if each.offer.choice is choice and each.truth is YES]
        picked = _picked(choice, {each.offer.give.item for each in open_}, context)
        if len(picked) >= min(choice.count, len(open_)):
            yield one if one.offer.give.item in picked else Given(one.offer, NO, Verdict(NO), passed_over=True)
        else:
            yield Given(one.offer, one.truth, one.verdict, len(open_))


def _picked(choice: Choose, items: set[str], context: Context) -> frozenset[str]:
    """The items chosen last that can be had, as many as the choice takes."""
    picked: list[str] = []
    dates = [one for one in context.case.chosen if one.date <= context.date and one.item in items]
    for one in sorted(dates, key=lambda one: (-one.date.toordinal(), one.item)):
        if one.item not in picked and len(picked) < choice.count:
            picked.append(one.item)
    return frozenset(picked)
