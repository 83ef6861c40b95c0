"""The STOP frame: every emergency, red flag, call and stop line of the protocol, by what to do."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from protodsl.handout.blocks import Block, Bullets, Item, Paragraphs, Section, Stop, StopGroup
from protodsl.handout.draft import Draft
from protodsl.handout.phrase import InWords, Literal, Phrase, Written
from protodsl.handout.titles import phase_number
from protodsl.handout.words import NOTHING, if_so, line, lines, one_after_the_other, say
from protodsl.model.condition import AnyOf, Condition
from protodsl.model.protocol import Flag, Phase
from protodsl.model.text import Prose

# In the frame no `when` stands above a sign, as it does above the signs to call for.
_IN_FRAME, _AFTER_WHEN = "stop.sign", "line"


def stop(draft: Draft) -> Section[Phrase]:
    """The frame with its groups: emergency, stop and call today, stop this exercise; below it, when to call us.

    What can wait for a call stands outside the frame, so that the frame is short enough for the first page.
    """
    clinic = draft.clinic
    after = clinic.after_hours
    hours = Written(clinic.words("contact/after-hours-text")) if after else None
    phone = Literal(after.phone) if after else None
    contact = Literal(clinic.contact.phone)
    emergencies, red_flags = draft.protocol.emergencies, draft.protocol.red_flags
    groups = (
        StopGroup(
            Written(clinic.words("emergency/text")),
            Literal(clinic.emergency.phone),
            tuple(_signs(draft, emergencies, "stop/emergency", _IN_FRAME)),
            urgent=True,
        ),
        StopGroup(
            Written(clinic.words("contact/text")),
            contact,
            tuple(_signs(draft, red_flags, "stop/red-flag", _IN_FRAME)),
            other_hours=hours,
            other_phone=phone,
        ),
        StopGroup(say("stop.exercise"), NOTHING, tuple(_stops(draft))),
    )
    frame = Stop(say("stop.word"), say("stop.head"), tuple(group for group in groups if group.lines))
    blocks: list[Block[Phrase]] = [frame] if frame.groups else []
    calls = tuple(_calls(draft))
    if calls:
        blocks += [Paragraphs((Item(say("stop.call", phone=contact), "stop/call", calls[0].origin),)), Bullets(calls)]
    return Section("stop", None, tuple(blocks))


def _calls(draft: Draft) -> Iterator[Item[Phrase]]:
    yield from _signs(draft, draft.protocol.calls, "stop/call", _AFTER_WHEN)
    for number, phase in enumerate(draft.protocol.phases, 1):
        yield from _signs(draft, phase.calls, f"stop/call/phase-{number}", _AFTER_WHEN, phase)


def _stops(draft: Draft) -> Iterator[Item[Phrase]]:
    for at, prose in enumerate(draft.protocol.stop, 1):
        yield Item(line(prose), f"stop/stop/{at}", draft.origin(prose.span))
    for number, phase in enumerate(draft.protocol.phases, 1):
        for at, prose in enumerate(phase.stop, 1):
            text = say("stop.phase", number=phase_number(draft, phase), text=Written(prose))
            yield Item(text, f"stop/stop/phase-{number}/{at}", draft.origin(prose.span))


@dataclass(frozen=True, slots=True)
class _Sign:
    """A sign by which somebody knows that a flag is up: one of its causes, or all of it; `streak` sessions in a row."""

    condition: Condition
    streak: int
    name: str
    origin: str
    key: str


def _signs(
    draft: Draft, flags: tuple[Flag, ...], name: str, key: str, phase: Phase | None = None
) -> Iterator[Item[Phrase]]:
    """A line for each sign; signs upon which the same is to be done stand together, and after them what to do, once."""
    groups: dict[tuple[str, ...], list[_Sign]] = {}
    for at, flag in enumerate(flags, 1):
        told = tuple(prose.text for prose in flag.lines)
        groups.setdefault(told or ("", str(at)), []).extend(_causes(draft, flag, f"{name}/{at}", key))
    first_of = {tuple(prose.text for prose in flag.lines): flag.lines for flag in reversed(flags)}
    for told, signs in groups.items():
        words = first_of.get(told, ())
        if not words:
            yield from (_item(draft, sign, phase) for sign in signs)
        elif len(signs) == 1:
            yield _item(draft, signs[0], phase, words)
        else:
            told_then = Item(say("stop.any.then", text=lines(words)), f"{signs[0].name}/told", signs[0].origin)
            under = (*(_item(draft, sign, phase) for sign in signs), told_then)
            yield Item(say("stop.any"), f"{signs[0].name}/any", signs[0].origin, under)


def _causes(draft: Draft, flag: Flag, name: str, key: str) -> Iterator[_Sign]:
    """The signs of a flag; several causes stay together where they are counted over sessions."""
    parts = branches(flag.condition) if flag.streak == 1 else (flag.condition,)
    for at, part in enumerate(parts, 1):
        own = name if len(parts) == 1 else f"{name}/{at}"
        yield _Sign(part, flag.streak, own, draft.origin(flag.span), key)


def _item(draft: Draft, sign: _Sign, phase: Phase | None, words: tuple[Prose, ...] = ()) -> Item[Phrase]:
    text: Phrase = if_so(sign.condition, sign.streak, key=sign.key)
    if phase is not None:
        clause = InWords(sign.condition, sign.streak)
        text = say("stop.phase", number=phase_number(draft, phase), text=clause)
    if words:
        text = one_after_the_other(text, lines(words))
    return Item(text, sign.name, sign.origin)


def branches(condition: Condition) -> tuple[Condition, ...]:
    """The conditions of which any one is enough."""
    if isinstance(condition, AnyOf):
        return tuple(part for one in condition.of for part in branches(one))
    return (condition,)
