"""The pictures of exercises as a handout takes them; the one file here that knows of handouts."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, replace

from protodsl.diagnostics.diagnostic import Diagnostic
from protodsl.figure.drawn import SCALE, SMALLEST, Drawn, Look
from protodsl.figure.figures import Figures
from protodsl.figure.images import picture_of
from protodsl.figure.mirror import is_mirrored, shown_side
from protodsl.figure.picture_file import Unread
from protodsl.handout.blocks import Picture
from protodsl.handout.figure_words import alternative, captions, stripes
from protodsl.handout.phrase import Message, Phrase, Written
from protodsl.handout.words import one_after_the_other
from protodsl.model.exercise import Exercise
from protodsl.model.figure import Figure
from protodsl.model.text import Prose
from protodsl.outcome import Outcome


@dataclass(frozen=True, slots=True)
class Plate:
    """Where figures go on a page: the room for a drawing of up to two panels and of more (mm at 12 pt), and whether the
    page is read from right to left.
    """

    room: float
    wide: float
    leftward: bool = False

    def of(self, panels: int) -> float:
        """The room for a drawing of so many panels."""
        return self.room if panels <= 2 else self.wide


@dataclass(frozen=True, slots=True)
class Shown:
    """For whom a figure is drawn: `mirror` for the left; `side` is said beside it where it may not be the reader's."""

    mirror: bool = False
    side: str | None = None


def pictures(
    exercises: Mapping[str, Exercise], files: Mapping[str, bytes | Unread]
) -> Outcome[Mapping[str, Picture[Phrase]]]:
    """The pictures that come from files, by the name of the exercise; `files` are their bytes by their paths.

    One that may not be shown is left out and said.
    """
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


def drawings(
    exercises: Mapping[str, Exercise],
    shown: Mapping[str, Shown],
    targets: Mapping[str, Prose],
    plate: Plate,
    figures: Figures,
) -> dict[str, Picture[Phrase]]:
    """The figures of exercises, all bodies at one scale; without one that no body can do: that was said.

    `shown` says for whom each is drawn (none: as written, said to nobody), `targets` are the words for them by name.
    """
    drawn = {
        name: (exercise.figure, exercise.works, shown.get(name, Shown()))
        for name, exercise in exercises.items()
        if exercise.figure is not None and figures.solved(exercise.figure).value is not None
    }
    scale = _one_scale([(figure, works) for figure, works, _ in drawn.values()], plate, figures)
    made: dict[str, Picture[Phrase]] = {}
    for number, (name, (figure, works, to)) in enumerate(drawn.items(), 1):
        found = _drawn(figure, works, to, scale, plate, figures)
        if found is not None:
            seen = [targets[one] for one in works if one in targets and one not in found.unshaded]
            made[name] = _picture(figure, found, to, seen, f"f{number}")
    return made


def shown_to(figure: Figure, dose_sides: str | None = None, affected: str | None = None) -> Shown:
    """For whom a figure is drawn: the sides of its dose, the affected side of the person (None: nobody is meant)."""
    return Shown(is_mirrored(figure, dose_sides, affected), shown_side(figure, dose_sides, affected))


def _one_scale(drawn: list[tuple[Figure, tuple[str, ...]]], plate: Plate, figures: Figures) -> float:
    """The scale at which the widest figure has room, at most the usual one; where that is too small, the smallest."""
    scale = SCALE
    for figure, works in drawn:
        found = figures.drawn(figure, works)
        if found is not None and found.width_mm > plate.of(len(found.roles)):
            scale = min(scale, SCALE * plate.of(len(found.roles)) / found.width_mm)
    # Of scales in whole millimetres there are few, so drawings that are kept are found again.
    return max(SMALLEST, float(int(scale)))


def _drawn(
    figure: Figure, works: tuple[str, ...], to: Shown, scale: float, plate: Plate, figures: Figures
) -> Drawn | None:
    """One drawing at the scale of the sheet; where it has no room, one panel with the first pose as a shadow."""
    look, room = Look(scale, None, to.mirror, plate.leftward), plate.of(len(figure.poses))
    found = figures.drawn(figure, works, look)
    return figures.drawn(figure, works, replace(look, room=room)) if found and found.width_mm > room else found


def _picture(figure: Figure, found: Drawn, to: Shown, seen: list[Prose], name: str) -> Picture[Phrase]:
    overlaid = len(found.roles) < len(figure.poses)
    notes: list[Phrase] = [stripes(seen)] if seen else []
    if to.side is not None:
        notes.append(Message(f"figure.shown.{to.side}"))
    return Picture(
        alternative(figure, to.mirror),
        captions(found.roles, overlaid),
        svg=found.named(name),
        note=one_after_the_other(*notes) if notes else None,
    )
