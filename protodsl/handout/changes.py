"""What this protocol changes in the one it is like: exercises changed or left out, safety lines lifted in the open."""

from __future__ import annotations

from protodsl.handout.blocks import Bullets, Item, Section
from protodsl.handout.draft import Draft
from protodsl.handout.phrase import AUTHOR, PROGRAM, Literal, Phrase, Written
from protodsl.handout.places import places
from protodsl.handout.words import one_after_the_other, say
from protodsl.model.exercise import Lifted


def changes(draft: Draft) -> Section[Phrase] | None:
    """A list of what was changed, left out and lifted; none where nothing was."""
    protocol = draft.protocol
    found: list[Item[Phrase]] = []
    if protocol.like is not None:
        found.append(Item(say("changes.like", name=Literal(protocol.like, AUTHOR)), "", draft.origin(protocol.span)))
    found += [_changed(draft, name) for name in protocol.changed]
    found += [Item(say("changes.left-out", name=Literal(name, AUTHOR))) for name in protocol.leave_out]
    for phase in protocol.phases:
        for name in phase.leave_out:
            text = say("changes.left-out.of", name=Literal(name, AUTHOR), phase=Written(phase.title))
            found.append(Item(text, "", draft.origin(phase.span)))
    found += [_lifted(draft, one) for one in protocol.lifted]
    for exercise in draft.exercises():
        found += [_lifted(draft, one) for one in exercise.lifted]
    return Section("changes", say("changes.head"), (Bullets(tuple(found)),)) if found else None


def _changed(draft: Draft, name: str) -> Item[Phrase]:
    """What was changed, or follows what was, with every reason that was given."""
    made = [one for one in draft.protocol.changes if one.name == name]
    said: list[Phrase] = [say("changes.changed", name=Literal(name, AUTHOR))]
    if not made:
        made = [one for one in draft.protocol.changes if name in one.followers]
        said += [say("changes.follows", name=Literal(one.name, AUTHOR)) for one in made]
    said += [say("card.because", reason=Written(one.because)) for one in made if one.because is not None]
    return Item(one_after_the_other(*said), "", draft.origin(made[0].span) if made else "")


def _lifted(draft: Draft, one: Lifted) -> Item[Phrase]:
    origin = places(draft, (one.origin.span,))
    text = say("changes.lifted", line=Literal(one.line, PROGRAM), reason=Written(one.because), origin=origin)
    return Item(text, "", draft.origin(one.span))
