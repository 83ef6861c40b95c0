"""The referral page: what is so that must be seen first, what to do and whom to call; no exercise, nothing else."""

from __future__ import annotations

from protodsl.decide.plan import REFER, FlagState, Plan
from protodsl.decide.truth import YES
from protodsl.handout.blocks import Handout, Item, Masthead, Section, Stop, StopGroup
from protodsl.handout.draft import Draft
from protodsl.handout.options import Options
from protodsl.handout.person.dates import dated
from protodsl.handout.person.masthead import footer
from protodsl.handout.person.voice import spoken
from protodsl.handout.phrase import Literal, Phrase, Written
from protodsl.handout.words import if_so, lines, one_after_the_other, say
from protodsl.model.clinic import Clinic


def compose_referral(plan: Plan, clinic: Clinic, options: Options) -> Handout[Phrase] | None:
    """The page where an emergency or a red flag is yes; None where none is."""
    if plan.refused != REFER:
        return None
    on = Draft(plan.protocol, clinic, options, {}, {})
    title = say("person.referral.title")
    about = (say("person.name", case=Literal(plan.case.id)), say("person.referral.date", date=dated(plan.as_of)))
    masthead = Masthead(Literal(clinic.name), Literal(clinic.address), title, about)
    page = Handout("referral", title, masthead, (_stop(plan, on),), footer(plan, on, titled=False), options.digest)
    return spoken(page, plan.side.worse)


def _stop(plan: Plan, on: Draft) -> Section[Phrase]:
    """The black frame with the flags that are yes, under what to do."""
    clinic = on.clinic
    after = clinic.after_hours
    groups = (
        StopGroup(
            Written(clinic.words("emergency/text")),
            Literal(clinic.emergency.phone),
            _signs(on, plan.emergencies, "referral/emergency"),
            urgent=True,
        ),
        StopGroup(
            Written(clinic.words("contact/text")),
            Literal(clinic.contact.phone),
            _signs(on, plan.red_flags, "referral/red-flag"),
            other_hours=Written(clinic.words("contact/after-hours-text")) if after else None,
            other_phone=Literal(after.phone) if after else None,
        ),
    )
    frame = Stop(say("stop.word"), say("person.referral.head"), tuple(group for group in groups if group.lines))
    return Section("stop", None, (frame,))


def _signs(on: Draft, flags: tuple[FlagState, ...], name: str) -> tuple[Item[Phrase], ...]:
    found = []
    for at, state in enumerate(flags, 1):
        if state.truth is YES:
            text: Phrase = if_so(state.flag.condition, state.flag.streak, key="person.referral.sign")
            if state.flag.lines:
                text = one_after_the_other(text, lines(state.flag.lines))
            found.append(Item(text, f"{name}/{at}", on.origin(state.flag.span)))
    return tuple(found)
