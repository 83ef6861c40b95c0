"""The page of figures for those who look at them: a tile each, with all that is known of it."""

from __future__ import annotations

from collections import Counter

from protodsl.cli.gallery import Gallery
from protodsl.figure.approval import APPROVED, CHANGED, NEVER
from protodsl.figure.approval_state import IMPOSSIBLE, Sight
from protodsl.handout.figure_words import alternative
from protodsl.localise.catalogue import SOURCE_LANGUAGE, catalogue
from protodsl.localise.phrases import phrase
from protodsl.localise.voice import Voice
from protodsl.model.figure_sides import moves_left_alone, names_a_side
from protodsl.render.contact_sheet import ContactSheet, Tile
from protodsl.render.markdown import plain

_STATES = ((APPROVED, "approved"), (CHANGED, "changed since"), (NEVER, "never approved"), (IMPOSSIBLE, "impossible"))
_ABOUT = (
    "Is this the pose that is meant, with the right hold, and does it move the right way? Are the words under it true? "
    "A figure that shows one side is drawn as it is written: for somebody whose right side is treated."
)
_ONE_SIDED = "Shows one side: the right one has to be the side that is treated. For the left it is turned round."
_LEFT = (
    "Moves the left side alone: right only if the right side is the one that is treated, such as the leg to stand on. "
    "If the limb that moves is treated, write it for the right."
)


def page_of(gallery: Gallery) -> ContactSheet:
    """The page: how many there are of each kind, then every figure."""
    counts = Counter(one.state for one in gallery.sights)
    counted = ", ".join(f"{counts[state]} {words}" for state, words in _STATES if counts[state])
    number = len(gallery.sights)
    about = (f"{number} {'figure' if number == 1 else 'figures'}: {counted}.", _ABOUT)
    title = f"Figures of {gallery.project.clinic.name or gallery.project.root.name}"
    return ContactSheet(title, about, tuple(_tile(one, at, gallery) for at, one in enumerate(gallery.sights, 1)))


def _tile(one: Sight, at: int, gallery: Gallery) -> Tile:
    span = one.figure.span
    drawn = gallery.run.figures().drawn(one.figure, one.exercise.works)
    source = gallery.run.sources().get(span.path)
    place = f"{span.path}:{source.position(span.start)[0]}" if source else span.path
    return Tile(
        one.exercise.name + (f" (and {', '.join(one.also)})" if one.also else ""),
        " · ".join(part for part in (place, one.digest) if part),
        drawn.named(f"f{at}") if drawn else "",
        _words(one, gallery),
        drawn.roles if drawn and len(drawn.roles) > 1 else (),
        _state(one),
        one.state == APPROVED,
        tuple(f"{said.code.id}: {said.message}" for said in gallery.said_of(span)),
        _LEFT if moves_left_alone(one.figure) else _ONE_SIDED if names_a_side(one.figure) else "",
    )


def _words(one: Sight, gallery: Gallery) -> str:
    """The text alternative, which is to be right as well."""
    spoken = catalogue(SOURCE_LANGUAGE)
    entry = next(entry.value for entry in gallery.checked.entries if entry.value is not None)
    assert spoken is not None, "the product speaks the language it was written in"
    return plain(phrase(Voice(spoken, entry.scope, gallery.project.clinic.lengths), alternative(one.figure)))


def _state(one: Sight) -> str:
    if one.state == IMPOSSIBLE:
        return "no body can do this"
    if one.approval is None:
        return "never approved"
    since = f"{one.approval.on.isoformat()}, {one.approval.by}"
    return f"approved {since}" if one.state == APPROVED else f"changed since it was approved {since}"
