"""A solved figure, and what was said of it, as plain data and back: without its places, which are the text's own."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, fields, is_dataclass
from functools import cache
from typing import Any

from protodsl.diagnostics import poses as said_of_poses
from protodsl.diagnostics.diagnostic import Code, Diagnostic, Fix, Label
from protodsl.figure.posture import Frame, PlacedProp, SolvedFigure, SolvedPose
from protodsl.model.figure import Figure
from protodsl.outcome import Outcome
from protodsl.source import NOWHERE, Span

_CODES = {code.id: code for code in vars(said_of_poses).values() if isinstance(code, Code)}


class NotPlain(ValueError):
    """Something points to a place that is none of the figure's own, so it cannot be kept."""


@dataclass(frozen=True, slots=True)
class Told:
    """A figure in one line of text that is the same wherever it stands, and its places in the order of that line.

    Figures of the same text may differ in which of their places are one and the same; the text says that, too.
    """

    text: str
    places: tuple[Span, ...]


def told(figure: Figure) -> Told:
    """What a figure says; its own lines as they were written have no part in it."""
    words: list[str] = []
    places: list[Span] = [figure.span]
    for part in (figure.view, figure.props, figure.poses, figure.arrows):
        _tell(part, words, places)
    first: dict[Span, int] = {}
    same = [first.setdefault(span, at) for at, span in enumerate(places)]
    return Told(f"{' '.join(words)} {same}", tuple(places))


def to_plain(outcome: Outcome[SolvedFigure], places: Sequence[Span]) -> dict[str, Any]:
    """An outcome of the solver as plain data; NotPlain where it cannot be."""
    value = outcome.value
    return {
        "said": [_of_diagnostic(one, places) for one in outcome.diagnostics],
        "poses": None if value is None else [_of_pose(pose) for pose in value.poses],
        "props": None if value is None else [_of_prop(prop) for prop in value.props],
    }


def from_plain(data: Any, figure: Figure, places: Sequence[Span]) -> Outcome[SolvedFigure]:
    """The outcome for a figure that says the same; some kind of LookupError, TypeError or ValueError for other data."""
    said = tuple(_diagnostic(one, places) for one in data["said"])
    if data["poses"] is None:
        return Outcome(None, said)
    poses = tuple(_pose(one, figure.poses[at]) for at, one in enumerate(data["poses"]))
    if len(poses) != len(figure.poses):
        raise ValueError("another figure")
    props = tuple(
        PlacedProp(kind, _three(at), _three(facing), height, tuple(ends), kilograms)
        for kind, at, facing, height, ends, kilograms in data["props"]
    )
    return Outcome(SolvedFigure(figure, poses, props), said)


def _tell(node: Any, words: list[str], places: list[Span]) -> None:
    if isinstance(node, tuple):
        words.append("(")
        for one in node:
            _tell(one, words, places)
        words.append(")")
    elif is_dataclass(node) and not isinstance(node, type):
        words.append(type(node).__name__)
        places.append(getattr(node, "span", NOWHERE))
        for name in _names(type(node)):
            _tell(getattr(node, name), words, places)
    else:
        words.append(repr(node))


@cache
def _names(kind: type) -> tuple[str, ...]:
    return tuple(one.name for one in fields(kind) if one.name != "span")


def _of_pose(pose: SolvedPose) -> list[Any]:
    frames = {name: [frame.origin, frame.axes] for name, frame in pose.frames.items()}
    return [frames, dict(pose.angles), pose.contacts, pose.centre_of_mass, pose.balanced]


def _pose(data: Any, pose: Any) -> SolvedPose:
    frames, angles, contacts, centre, balanced = data
    return SolvedPose(
        pose,
        {name: Frame(_three(origin), tuple(axes)) for name, (origin, axes) in frames.items()},
        {name: float(degrees) for name, degrees in angles.items()},
        tuple((landmark, surface) for landmark, surface in contacts),
        _three(centre),
        float(balanced),
    )


def _of_prop(prop: PlacedProp) -> list[Any]:
    return [prop.kind, prop.at, prop.facing, prop.height, prop.ends, prop.kilograms]


def _of_diagnostic(one: Diagnostic, places: Sequence[Span]) -> dict[str, Any]:
    return {
        "code": one.code.id,
        "message": one.message,
        "labels": [[_number(label.span, places), label.words] for label in (one.primary, *one.secondary)],
        "notes": one.notes,
        "help": one.help,
        "fix": [_number(one.fix.span, places), one.fix.replacement] if one.fix else None,
        "args": _plain(dict(one.args)),
    }


def _diagnostic(data: Any, places: Sequence[Span]) -> Diagnostic:
    first, *others = (Label(_place(number, places), words) for number, words in data["labels"])
    fix = Fix(_place(data["fix"][0], places), data["fix"][1]) if data["fix"] else None
    return Diagnostic(
        _CODES[data["code"]],
        data["message"],
        first,
        tuple(others),
        tuple(data["notes"]),
        data["help"],
        fix,
        {name: _tuples(value) for name, value in data["args"].items()},
    )


def _number(span: Span, places: Sequence[Span]) -> int:
    """Which of the places it is; -1 for none at all."""
    if span == NOWHERE:
        return -1
    if span not in places:
        raise NotPlain
    return places.index(span)


def _place(number: int, places: Sequence[Span]) -> Span:
    return NOWHERE if number == -1 else places[number]


def _plain(value: Any) -> Any:
    if isinstance(value, dict):
        return {str(name): _plain(one) for name, one in value.items()}
    if isinstance(value, tuple | list):
        return [_plain(one) for one in value]
    if value is None or isinstance(value, str | int | float | bool):
        return value
    raise NotPlain


def _tuples(value: Any) -> Any:
    return tuple(map(_tuples, value)) if isinstance(value, list) else value


def _three(data: Any) -> tuple[float, float, float]:
    x, y, z = data
    return (float(x), float(y), float(z))
