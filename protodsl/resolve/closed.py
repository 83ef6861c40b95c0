"""Words of the closed lists: positions, bearing, joints, movements with their kind."""

from __future__ import annotations

from collections.abc import Sequence

from protodsl.diagnostics import kinds as say
from protodsl.diagnostics.suggest import nearest
from protodsl.model.lists import KINDS, MOVEMENTS, movement_names
from protodsl.resolve.names import Names
from protodsl.syntax import tree

# Every way to write a movement, with its kind ("" where none is written), joint and movement.
WRITTEN: dict[str, tuple[str, str, str]] = {
    f"{kind} {joint} {movement}".strip(): (kind, joint, movement)
    for kind in ("", *KINDS)
    for joint, movements in MOVEMENTS.items()
    for movement in movements
}


def in_list(what: str, name: tree.Name, known: Sequence[str], names: Names) -> str | None:
    """The word where it is in the list; else None, and what may have been meant."""
    if name.text in known:
        return name.text
    names.say(say.not_in_list(what, name.text, known, name.span, nearest(name.text, known)))
    return None


def movement(name: tree.Name, names: Names) -> tuple[str, str, str] | None:
    """Kind ("" where none is written), joint and movement; else None, and what may have been meant."""
    found = WRITTEN.get(name.text)
    if found is None:
        joint = next((word for word in name.text.split() if word in MOVEMENTS), None)
        listed = tuple(f"{joint} {one}" for one in MOVEMENTS[joint]) if joint else movement_names()
        # Another joint is no better guess than none: `forearm flexion` does not mean the finger's.
        near = nearest(name.text, [one for one, (_, where, _) in WRITTEN.items() if joint in (None, where)])
        names.say(say.not_in_list("movement", name.text, listed, name.span, near))
    return found
