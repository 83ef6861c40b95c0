"""The STOP frame: every emergency, red flag, call and stop line of the protocol, by what to do."""

from __future__ import annotations

from collections.abc import Iterator

from protodsl.handout.blocks import Item, Section, Stop, StopGroup
from protodsl.handout.draft import Draft
from protodsl.handout.phrase import InWords, Literal, Phrase, Written
from protodsl.handout.titles import phase_number
from protodsl.handout.words import NOTHING, if_so, line, lines, one_after_the_other, say
from protodsl.model.condition import AnyOf, Condition
from protodsl.model.protocol import Flag, Phase


def stop(draft: Draft) -> Section[Phrase]:
    """The frame with its groups: emergency, stop and call today, stop this exercise, tell us."""
    clinic = draft.clinic
    after = clinic.after_hours
    hours = Literal(after.text) if after else None
    phone = Literal(after.phone) if after else None
    contact = Literal(clinic.contact.phone)
    groups = (
        StopGroup(Literal(clinic.emergency.text), Literal(clinic.emergency.phone), _emergencies(draft), urgent=True),
        StopGroup(Literal(clinic.contact.text), contact, _red_flags(draft), other_hours=hours, other_phone=phone),
        StopGroup(say("stop.exercise"), NOTHING, tuple(_stops(draft))),
        StopGroup(say("stop.call"), contact, tuple(_calls(draft))),
    )
    frame = Stop(say("stop.word"), say("stop.head"), tuple(group for group in groups if group.lines))
    return Section("stop", None, (frame,))


def _emergencies(draft: Draft) -> tuple[Item[Phrase], ...]:
    flags = draft.protocol.emergencies
    return tuple(item for at, flag in enumerate(flags, 1) for item in _flag(draft, flag, f"stop/emergency/{at}"))


def _red_flags(draft: Draft) -> tuple[Item[Phrase], ...]:
    flags = draft.protocol.red_flags
    return tuple(item for at, flag in enumerate(flags, 1) for item in _flag(draft, flag, f"stop/red-flag/{at}"))


def _calls(draft: Draft) -> Iterator[Item[Phrase]]:
    for at, flag in enumerate(draft.protocol.calls, 1):
        yield from _flag(draft, flag, f"stop/call/{at}")
    for number, phase in enumerate(draft.protocol.phases, 1):
        for at, flag in enumerate(phase.calls, 1):
            yield from _flag(draft, flag, f"stop/call/phase-{number}/{at}", phase)


def _stops(draft: Draft) -> Iterator[Item[Phrase]]:
    for at, prose in enumerate(draft.protocol.stop, 1):
        yield Item(line(prose), f"stop/stop/{at}", draft.origin(prose.span))
    for number, phase in enumerate(draft.protocol.phases, 1):
        for at, prose in enumerate(phase.stop, 1):
            text = say("stop.phase", number=phase_number(draft, phase), text=Written(prose))
            yield Item(text, f"stop/stop/phase-{number}/{at}", draft.origin(prose.span))


def _flag(draft: Draft, flag: Flag, name: str, phase: Phase | None = None) -> Iterator[Item[Phrase]]:
    """A flag as one sign; one of several causes, without words of its own, as a sign for each cause."""
    parts = branches(flag.condition) if not flag.lines and flag.streak == 1 else (flag.condition,)
    for at, part in enumerate(parts, 1):
        text: Phrase = if_so(part, flag.streak)
        if phase is not None:
            text = say("stop.phase", number=phase_number(draft, phase), text=InWords(part, flag.streak))
        if flag.lines:
            text = one_after_the_other(text, lines(flag.lines))
        yield Item(text, name if len(parts) == 1 else f"{name}/{at}", draft.origin(flag.span))


def branches(condition: Condition) -> tuple[Condition, ...]:
    """The conditions of which any one is enough."""
    if isinstance(condition, AnyOf):
        return tuple(part for one in condition.of for part in branches(one))
    return (condition,)
