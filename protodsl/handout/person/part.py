"""The part of the plan somebody is in: what leads on to the next part, and what leads back."""

from __future__ import annotations

from protodsl.decide.plan import Plan
from protodsl.handout.blocks import Section, Station, Stations
from protodsl.handout.draft import Draft
from protodsl.handout.person.masthead import phase_number
from protodsl.handout.phrase import InWords, Phrase, Written
from protodsl.handout.words import lines, number, one_after_the_other, say
from protodsl.model.protocol import BackTo, Phase, Until


def part(plan: Plan, on: Draft) -> Section[Phrase] | None:
    """The line of parts; none where the protocol has one part or none."""
    phase, phases = plan.phase, plan.protocol.phases
    if phase is None or len(phases) < 2:
        return None
    stops = [_back(plan, on, back, at) for at, back in enumerate(phase.back_to, 1)]
    stops.append(Station("now", say("stations.now"), _title(plan, "person.part.now", phase)))
    at = phase_number(plan)
    if at < len(phases):
        what = _title(plan, "person.part.to", phases[at])
        when = _when(phase.until) if phase.until else say("plan.until.us")
        stops.append(Station("next", say("stations.on"), what, when))
    elif phase.until:
        stops.append(Station("next", say("person.part.end"), say("person.part.end.what"), _when(phase.until)))
    return Section("part", say("person.part.head"), (Stations(say("person.part.line"), tuple(stops)),), whole=True)


def _title(plan: Plan, key: str, phase: Phase) -> Phrase:
    return say(key, number=number(phase_number(plan, phase.name)), title=Written(phase.title))


def _back(plan: Plan, on: Draft, back: BackTo, at: int) -> Station[Phrase]:
    to = next((one for one in plan.protocol.phases if one.name == back.phase), plan.protocol.phases[0])
    when: Phrase = say("stations.when", clause=InWords(back.condition, back.streak))
    if back.lines:
        when = one_after_the_other(when, lines(back.lines))
    what = _title(plan, "person.part.back", to)
    return Station("back", say("stations.back"), what, when, f"part/back/{at}", on.origin(back.span))


def _when(until: tuple[Until, ...]) -> Phrase:
    """Every line of them is needed."""
    said = [
        say("person.and-when" if at else "stations.when", clause=InWords(one.condition, one.streak))
        for at, one in enumerate(until)
    ]
    return one_after_the_other(*said)
