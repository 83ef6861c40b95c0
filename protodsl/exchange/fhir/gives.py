"""What is given, as actions: exercises with their doses, progressions with their levels, parts and choices."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence

from protodsl.exchange.fhir.conditions import START, condition
from protodsl.exchange.fhir.dose import extension
from protodsl.exchange.fhir.release import Json
from protodsl.exchange.fhir.resources import canonical, protocol_id
from protodsl.exchange.fhir.sites import Site, documented
from protodsl.exchange.fhir.timing import defined
from protodsl.exchange.measures import measures
from protodsl.handout.dosage import Stretch, stretches
from protodsl.handout.phrase import DoseInWords, InWords, Measure, Written
from protodsl.handout.titles import level_title
from protodsl.handout.words import counted, lines, number, say
from protodsl.model.dose import Dosage
from protodsl.model.exercise import Exercise, Give, Level, Progression
from protodsl.model.protocol import Choose, Content, Part, Phase
from protodsl.units import Quantity

# A choice of one, and a choice of several: FHIR has no number of options to take, so the words say it.
_ONE, _SEVERAL = "exactly-one", "any"


def contents(site: Site, name: str, given: Iterable[Content], phase: Phase | None) -> Iterator[Json]:
    """The gives of a protocol or a phase; what either leaves out is not there."""
    out = {*site.on.protocol.leave_out, *(phase.leave_out if phase else ())}
    for at, one in enumerate(given, 1):
        mine = f"{name}-{at}"
        if isinstance(one, Part):
            inner = list(contents(site, mine, one.contents, phase))
            if inner:
                yield site.release.numbered(mine, {"title": site.speech.words(Written(one.title)), "action": inner})
        elif isinstance(one, Choose):
            left = [give for give in one.gives if give.item not in out]
            yield from _choose(site, mine, one, left, phase)
        elif one.item not in out:
            yield from _give(site, mine, one, phase)


def _choose(site: Site, name: str, one: Choose, gives: Sequence[Give], phase: Phase | None) -> Iterator[Json]:
    inner = [action for at, give in enumerate(gives, 1) for action in _give(site, f"{name}-{at}", give, phase)]
    if inner:
        action: Json = {
            "title": site.speech.words(counted("plan.choose", one.count)),
            "groupingBehavior": "logical-group",
            "selectionBehavior": _ONE if one.count == 1 else _SEVERAL,
            "action": inner,
        }
        yield site.release.numbered(name, action)


def _give(site: Site, name: str, give: Give, phase: Phase | None) -> Iterator[Json]:
    """An exercise, or a progression with one level at a time."""
    protocol = site.on.protocol
    scope = protocol.scope
    outer = (phase.dosage, protocol.dosage) if phase else (protocol.dosage,)
    progression = scope.progressions.get(give.item)
    if progression is not None:
        yield _progression(site, name, give, progression, outer)
    elif give.item in scope.exercises:
        exercise = scope.exercises[give.item]
        yield from _exercise(site, name, give, exercise, (give.dosage, exercise.dosage, *outer))


def _progression(
    site: Site, name: str, give: Give, progression: Progression, outer: tuple[Dosage, ...]
) -> Json:
    levels = [
        _level(site, f"{name}-{at}", f"{name}-", at, give, progression, outer)
        for at in range(1, len(progression.levels) + 1)
    ]
    action: Json = {
        "title": site.speech.words(Written(progression.title)),
        **documented(site, give.span),
        **_conditions(_if(site, give)),
        "groupingBehavior": "logical-group",
        "selectionBehavior": _ONE,
        "action": levels,
    }
    return site.release.numbered(name, action)


def _level(
    site: Site, name: str, before: str, at: int, give: Give, progression: Progression, outer: tuple[Dosage, ...]
) -> Json:
    """A level: what it gives, and how one moves on and back; one may start at it on its own condition."""
    level = progression.levels[at - 1]
    scope = site.on.protocol.scope
    inner: list[Json] = []
    for number_of, one in enumerate(level.gives, 1):
        exercise = scope.exercises.get(one.item)
        if exercise is not None:
            layers = (one.dosage, level.dosage, give.dosage, progression.dosage, exercise.dosage, *outer)
            inner += _exercise(site, f"{name}-{number_of}", one, exercise, layers)
    inner += _moves(site, name, before, at, progression)
    starts = [one for one in progression.start_at if one.level == level.name]
    action: Json = {
        "title": site.speech.words(level_title(site.on, level)),
        **documented(site, level.span),
        **_conditions([condition(site.speech, one.condition, kind=START) for one in starts]),
        "action": inner,
    }
    return site.release.numbered(name, {key: one for key, one in action.items() if one})


def _moves(site: Site, name: str, before: str, at: int, progression: Progression) -> Iterator[Json]:
    level = progression.levels[at - 1]
    for way, triggers, to in (("up", level.up, at + 1), ("down", level.down, at - 1)):
        for nth, trigger in enumerate(triggers, 1):
            there = 1 <= to <= len(progression.levels)
            target: Level = progression.levels[to - 1] if there else level
            action: Json = {"title": site.speech.words(level_title(site.on, target))}
            if trigger.lines:
                action["textEquivalent"] = site.speech.words(lines(trigger.lines))
            action |= documented(site, trigger.span)
            action |= _conditions([condition(site.speech, trigger.condition, trigger.streak)])
            if there:
                action["relatedAction"] = [site.release.related(f"{before}{to}", "before-start")]
            yield site.release.numbered(f"{name}-{way}-{nth}", action)


def _exercise(
    site: Site, name: str, give: Give, exercise: Exercise, layers: tuple[Dosage, ...]
) -> Iterator[Json]:
    """An exercise and, beside it, what is done instead where it is to be left out."""
    given = _if(site, give)
    yield _one(site, name, exercise, given, layers, give)
    yield from _instead(site, name, exercise, given, layers, (exercise.name,))


def _instead(
    site: Site, name: str, exercise: Exercise, given: list[Json], layers: tuple[Dosage, ...], way: tuple[str, ...]
) -> Iterator[Json]:
    """The exercises that stand in, transitively; one that stands in has its own dose, not that of the level."""
    protocol = site.on.protocol
    before: list[Json] = []
    for at, avoid in enumerate(exercise.avoid, 1):
        other = protocol.scope.exercises.get(avoid.instead or "")
        if other is None or other.name in way or other.name not in site.on.numbers:
            continue
        mine = f"{name}-instead-{at}"
        left_out = [*given, condition(site.speech, avoid.condition), *before]
        # Of two reasons at once the first says what is done instead.
        before.append(condition(site.speech, avoid.condition, negated=True))
        own = (other.dosage, *layers[layers.index(exercise.dosage) + 1 :])
        yield _one(site, mine, other, left_out, own, None)
        yield from _instead(site, mine, other, left_out, own, (*way, other.name))


def _one(
    site: Site, name: str, exercise: Exercise, given: list[Json], layers: tuple[Dosage, ...], give: Give | None
) -> Json:
    speech, protocol = site.speech, site.on.protocol
    activity = canonical(protocol_id(speech, protocol, "exercise", exercise.name), protocol.version)
    avoided = [condition(speech, one.condition, negated=True) for one in exercise.avoid]
    inner = [site.caution(f"{name}-caution-{at}", one) for at, one in enumerate(exercise.caution, 1)]
    inner += _steps(site, name, layers)
    weeks = stretches(layers)
    action: Json = {"title": speech.words(Written(exercise.title))}
    if len(weeks) == 1:
        action = {**_dosed(site, weeks[0]), **action}
    else:
        inner += [_weeks(site, f"{name}-weeks-{one.first}", one) for one in weeks]
    action |= documented(site, give.span if give else exercise.span)
    action |= {**_conditions([*given, *avoided]), "definitionCanonical": activity}
    if inner:
        action["action"] = inner
    return site.release.numbered(name, action)


def _dosed(site: Site, weeks: Stretch) -> Json:
    """The dose in words, as timing and as measures."""
    said = site.speech.words(DoseInWords(weeks.dose))
    timing = defined(weeks, site.speech)
    words = {"textEquivalent": said} if said else {}
    return {**extension(measures(weeks.dose)), **words, **({"timingTiming": timing} if timing else {})}


def _weeks(site: Site, name: str, weeks: Stretch) -> Json:
    first = number(weeks.first)
    if weeks.last is None:
        title = say("dose.weeks.on", first=first)
    elif weeks.last == weeks.first:
        title = say("dose.week", first=first)
    else:
        title = say("dose.weeks", first=first, last=number(weeks.last))
    return site.release.numbered(name, {**_dosed(site, weeks), "title": site.speech.words(say("name", name=title))})


def _steps(site: Site, name: str, layers: tuple[Dosage, ...]) -> Iterator[Json]:
    """A step of load, repetitions or time, of the strongest layer that has any."""
    for at, step in enumerate(next((layer.steps for layer in layers if layer.steps), ()), 1):
        key = "steps.add" if step.change.value >= 0 else "steps.less"
        change = Measure(Quantity(abs(step.change.value), step.change.unit))
        words = site.speech.words(say(key, change=change, clause=InWords(step.condition, step.streak)))
        if step.bound is not None:
            words += " " + site.speech.words(say(f"{key}.bound", bound=Measure(step.bound)))
        action = {"title": words, **documented(site, step.span)}
        action |= _conditions([condition(site.speech, step.condition, step.streak)])
        yield site.release.numbered(f"{name}-step-{at}", action)


def _if(site: Site, give: Give) -> list[Json]:
    return [condition(site.speech, give.condition, negated=give.unless)] if give.condition is not None else []


def _conditions(found: list[Json]) -> Json:
    return {"condition": found} if found else {}
