"""Pictures on their way from the files of a project into its handouts, and what is wrong with them."""

from __future__ import annotations

import hashlib
from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass, field
from typing import TYPE_CHECKING

from protodsl.diagnostics.diagnostic import Diagnostic, Severity
from protodsl.figure.picture_file import Unread
from protodsl.model.exercise import Exercise
from protodsl.model.protocol import Protocol
from protodsl.model.reach import exercises_reached
from protodsl.project import Project

if TYPE_CHECKING:
    from protodsl.handout.blocks import Picture
    from protodsl.handout.phrase import Phrase


@dataclass(frozen=True, slots=True)
class Pictured:
    """The pictures of a protocol's exercises by name; `inputs` is what a digest has to cover, empty without files."""

    pictures: Mapping[str, Picture[Phrase]] = field(default_factory=dict)
    inputs: Mapping[str, str] = field(default_factory=dict)


def pictures_of(protocol: Protocol, project: Project) -> Pictured:
    """The picture of every exercise that a protocol can give; what is wrong with one, a check has said."""
    from protodsl.figure.pictures import pictures

    scope = protocol.scope.exercises
    reached = {one.exercise: scope[one.exercise] for one in exercises_reached(protocol) if one.exercise in scope}
    files = picture_files(reached.values(), project)
    found = pictures(reached, files).value or {}
    inputs = {f"picture/{path}": _content(data) for path, data in files.items()}
    return Pictured(found, inputs)


def said_of_figures(exercises: Iterable[Exercise], said: Iterable[Diagnostic]) -> Iterator[Diagnostic]:
    """What is to be said of the bodies in figures; nothing of a figure in whose words there is a mistake, as `said`."""
    drawn = [exercise.figure for exercise in exercises if exercise.figure is not None]
    if not drawn:
        return
    # Most protocols draw nothing, and the solver is not loaded for them.
    from protodsl.figure.solve.solve import solve

    wrong = [one.primary.span for one in said if one.severity is Severity.ERROR]
    for figure in drawn:
        around = figure.span
        if not any(one.path == around.path and around.start <= one.start <= around.end for one in wrong):
            yield from solve(figure).diagnostics


def said_of_pictures(exercises: Iterable[Exercise], project: Project) -> Iterator[Diagnostic]:
    """What is wrong with the picture files that exercises name."""
    named = [exercise for exercise in exercises if exercise.image is not None]
    if not named:
        return
    # Most protocols name no file, and what takes a picture apart is not loaded for them.
    from protodsl.figure.images import picture_of

    files = picture_files(named, project)
    for exercise in named:
        if exercise.image is not None:
            yield from picture_of(exercise.image, files[exercise.image.path]).diagnostics


def picture_files(exercises: Iterable[Exercise], project: Project) -> dict[str, bytes | Unread]:
    """The bytes of the picture files that exercises name, by path, each read once."""
    paths = dict.fromkeys(exercise.image.path for exercise in exercises if exercise.image is not None)
    return {path: project.picture(path) for path in paths}


def _content(data: bytes | Unread) -> str:
    return data.value if isinstance(data, Unread) else hashlib.sha256(data).hexdigest()
