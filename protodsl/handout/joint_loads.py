"""What the drawn figures say of each `harder than`, for the clinician: estimates, ranges and a verdict, never alone."""

from __future__ import annotations

from collections.abc import Callable
from decimal import ROUND_HALF_UP, Decimal

from protodsl.handout.blocks import Cell, Item, Paragraphs, Table
from protodsl.handout.draft import Draft
from protodsl.handout.phrase import Listed, Measure, Number, Phrase
from protodsl.handout.places import places
from protodsl.handout.titles import level_title
from protodsl.handout.words import one_after_the_other, say
from protodsl.model.joint_load import BODY_MASS, STATURE, Comparison, JointLoad, Verdict

_WIDTHS = (33, 17, 19, 21, 10)
# A range narrower than this many N m is none: the weights alone decide.
_NARROW = 1.0
# What has a sentence of its own; whatever else cannot be told is not established.
_SAID = {Verdict.CERTAIN, Verdict.MATCHED, Verdict.LESS, Verdict.CERTAINLY_LESS, Verdict.OTHER_MOVEMENT}


def joint_loads(draft: Draft) -> tuple[Table[Phrase] | Paragraphs[Phrase], ...]:
    """A row for each claim, and what an estimate is and is not; nothing where nothing is claimed."""
    found = draft.options.joint_loads
    if not found:
        return ()
    heads = ("load.step", "load.estimate", "load.range", "load.verdict", "clinician.line")
    rows = tuple(_row(draft, one) for one in found)
    table = Table(say("load.head"), tuple(say(head) for head in heads), rows, kind="rules", widths=_WIDTHS)
    notes = [say("load.what", mass=Measure(BODY_MASS), stature=Measure(STATURE)), say("load.range.what")]
    beyond = dict.fromkeys(name for one in found for name in one.beyond)
    if beyond:
        notes.append(say("load.dose", exercises=Listed(tuple(draft.exercise(name) for name in beyond))))
    return (table, Paragraphs((Item(one_after_the_other(*notes)),)))


def _row(draft: Draft, one: Comparison) -> tuple[Cell[Phrase], ...]:
    levels = {level.name: level for level in draft.protocol.scope.progressions[one.progression].levels}
    step = say(
        "load.against",
        more=level_title(draft, levels[one.harder]),
        less=level_title(draft, levels[one.easier]),
        joint=_joint(one),
    )
    cells = (step, _both(one, _estimate), _both(one, _range), _verdict(one), places(draft, (one.span,)))
    return tuple(Cell(cell) for cell in cells)


def _joint(one: Comparison) -> Phrase:
    """The movement that the joint is loaded in; the joint alone where there is no estimate."""
    if one.harder_load is None:
        return say(f"load.joint.{one.joint}")
    return say(f"movement.{one.joint}.{one.harder_load.movement.replace(' ', '-')}")


def _both(one: Comparison, write: Callable[[JointLoad], Phrase]) -> Phrase:
    """A number of the harder step against that of the easier one."""
    more, less = one.harder_load, one.easier_load
    if more is None or less is None:
        return say("dose.none")
    return say("load.both", more=write(more), less=write(less))


def _estimate(load: JointLoad) -> Phrase:
    return Number(_whole(load.estimate))


def _range(load: JointLoad) -> Phrase:
    if load.most - load.least < _NARROW:
        return Number(_whole(load.estimate))
    return Number(_whole(load.least), _whole(load.most))


def _verdict(one: Comparison) -> Phrase:
    if one.verdict in _SAID:
        return say(f"load.verdict.{one.verdict.value}")
    return say("load.verdict.no-figure") if one.verdict is Verdict.NO_FIGURE else say("load.verdict.open")


def _whole(value: float) -> Decimal:
    """Whole N m: no estimate of this kind is finer."""
    return Decimal(str(value)).quantize(Decimal(1), ROUND_HALF_UP) + 0
