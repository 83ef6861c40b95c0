"""The lines of progress: every progression as a chain, with its conditions marked i, ii, iii and put in words below."""

from __future__ import annotations

from protodsl.handout.blocks import Bullets, Chain, ChainStop, Item, Section
from protodsl.handout.draft import Draft
from protodsl.handout.joint_loads import joint_loads
from protodsl.handout.phrase import DoseInWords, InWords, Listed, Literal, Phrase, Written
from protodsl.handout.places import places
from protodsl.handout.rules import progressions
from protodsl.handout.titles import level_title
from protodsl.handout.words import NOTHING, number, say
from protodsl.model.condition import Condition
from protodsl.model.dose import NO_DOSE
from protodsl.model.dosing import dose_of
from protodsl.model.exercise import Level, Progression, Trigger

_ROMAN = ((10, "x"), (9, "ix"), (5, "v"), (4, "iv"), (1, "i"))


def chains(draft: Draft) -> Section[Phrase] | None:
    """A chain for each progression, a condition that stands twice with one mark; then the loads that are claimed."""
    found = progressions(draft)
    if not found:
        return None
    marks: dict[tuple[Condition, int], list[Trigger]] = {}
    drawn = tuple(_chain(draft, progression, marks) for progression in found)
    words: tuple[Item[Phrase], ...] = tuple(
        _words(draft, at, triggers) for at, triggers in enumerate(marks.values(), 1)
    )
    return Section("chains", say("chains.head"), (*drawn, *((Bullets(words),) if words else ()), *joint_loads(draft)))


def roman(value: int) -> str:
    """A number from 1 to 39 in small Roman numerals."""
    text = ""
    for worth, letters in _ROMAN:
        while value >= worth:
            text, value = text + letters, value - worth
    return text


def _chain(draft: Draft, progression: Progression, marks: dict[tuple[Condition, int], list[Trigger]]) -> Chain[Phrase]:
    stops = tuple(
        ChainStop(
            say("name", name=level_title(draft, level)),
            _detail(draft, progression, level),
            _marks(level.up, marks),
            _marks(level.down, marks),
        )
        for level in progression.levels
    )
    names = Listed(tuple(level_title(draft, level) for level in progression.levels), by="comma")
    alternative = say("chains.alternative", title=Written(progression.title), levels=names)
    return Chain(say("name", name=Written(progression.title)), stops, alternative)


def _detail(draft: Draft, progression: Progression, level: Level) -> Phrase:
    """The numbers and first doses of the exercises of a level."""
    found: list[Phrase] = []
    for give in level.gives:
        at = draft.numbers.get(give.item)
        uses = (
            use
            for use in draft.uses.get(give.item, ())
            if use.given and use.given.level == level.name and use.given.progression == progression.name
        )
        use = next(uses, None)
        if at is None or use is None:
            continue
        dose = dose_of(1, use.layers)
        words = NOTHING if dose == NO_DOSE else DoseInWords(dose, "brief")
        found.append(say("chains.detail", number=number(at), dose=words))
    return Listed(tuple(found), by="sentences") if found else NOTHING


def _marks(triggers: tuple[Trigger, ...], marks: dict[tuple[Condition, int], list[Trigger]]) -> str:
    """The marks of the conditions, each new one numbered in turn."""
    found = []
    for trigger in triggers:
        key = (trigger.condition, trigger.streak)
        marks.setdefault(key, []).append(trigger)
        found.append(roman(list(marks).index(key) + 1))
    return ", ".join(found)


def _words(draft: Draft, at: int, triggers: list[Trigger]) -> Item[Phrase]:
    """A condition behind its mark, with every line that holds it."""
    lines = places(draft, (trigger.span for trigger in triggers))
    clause = InWords(triggers[0].condition, triggers[0].streak)
    return Item(say("chains.mark", mark=Literal(roman(at)), clause=clause, lines=lines))
