"""The pictures of exercises as a handout takes them; the one file here that knows of handouts."""

from __future__ import annotations

from collections.abc import Mapping

from protodsl.diagnostics.diagnostic import Diagnostic
from protodsl.figure.images import picture_of
from protodsl.figure.picture_file import Unread
from protodsl.handout.blocks import Picture
from protodsl.handout.phrase import Phrase, Written
from protodsl.model.exercise import Exercise
from protodsl.outcome import Outcome


def pictures(
    exercises: Mapping[str, Exercise], files: Mapping[str, bytes | Unread]
) -> Outcome[Mapping[str, Picture[Phrase]]]:
    """The picture of each exercise that has one, by its name; `files` are the bytes of picture files by their paths."""
    return images(exercises, files)


def images(
    exercises: Mapping[str, Exercise], files: Mapping[str, bytes | Unread]
) -> Outcome[Mapping[str, Picture[Phrase]]]:
    """The pictures that come from files; one that may not be shown is left out and said."""
    made: dict[str, Picture[Phrase]] = {}
    said: list[Diagnostic] = []
    for name, exercise in exercises.items():
        image = exercise.image
        if image is None or image.alternative is None:
            continue
        found = picture_of(image, files.get(image.path, Unread.MISSING))
        said += found.diagnostics
        if found.value is not None:
            made[name] = Picture(Written(image.alternative), (), data=found.value.uri)
    return Outcome(made, tuple(said))
