"""Two plans side by side: what is new, what is more, less, the same or changed, and what is finished."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from decimal import Decimal

from protodsl.decide.plan import Move, Plan, PlannedItem
from protodsl.dose.totals import session, week
from protodsl.handout.person.today import printed_dose
from protodsl.model.condition import Condition
from protodsl.model.dose import Range
from protodsl.model.protocol import Protocol

NEW, MORE, LESS, OTHER, SAME, FINISHED = "new", "more", "less", "other", "same", "finished"
# In the order in which they are told.
LABELS = (NEW, MORE, LESS, OTHER, FINISHED, SAME)
_UP, _DOWN = frozenset(("up", "add")), frozenset(("down", "take off"))


@dataclass(frozen=True, slots=True)
class Changed:
    """One exercise then and now; `before` None: it was not on the last sheet, `now` None: it is not on this one."""

    label: str
    before: PlannedItem | None
    now: PlannedItem | None


def changes(previous: Plan, plan: Plan) -> tuple[Changed, ...]:
    """Every exercise of both sheets once, by the exercise; a step of a progression is told as the step it is."""
    return tuple(sorted(_changes(previous, plan), key=lambda one: LABELS.index(one.label)))


def moves_since(previous: Plan, plan: Plan) -> tuple[Move, ...]:
    """The moves dated after the day the last sheet was made for."""
    return tuple(move for move in plan.moves if move.date > previous.as_of)


def reasons_for(one: Changed, moves: tuple[Move, ...]) -> list[Move]:
    """The moves that made an exercise what it is now: those of its item that went the way it is told to have gone."""
    item = one.now or one.before
    assert item is not None
    against = _DOWN if one.label == MORE else _UP if one.label == LESS else frozenset(("start",))
    return [move for move in moves if move.item in (item.item, item.exercise.name) and move.kind not in against]


def conditions_of(protocol: Protocol, move: Move) -> tuple[tuple[Condition, int], ...]:
    """What had to be so for a move, each condition with its sessions in a row; a phase ends by all its lines."""
    if move.kind == "phase":
        phase = next((one for one in protocol.phases if one.name == move.before), None)
        if phase is not None and phase.until:
            return tuple((until.condition, until.streak) for until in phase.until)
    return () if move.condition is None else ((move.condition, move.streak),)


def amount(item: PlannedItem) -> tuple[Decimal | None, ...]:
    """What is compared: kilograms, then in a week the sets, the repetitions, the seconds of work and rest."""
    dose = printed_dose(item)
    total, once = week(dose), session(dose)
    kilograms = item.load.kilograms if item.load is not None else None
    return kilograms, *map(_most, (total.sets, total.repetitions, once.repetitions, total.seconds))


def _changes(previous: Plan, plan: Plan) -> Iterator[Changed]:
    before = {item.exercise.name: item for item in previous.items}
    now = {item.exercise.name: item for item in plan.items}
    moves = moves_since(previous, plan)
    gone = [item for name, item in before.items() if name not in now]
    for name, item in now.items():
        if name in before:
            yield Changed(_label(before[name], item), before[name], item)
            continue
        stood = next((one for one in gone if _stood_for(one, item)), None)
        if stood is not None:
            gone.remove(stood)
        yield Changed(_step(item, moves) if stood else NEW, stood, item)
    for item in gone:
        yield Changed(FINISHED, item, None)


def _stood_for(before: PlannedItem, now: PlannedItem) -> bool:
    """Whether one exercise was where the other is now: asked for by one line, or another step of one progression."""
    if before.item != now.item:
        return False
    if before.asked == now.asked:
        return True
    return before.level is not None and now.level is not None and before.level.level != now.level.level


def _step(item: PlannedItem, moves: tuple[Move, ...]) -> str:
    """Whether a step of a progression came to be by a move up or down; the last move counts."""
    kinds = [move.kind for move in moves if move.item == item.item]
    last = kinds[-1] if kinds else ""
    return MORE if last in _UP else LESS if last in _DOWN else OTHER


def _label(before: PlannedItem, now: PlannedItem) -> str:
    """More where nothing is less and something is more; other where both, or where only the words differ."""
    pairs = [(old, new) for old, new in zip(amount(before), amount(now), strict=True) if None not in (old, new)]
    more = any(new > old for old, new in pairs if new is not None and old is not None)
    less = any(new < old for old, new in pairs if new is not None and old is not None)
    if more != less:
        return MORE if more else LESS
    alike = printed_dose(before) == printed_dose(now) and _side(before) == _side(now)
    return SAME if alike and not more else OTHER


def _side(item: PlannedItem) -> tuple[str, int] | None:
    return None if item.focus is None else (item.focus.side, item.focus.extra_sets)


def _most(of: Range | None) -> Decimal | None:
    return None if of is None else of.high
