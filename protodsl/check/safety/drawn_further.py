"""What a figure shows is what `moves` and `still` say."""

from __future__ import annotations

from collections.abc import Iterator

from protodsl.check.context import Context
from protodsl.check.safety.drawn import SLACK, largest, sides_shown
from protodsl.diagnostics import safety as say
from protodsl.diagnostics.diagnostic import Diagnostic
from protodsl.model.exercise import Exercise, Movement
from protodsl.model.figure_sides import SIDES, names_a_side
from protodsl.model.protocol import Entry
from protodsl.model.shown import Shown
from protodsl.source import Span

# Degrees by which a joint that the figure leaves free may stand otherwise from pose to pose, and still be still.
FREE = 15


def drawn_further(entry: Entry, context: Context) -> Iterator[Diagnostic]:
    """A pose that goes clearly further than `moves` says, or a joint that `still` holds and that the figure moves."""
    if context.shown is None:
        return
    for exercise, _ in context.exercises:
        if exercise.figure is not None and (exercise.moves or exercise.still):
            shown = context.shown(exercise.figure)
            yield from _further(exercise, shown)
            yield from _moved(exercise, shown)


def _further(exercise: Exercise, shown: tuple[Shown, ...]) -> Iterator[Diagnostic]:
    sides = sides_shown(exercise, (exercise.dosage.common.sides,))
    most: dict[tuple[str, str], Movement] = {}
    for move in exercise.moves:
        key = move.joint, move.movement
        if key not in most or move.to > most[key].to:
            most[key] = move
    for (joint, movement), move in most.items():
        one = largest(shown, joint, movement, sides)
        if one is not None and one.degrees > float(move.to) + SLACK:
            yield say.drawn_further(
                exercise.name, f"{joint} {movement}", move.to, round(one.degrees), one.pose, one.span, move.span
            )


def _moved(exercise: Exercise, shown: tuple[Shown, ...]) -> Iterator[Diagnostic]:
    """A joint turns between two poses; on the side that is drawn, where the figure shows one."""
    assert exercise.figure is not None
    sides = SIDES[:1] if names_a_side(exercise.figure) else SIDES
    for joint in exercise.still:
        for side in (*sides, ""):
            by_movement = _turned(joint, side, shown)
            if by_movement is not None and by_movement[0] > (SLACK if by_movement[1].written else FREE):
                yield say.drawn_moving(exercise.name, joint, round(by_movement[0]), by_movement[1].span, exercise.span)
                break


def _turned(joint: str, side: str, shown: tuple[Shown, ...]) -> tuple[float, Shown] | None:
    """The largest change of one angle between poses, and the pose that ends it; None for a joint that no body has."""
    poses: dict[Span, list[Shown]] = {}
    for one in shown:
        if one.joint == joint and one.side == side:
            poses.setdefault(one.span, []).append(one)
    first, *others = poses.values() or [[]]
    found = [(abs(_signed(now, first[at]) - first[at].degrees), now) for pose in others for at, now in enumerate(pose)]
    return max(found, key=lambda one: one[0], default=None)


def _signed(now: Shown, before: Shown) -> float:
    """Degrees in the direction of another pose of the same angle."""
    return now.degrees if now.movement == before.movement else -now.degrees
