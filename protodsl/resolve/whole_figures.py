"""Figures made whole: what each takes from the one it is like, what its positions bring, and whether all is there."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass, field, replace
from decimal import Decimal

from protodsl.diagnostics import figures as say
from protodsl.diagnostics.diagnostic import Diagnostic
from protodsl.model.exercise import Exercise
from protodsl.model.figure import Contact, Distance, Figure, Pose, Prop
from protodsl.resolve.figure_changes import changed_pose
from protodsl.source import Span

# The height of a common seat; common practice, no source.
SEAT = Decimal(45)
USUAL_VIEW = "side"


@dataclass(slots=True)
class Figures:
    """Exercises by name with their figures whole, and what was said on the way."""

    exercises: dict[str, Exercise]
    said: list[Diagnostic] = field(default_factory=list)


def whole_figures(
    exercises: Mapping[str, Exercise], damaged: frozenset[str], before: Mapping[str, Exercise]
) -> Figures:
    """Every exercise with its figure whole; nothing is missing in one whose lines could not all be read.

    `before` are exercises as they stood before a `change`: one that is like itself is like what it was.
    """
    made = Figures(dict(exercises))
    known: dict[str, Figure | None] = {}
    for name, exercise in exercises.items():
        was = before[name].figure if name in before else None
        if was is not None and exercise.figure is not None and exercise.figure.like == name:
            known[name] = over(was, exercise.figure, made.said)
    for name, exercise in exercises.items():
        if exercise.figure is None:
            continue
        whole = _whole(name, exercises, known, made.said, damaged)
        if whole is not None:
            done = _with_what_it_brings(whole)
            made.exercises[name] = replace(exercise, figure=done)
            if name not in damaged:
                made.said += _missing(done)
                made.said += _position(exercise, done, exercises)
    return made


def over(base: Figure, own: Figure, said: list[Diagnostic]) -> Figure:
    """A figure with what it takes from another: all that it does not restate, pose by pose."""
    kinds = {prop.kind for prop in own.props}
    props = (*(prop for prop in base.props if prop.kind not in kinds), *own.props)
    return replace(
        own,
        view=own.view or base.view,
        props=props,
        poses=tuple(pose for role in ("start", "then", "end") for pose in _poses(role, base, own, said)),
        arrows=own.arrows or base.arrows,
    )


def _poses(role: str, base: Figure, own: Figure, said: list[Diagnostic]) -> Iterator[Pose]:
    """The poses of one role: the restated ones, or those of the other figure with what changes them."""
    inherited = [pose for pose in base.poses if pose.role == role]
    stated = [pose for pose in own.poses if pose.role == role]
    changes = [pose for pose in stated if pose.but]
    if len(changes) < len(stated):
        yield from (replace(pose, but=False) for pose in stated)
        inherited = []
    else:
        for at, pose in enumerate(inherited):
            yield changed_pose(pose, changes[at]) if at < len(changes) else pose
    said += [say.but_without_pose(role, pose.span) for pose in changes[len(inherited) :]]


def _whole(
    name: str,
    exercises: Mapping[str, Exercise],
    known: dict[str, Figure | None],
    said: list[Diagnostic],
    damaged: frozenset[str],
) -> Figure | None:
    """The figure of an exercise after `like`; a circle is cut and named, and what is not there is said once."""
    chain: list[str] = []
    at: str | None = name
    while at is not None and at not in known:
        if at in chain:
            said.append(_circle(chain[chain.index(at) :], exercises))
            break
        chain.append(at)
        figure = exercises[at].figure if at in exercises else None
        at = figure.like if figure is not None else None
    below = known.get(at) if at is not None else None
    for one in reversed(chain):
        own = exercises[one].figure if one in exercises else None
        if own is not None and own.like is not None:
            if below is None:
                said += _nothing_to_be_like(own, exercises, damaged)
            else:
                own = over(below, own, said)
        known[one] = below = own
    return known[name]


def _nothing_to_be_like(
    figure: Figure, exercises: Mapping[str, Exercise], damaged: frozenset[str]
) -> Iterator[Diagnostic]:
    """The exercise that a figure is like plainly has none, and not only one that could not be read."""
    name = figure.like
    if name is not None and name in exercises and exercises[name].figure is None and name not in damaged:
        yield say.like_without_figure(name, _head(figure))


def _circle(names: list[str], exercises: Mapping[str, Exercise]) -> Diagnostic:
    """The circle, told from the exercise that is written first."""
    start = min(range(len(names)), key=lambda at: exercises[names[at]].span)
    ordered = names[start:] + names[:start]
    figure = exercises[ordered[0]].figure
    assert figure is not None
    return say.like_in_a_circle((*ordered, ordered[0]), _head(figure))


def _head(figure: Figure) -> Span:
    """The place of the word `figure`."""
    return Span(figure.span.path, figure.span.start, figure.span.start + len("figure"))


def _with_what_it_brings(figure: Figure) -> Figure:
    """The figure with the chair that sitting needs and the mat that lying needs."""
    kinds = {prop.kind for prop in figure.props}
    brought: list[Prop] = []
    for pose in figure.poses:
        if pose.position == "sitting" and "chair" not in kinds:
            brought.append(Prop("chair", centimetres=SEAT, span=pose.span))
            kinds.add("chair")
        if (pose.position or "").startswith("lying") and "mat" not in kinds:
            brought.append(Prop("mat", span=pose.span))
            kinds.add("mat")
    return replace(figure, view=figure.view or USUAL_VIEW, props=(*figure.props, *brought))


def _missing(figure: Figure) -> Iterator[Diagnostic]:
    """What is touched and not there, and arrows where nothing moves."""
    there = {"floor", *(prop.kind for prop in figure.props)}
    for pose in figure.poses:
        for one in pose.statements:
            surface = one.surface if isinstance(one, Contact | Distance) else ""
            if surface and surface not in there:
                yield say.not_there(surface, one.span)
    if len(figure.poses) == 1:
        yield from (say.still_arrow(arrow.span) for arrow in figure.arrows)


def _position(exercise: Exercise, figure: Figure, exercises: Mapping[str, Exercise]) -> Iterator[Diagnostic]:
    """A figure in none of whose poses the person is in the exercise's position; an inherited one is told elsewhere."""
    other = exercises.get(exercise.like) if exercise.like is not None else None
    if other is not None and other.figure is not None and other.figure.span == figure.span:
        return
    drawn = [pose for pose in figure.poses if pose.position is not None]
    if exercise.position is None or not drawn or any(pose.position == exercise.position for pose in drawn):
        return
    yield say.other_position(drawn[0].position or "", exercise.position, drawn[0].span, exercise.position_at)
