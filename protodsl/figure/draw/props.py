"""Things beside the body, held by it or standing around it."""

from __future__ import annotations

from itertools import zip_longest

from protodsl.figure.draw.camera import Camera
from protodsl.figure.draw.held import held
from protodsl.figure.draw.standing import standing
from protodsl.figure.draw.things import Thing
from protodsl.figure.posture import PlacedProp, SolvedFigure, SolvedPose


def things(solved: SolvedFigure, pose: SolvedPose, seen: Camera) -> tuple[Thing, ...]:
    """The props of a figure as they are drawn with one of its poses."""
    first = solved.poses[0].frames
    near = seen.point(first["pelvis"].origin)[2]
    found: list[Thing] = []
    for prop, where in zip_longest(solved.props, [prop.where for prop in solved.figure.props], fillvalue=""):
        # Props that a position brings stand behind those that are written, and nowhere in particular.
        if not isinstance(prop, PlacedProp):
            continue
        if prop.ends and where != "under":
            found += held(prop, pose.frames, first, seen)
        elif thing := standing(prop, near, seen):
            found.append(thing)
    return tuple(found)
