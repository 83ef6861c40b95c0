"""The lines of progress of one person: each progression as a chain, the present step marked."""

from __future__ import annotations

from dataclasses import replace

from protodsl.decide.plan import Plan, PlannedLevel
from protodsl.handout.blocks import Chain, Section
from protodsl.handout.chains import chains
from protodsl.handout.draft import Draft, draft
from protodsl.handout.phrase import DoseInWords, Listed, Phrase
from protodsl.handout.rules import progressions
from protodsl.handout.words import NOTHING, number, say
from protodsl.model.dose import NO_DOSE
from protodsl.model.dosing import dose_of
from protodsl.model.exercise import Progression


def progress(plan: Plan, on: Draft) -> Section[Phrase] | None:
    """The chains of the progressions that are given; none where none is."""
    standing = {level.progression: level for level in plan.levels}
    whole = _of(draft(plan.protocol, on.clinic, on.options), frozenset(standing))
    section = chains(whole)
    if section is None:
        return None
    drawn = iter(progressions(whole))
    return replace(
        section,
        blocks=tuple(
            _marked(plan, on, whole, block, next(drawn), standing) if isinstance(block, Chain) else block
            for block in section.blocks
        ),
    )


def _of(whole: Draft, names: frozenset[str]) -> Draft:
    """The draft with nothing but the steps of these progressions."""
    uses = {
        name: tuple(use for use in found if use.given is not None and use.given.progression in names)
        for name, found in whole.uses.items()
    }
    kept = {name: at for name, at in whole.numbers.items() if uses[name]}
    return replace(whole, numbers=kept, uses={name: uses[name] for name in kept})


def _marked(
    plan: Plan,
    on: Draft,
    whole: Draft,
    chain: Chain[Phrase],
    progression: Progression,
    standing: dict[str, PlannedLevel],
) -> Chain[Phrase]:
    stops = tuple(replace(stop, detail=_detail(on, whole, progression, at)) for at, stop in enumerate(chain.stops))
    return replace(chain, stops=stops, now=standing[progression.name].number - 1)


def _detail(on: Draft, whole: Draft, progression: Progression, at: int) -> Phrase:
    """The first dose of each exercise of a step, behind its number where it is on the sheet."""
    level = progression.levels[at]
    found: list[Phrase] = []
    for give in level.gives:
        use = next(
            (
                use
                for use in whole.uses.get(give.item, ())
                if use.given and use.given.level == level.name and use.given.progression == progression.name
            ),
            None,
        )
        if use is None:
            continue
        dose = dose_of(1, use.layers)
        words: Phrase = NOTHING if dose == NO_DOSE else DoseInWords(dose, "brief")
        printed = on.numbers.get(give.item)
        found.append(words if printed is None else say("chains.detail", number=number(printed), dose=words))
    return Listed(tuple(found), by="comma") if found else NOTHING
