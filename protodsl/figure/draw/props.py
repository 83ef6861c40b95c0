"""Things beside the body, held by it or standing around it."""

from __future__ import annotations

from collections.abc import Mapping

from protodsl.figure.draw.camera import Camera
from protodsl.figure.draw.held import held
from protodsl.figure.draw.standing import standing
from protodsl.figure.draw.things import Thing
from protodsl.figure.posture import Frame, PlacedProp


def thing(prop: PlacedProp, frames: Mapping[str, Frame], first: Mapping[str, Frame], seen: Camera) -> Thing | None:
    """The prop as it is drawn with a pose and the first one of the figure; None where there is nothing to draw."""
    if prop.ends:
        return held(prop, frames, first, seen)
    return standing(prop, seen.point(first["pelvis"].origin)[2], seen)
