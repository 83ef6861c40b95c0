"""From the verdicts on the claims of a progression to what is said of them."""

from __future__ import annotations

from collections.abc import Iterator, Mapping

from protodsl.diagnostics import joint_loads as say
from protodsl.diagnostics.diagnostic import Diagnostic
from protodsl.figure.load.claims import comparisons
from protodsl.figure.load.joints import OF_A_SIDE, OF_THE_SPINE, Loads
from protodsl.model.exercise import Exercise, Progression
from protodsl.model.joint_load import Comparison, JointLoad, Verdict


def said_of_claims(progression: Progression, exercises: Mapping[str, Exercise], loads: Loads) -> Iterator[Diagnostic]:
    """All that is to be said of the claims of a progression; nothing of one that holds.

    What is wrong with a figure itself is said where it is drawn.
    """
    yield from _idle(progression)
    for one in comparisons(progression, exercises, loads):
        found = _said(one, exercises)
        if found is not None:
            yield found


def _idle(progression: Progression) -> Iterator[Diagnostic]:
    """Claims that compare nothing."""
    last = progression.levels[-1].name if progression.levels else ""
    for claim in progression.harder:
        if claim.level == last:
            yield say.nothing_to_compare(claim.level, True, claim.span)
    for level in progression.levels:
        for claim in level.harder:
            if claim.level == level.name:
                yield say.nothing_to_compare(claim.level, False, claim.span)


def _said(one: Comparison, exercises: Mapping[str, Exercise]) -> Diagnostic | None:
    names = one.harder, one.easier, one.joint
    if one.verdict is Verdict.NO_JOINT:
        return say.no_joint(one.joint, (*OF_A_SIDE, *OF_THE_SPINE), one.span)
    if one.verdict is Verdict.NO_FIGURE:
        return None if _is_damaged(one.lacking, exercises) else say.no_figure(one.lacking, *names, one.span)
    if one.verdict is Verdict.NO_ESTIMATE:
        return say.no_estimate(one.lacking, *names, one.span)
    more, less = one.harder_load, one.easier_load
    if more is None or less is None:
        return None
    loads = more.movement, _figures(more), _figures(less)
    if one.verdict is Verdict.OTHER_MOVEMENT:
        return say.other_movement(*names, more.movement, less.movement, more.estimate, less.estimate, one.span)
    if one.verdict is Verdict.OPEN:
        return say.not_established(*names, *loads, one.beyond, one.bands, one.span)
    if one.verdict is Verdict.LESS:
        return say.less(*names, *loads, one.beyond, one.span)
    if one.verdict is Verdict.CERTAINLY_LESS:
        return say.certainly_less(*names, *loads, one.beyond, one.span)
    return None


def _figures(load: JointLoad) -> say.Figures:
    return load.estimate, load.least, load.most


def _is_damaged(exercise: str, exercises: Mapping[str, Exercise]) -> bool:
    """Whether a figure is missing only because its lines, or the exercise, could not be understood."""
    found = exercises.get(exercise)
    return found is None or "figure" in found.damaged
