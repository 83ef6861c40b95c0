"""Every `harder than` of a progression held against the figures of its levels."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass

from protodsl.figure.load.joints import OF_A_SIDE, OF_THE_SPINE, Load, Loads
from protodsl.model.dose import Dosage
from protodsl.model.exercise import Exercise, HarderThan, Level, Progression
from protodsl.model.joint_load import Comparison, JointLoad, Verdict

# Figures are written for the right side.
WORKING_SIDE = "right"
# Two loads that differ by less than this part of the larger one, or than so many N m, are not told apart: a body of
# stiff parts is no finer. The project's own.
PART, LEAST = 0.05, 1.0
# A step whose main load is another movement, in which the claimed one is below this part of it, is not compared.
_MINOR = 0.5


def comparisons(progression: Progression, exercises: Mapping[str, Exercise], loads: Loads) -> Iterator[Comparison]:
    """Every claim of a progression with its verdict; a claim about a level that is not there was said elsewhere.

    A claim of the progression as a whole is one of the level behind the level that it names.
    """
    at = {level.name: number for number, level in enumerate(progression.levels)}
    levels = progression.levels
    for claim in progression.harder:
        if claim.level in at and at[claim.level] + 1 < len(levels):
            yield _compared(progression, claim, levels[at[claim.level]], levels[at[claim.level] + 1], exercises, loads)
    for level in levels:
        for claim in level.harder:
            if claim.level in at and claim.level != level.name:
                yield _compared(progression, claim, levels[at[claim.level]], level, exercises, loads)


@dataclass(frozen=True, slots=True)
class _Step:
    """The exercises of a level, or the verdict where they allow no comparison, with the exercise to blame."""

    loads: tuple[Load, ...]
    verdict: Verdict | None = None
    lacking: str = ""


def _compared(
    progression: Progression,
    claim: HarderThan,
    easier: Level,
    harder: Level,
    exercises: Mapping[str, Exercise],
    loads: Loads,
) -> Comparison:
    def said(verdict: Verdict, first: Load | None = None, second: Load | None = None, lacking: str = "") -> Comparison:
        return Comparison(
            progression.name,
            easier.name,
            harder.name,
            claim.joint,
            verdict,
            _as_said(first),
            _as_said(second),
            lacking,
            tuple(name for level in (easier, harder) for name in _beyond(progression, level, exercises)),
            tuple(dict.fromkeys(name for level in (easier, harder) for name in _with_band(level, exercises))),
            span=claim.span,
        )

    if claim.joint not in OF_A_SIDE and claim.joint not in OF_THE_SPINE:
        return said(Verdict.NO_JOINT)
    steps = [_step(level, claim.joint, exercises, loads) for level in (easier, harder)]
    for step in steps:
        if step.verdict is not None:
            return said(step.verdict, lacking=step.lacking)
    more = steps[1].loads[0]
    same = next(one for one in steps[0].loads if (one.movement, one.towards) == (more.movement, more.towards))
    main = steps[0].loads[0]
    if same.estimate < _MINOR * main.estimate and main.estimate > LEAST:
        return said(Verdict.OTHER_MOVEMENT, main, more)
    if [*_with_band(easier, exercises), *_with_band(harder, exercises)]:
        return said(Verdict.OPEN, same, more)
    return said(verdict(same, more), same, more)


def verdict(easier: Load, harder: Load) -> Verdict:
    """Whether the second load is the larger."""
    for first, second, certain, matched in (
        (easier, harder, Verdict.CERTAIN, Verdict.MATCHED),
        (harder, easier, Verdict.CERTAINLY_LESS, Verdict.LESS),
    ):
        if _larger(first.most, second.least):
            return certain
        rises = first.least <= second.least and first.most <= second.most
        if rises and _larger(first.estimate, second.estimate):
            return matched
    return Verdict.OPEN


def _larger(first: float, second: float) -> bool:
    return second - first > max(LEAST, PART * abs(second))


def _step(level: Level, joint: str, exercises: Mapping[str, Exercise], loads: Loads) -> _Step:
    """The loads of a level: of several exercises, in each direction that of the one that loads it most."""
    largest: dict[tuple[str, str], Load] = {}
    for name in _names(level):
        exercise = exercises.get(name)
        if exercise is None or exercise.figure is None:
            return _Step((), Verdict.NO_FIGURE, name)
        own = loads(exercise.figure, joint, WORKING_SIDE)
        if not own:
            return _Step((), Verdict.NO_SOLUTION if own is None else Verdict.NO_ESTIMATE, name)
        for load in own:
            key = load.movement, load.towards
            if key not in largest or load.estimate > largest[key].estimate:
                largest[key] = load
    found = tuple(sorted(largest.values(), key=lambda load: -load.estimate))
    return _Step(found) if found else _Step((), Verdict.NO_FIGURE, level.name)


def _names(level: Level) -> tuple[str, ...]:
    return tuple(dict.fromkeys(give.item for give in level.gives))


def _with_band(level: Level, exercises: Mapping[str, Exercise]) -> Iterator[str]:
    for name in _names(level):
        figure = exercises[name].figure if name in exercises else None
        if figure is not None and any(prop.kind == "band" for prop in figure.props):
            yield name


def _beyond(progression: Progression, level: Level, exercises: Mapping[str, Exercise]) -> Iterator[str]:
    """Exercises of a level that are given with a load, where the figure shows no weight."""
    for give in level.gives:
        exercise = exercises.get(give.item)
        if exercise is None:
            continue
        shown = exercise.figure is not None and any(prop.kind == "weight" for prop in exercise.figure.props)
        dosages = (progression.dosage, level.dosage, give.dosage, exercise.dosage)
        if not shown and any(_has_load(one) for one in dosages):
            yield give.item


def _has_load(dosage: Dosage) -> bool:
    rows: Iterable[object] = (dosage.common, *(row.dose for row in dosage.weeks), *(row.dose for row in dosage.sets))
    loads = [getattr(dose, "load", None) for dose in rows]
    return any(load is not None and (load.name != "body weight" or load.weight is not None) for load in loads)


def _as_said(load: Load | None) -> JointLoad | None:
    """Rounded to a tenth of a newton metre, so that machines agree."""
    if load is None:
        return None
    return JointLoad(load.movement, *(round(one, 1) + 0.0 for one in (load.estimate, load.least, load.most)))
