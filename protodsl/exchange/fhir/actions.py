"""The actions of a plan definition: danger signs first, then phases, what each gives, and how one moves between them.

An action that is given on a condition has it as `applicability`; conditions of one kind hold together. A move is an
action of its own, with its condition and a pointer to where it leads. What an exercise is left out for turns its
`applicability` round, and what is done instead is an action beside it.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from protodsl.exchange.fhir.conditions import condition
from protodsl.exchange.fhir.gives import contents
from protodsl.exchange.fhir.release import Json, Release
from protodsl.exchange.fhir.resources import text_of
from protodsl.exchange.fhir.sites import Site, documented
from protodsl.exchange.speech import Speech
from protodsl.handout.draft import Draft
from protodsl.handout.limits import bearing, forbidden, limited
from protodsl.handout.phrase import Literal, Phrase, Written
from protodsl.handout.words import if_so, line, lines, say
from protodsl.model.condition import AnyOf, Condition
from protodsl.model.exercise import Caution
from protodsl.model.protocol import Flag, Phase, Protocol
from protodsl.model.text import Prose

_SIGNS, _PROGRAMME = "signs", "programme"


def actions(on: Draft, speech: Speech, release: Release) -> list[Json]:
    """The actions at the top: the signs to stop for, then the programme, which no sign may stand against."""
    site = Site(on, speech, release)
    protocol = on.protocol
    signs = list(_signs(site, protocol))
    programme: Json = {"title": speech.words(Written(protocol.title))}
    danger = [flag.condition for flag in (*protocol.emergencies, *protocol.red_flags)]
    if danger:
        programme["condition"] = [condition(speech, _any(danger), negated=True)]
    if signs:
        programme["relatedAction"] = [release.related(_SIGNS, "after")]
    inner = [*_cautions(site, "caution", protocol.cautions), *contents(site, "give", protocol.contents, None)]
    inner += [action for at, phase in enumerate(protocol.phases, 1) for action in _phase(site, at, phase)]
    whole = release.numbered(_PROGRAMME, {**programme, "action": inner} if inner else programme)
    if not signs:
        return [whole]
    head = speech.words(say("stop.word")) + " " + speech.words(say("stop.head"))
    return [release.numbered(_SIGNS, {"title": head, "action": signs}), whole]


def _any(danger: Sequence[Condition]) -> Condition:
    return danger[0] if len(danger) == 1 else AnyOf(tuple(danger))


def _signs(site: Site, protocol: Protocol) -> Iterator[Json]:
    clinic = site.on.clinic
    words = site.speech.words
    now = f"{words(Written(clinic.words('emergency/text')))}: {clinic.emergency.phone}"
    today = f"{words(Written(clinic.words('contact/text')))}: {clinic.contact.phone}"
    call = words(say("stop.call", phone=Literal(clinic.contact.phone)))
    for kind, flags, priority, told in (
        ("emergency", protocol.emergencies, "stat", now),
        ("red-flag", protocol.red_flags, "urgent", today),
        ("call", protocol.calls, "routine", call),
    ):
        yield from (_flag(site, f"{kind}-{at}", flag, priority, told) for at, flag in enumerate(flags, 1))
    yield from _stops(site, "stop", protocol.stop)


def _flag(site: Site, name: str, flag: Flag, priority: str, told: str) -> Json:
    words = site.speech.words
    said = " ".join((told, words(lines(flag.lines)) if flag.lines else "")).strip()
    action: Json = {
        "title": words(if_so(flag.condition, flag.streak)),
        "textEquivalent": said,
        "priority": priority,
        **documented(site, flag.span),
        "condition": [condition(site.speech, flag.condition, flag.streak)],
    }
    return site.release.numbered(name, action)


def _stops(site: Site, name: str, stops: tuple[Prose, ...]) -> Iterator[Json]:
    head = site.speech.words(say("stop.exercise"))
    for at, prose in enumerate(stops, 1):
        text = site.speech.words(line(prose))
        action = {"title": head, "textEquivalent": text, **documented(site, prose.span)}
        yield site.release.numbered(f"{name}-{at}", action)


def _cautions(site: Site, name: str, cautions: tuple[Caution, ...]) -> Iterator[Json]:
    yield from (site.caution(f"{name}-{at}", one) for at, one in enumerate(cautions, 1))


def _phase(site: Site, number: int, phase: Phase) -> Iterator[Json]:
    """A phase, behind the one before it."""
    name = _phase_name(number)
    words = site.speech.words
    call = words(say("stop.call", phone=Literal(site.on.clinic.contact.phone)))
    inner = [_flag(site, f"{name}-call-{at}", one, "routine", call) for at, one in enumerate(phase.calls, 1)]
    inner += _stops(site, f"{name}-stop", phase.stop)
    inner += _cautions(site, f"{name}-caution", phase.cautions)
    inner += contents(site, f"{name}-give", phase.contents, phase)
    inner += _moves(site, number, phase)
    action: Json = {"title": words(Written(phase.title))}
    told = text_of(allowed(site.speech, phase))
    if told:
        action["description"] = told
    action |= documented(site, phase.span)
    if number > 1:
        action["relatedAction"] = [site.release.related(_phase_name(number - 1), "after")]
    if inner:
        action["action"] = inner
    yield site.release.numbered(name, action)


def allowed(speech: Speech, of: Protocol | Phase) -> tuple[str, ...]:
    """What one may do, what not yet and, in a phase, how far one may go: each line under its head."""
    said: dict[str, list[Phrase]] = {"daily.may": [line(one) for one in of.may]}
    said["daily.not-yet"] = [line(one) for one in of.not_yet]
    if isinstance(of, Phase):
        said["plan.limit"] = [limited(one) for one in of.limits]
        said["plan.forbid"] = [forbidden(one) for one in of.forbids]
        said["plan.bearing"] = [bearing(of.bearing)] if of.bearing is not None else []
    words = speech.words
    return tuple(f"{words(say(key))}: {' '.join(map(words, told))}" for key, told in said.items() if told)


def _moves(site: Site, number: int, phase: Phase) -> Iterator[Json]:
    """On to the next phase, all lines of `until` together; back to an earlier one, each line by itself."""
    words = site.speech.words
    if phase.until:
        yield site.release.numbered(f"{_phase_name(number)}-until", _on(site, number, phase))
    names = [one.name for one in site.on.protocol.phases]
    for at, back in enumerate(phase.back_to, 1):
        target = names.index(back.phase) + 1
        action: Json = {"title": words(Written(site.on.protocol.phases[target - 1].title))}
        if back.lines:
            action["textEquivalent"] = words(lines(back.lines))
        action |= {**documented(site, back.span), "condition": [condition(site.speech, back.condition, back.streak)]}
        action["relatedAction"] = [site.release.related(_phase_name(target), "before-start")]
        yield site.release.numbered(f"{_phase_name(number)}-back-{at}", action)


def _on(site: Site, number: int, phase: Phase) -> Json:
    """To the next phase; behind the last one, to the end."""
    phases = site.on.protocol.phases
    last = number == len(phases)
    title = say("person.part.end") if last else Written(phases[number].title)
    documents = [one for until in phase.until for one in documented(site, until.span).get("documentation", [])]
    action: Json = {"title": site.speech.words(title)}
    if documents:
        action["documentation"] = documents
    action["condition"] = [condition(site.speech, one.condition, one.streak) for one in phase.until]
    if not last:
        action["relatedAction"] = [site.release.related(_phase_name(number + 1), "before-start")]
    return action


def _phase_name(number: int) -> str:
    return f"phase-{number}"
