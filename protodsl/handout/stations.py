"""The line of stations on a card: the step before, this one, the step after, with the conditions that lead there."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace

from protodsl.handout.blocks import Station, Stations
from protodsl.handout.draft import Draft
from protodsl.handout.phrase import InWords, Listed, Literal, Phrase, Written
from protodsl.handout.titles import level_title, phase_title
from protodsl.handout.words import counted, lines, number, one_after_the_other, say
from protodsl.model.exercise import Give, Level, Progression, Trigger


def stations(draft: Draft, name: str) -> tuple[Stations[Phrase], ...]:
    """A line for every step of a progression on which the exercise stands."""
    return tuple(_lines(draft, name))


def _lines(draft: Draft, name: str) -> Iterator[Stations[Phrase]]:
    steps = dict.fromkeys(
        (use.given.progression, use.given.level)
        for use in draft.uses[name]
        if use.given is not None and use.given.progression is not None
    )
    for progression_name, level_name in steps:
        progression = draft.protocol.scope.progressions[str(progression_name)]
        at = next(at for at, level in enumerate(progression.levels) if level.name == level_name)
        made = _line(draft, progression, at, f"card/{name}/line/{progression.name}/{at + 1}")
        yield replace(made, head=one_after_the_other(*_only(draft, name, progression), made.head))


def _only(draft: Draft, name: str, progression: Progression) -> Iterator[Phrase]:
    """In which parts the line holds, where the exercise is also done in others, by itself or on another line.

    Who does it there must not be led on to a step that is past the limits of the part.
    """
    uses = [use for use in draft.uses[name] if use.given is not None]
    parts = {use.phase.name: use.phase for use in uses if use.phase is not None}
    here = {
        use.phase.name: phase_title(draft, use.phase)
        for use in uses
        if use.given is not None and use.given.progression == progression.name and use.phase is not None
    }
    if here and len(here) < len(parts):
        yield say("card.only.parts", parts=Listed(tuple(here.values())))


def _line(draft: Draft, progression: Progression, at: int, name: str) -> Stations[Phrase]:
    levels, level = progression.levels, progression.levels[at]
    stops = []
    if level.down:
        stops.append(_back(draft, progression, at, name))
    stops.append(Station("now", say("stations.this"), _here(draft, level)))
    if level.up and at + 1 < len(levels):
        what = _to(draft, progression, levels[at + 1])
        stops.append(Station("next", say("stations.on"), what, _when(level.up)))
    return Stations(say("stations.head", title=Written(progression.title)), tuple(stops))


def _here(draft: Draft, level: Level) -> Phrase:
    """The step by its title, with the numbers of its exercises where it has several."""
    numbers = tuple(number(draft.numbers[give.item]) for give in level.gives if give.item in draft.numbers)
    if len(numbers) > 1:
        return say("stations.here.of", level=level_title(draft, level), numbers=Listed(numbers))
    return say("stations.here", level=level_title(draft, level))


def _to(draft: Draft, progression: Progression, level: Level) -> Phrase:
    """Another step, by the numbers of its exercises, and by its name where it has one of its own."""
    if level.label and all(_on_sheet(draft, progression, level, give) for give in level.gives):
        numbers = tuple(number(draft.numbers[give.item]) for give in level.gives)
        title = level_title(draft, level)
        return counted("stations.to.named", len(numbers), numbers=Listed(numbers), level=title)
    at = draft.numbers.get(level.gives[0].item) if len(level.gives) == 1 and not level.label else None
    return (
        say("stations.to", level=level_title(draft, level))
        if at is None
        else say("stations.to.exercise", number=number(at))
    )


def _on_sheet(draft: Draft, progression: Progression, level: Level, give: Give) -> bool:
    """Whether the sheet shows the exercise as it is done in this step, and not in another step alone."""
    return any(
        use.given is not None and (use.given.progression, use.given.level) == (progression.name, level.name)
        for use in draft.uses.get(give.item, ())
    )


def _back(draft: Draft, progression: Progression, at: int, name: str) -> Station[Phrase]:
    """The step back; at the lowest step one stays and tells the clinic, and what to do on the way down is not said."""
    level = progression.levels[at]
    origin = draft.origin(level.down[0].span)
    if at == 0:
        phone = Literal(draft.clinic.contact.phone)
        return Station("back", say("stations.stay"), phone, _when(level.down, told=False), f"{name}/down", origin)
    what = _to(draft, progression, progression.levels[at - 1])
    return Station("back", say("stations.back"), what, _when(level.down), f"{name}/down", origin)


def _when(triggers: tuple[Trigger, ...], told: bool = True) -> Phrase:
    """The condition with what is said then (`told`); of several triggers each one is enough."""
    said: list[Phrase] = []
    for at, trigger in enumerate(triggers):
        clause = InWords(trigger.condition, trigger.streak)
        said.append(say("stations.when" if at == 0 else "stations.or-when", clause=clause))
        if trigger.lines and told:
            said.append(lines(trigger.lines))
    return one_after_the_other(*said)
