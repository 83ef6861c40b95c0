"""How phases, levels and exercises are called on a sheet."""

from __future__ import annotations

from protodsl.handout.draft import Draft
from protodsl.handout.phrase import Phrase, Written
from protodsl.handout.words import number, say
from protodsl.model import named
from protodsl.model.exercise import Level
from protodsl.model.protocol import Phase


def phase_title(draft: Draft, phase: Phase) -> Phrase:
    """A phase by its number and title: `part 2, Build strength`."""
    return say("phase.named", number=phase_number(draft, phase), title=Written(phase.title))


def phase_number(draft: Draft, phase: Phase) -> Phrase:
    """A phase by its number alone, counted from 1."""
    return number(1 + next(at for at, one in enumerate(draft.protocol.phases) if one.name == phase.name))


def level_title(draft: Draft, level: Level) -> Phrase:
    """A step of a progression by its own name, or by the title of the one exercise it gives."""
    exercise = draft.protocol.scope.exercises.get(level.gives[0].item) if len(level.gives) == 1 else None
    if level.label or exercise is None:
        return say("name", name=Written(named.level_name(level)))
    return Written(exercise.title)
