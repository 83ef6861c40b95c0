"""A figure in words, for those who cannot see it, and the captions under its panels."""

from __future__ import annotations

from collections.abc import Sequence
from decimal import Decimal

from protodsl.handout.figure_clauses import centimetres, clause, move, named, sided
from protodsl.handout.figure_needed import needed, things
from protodsl.handout.phrase import Listed, Measure, Message, Number, Phrase, Written
from protodsl.handout.words import one_after_the_other
from protodsl.model.figure import Figure, Part, Pose, Prop, Statement
from protodsl.model.text import Prose
from protodsl.units import UNITS, Quantity

_LYING = {"lying on right side": "right", "lying on left side": "left"}
_BESIDE = ("in front", "behind", "right", "left")
# Things that run from one hand to the other; others are held between them.
_LONG = ("band", "stick", "towel")
# Fixed in the words of the language at one end: a door, a wall.
_ANCHOR = "anchor"


def alternative(figure: Figure, mirror: bool = False, shaded: Sequence[Prose] = ()) -> Phrase:
    """Every pose with what has to be said of it, in order, the things used, the movement, and what the stripes mark.

    `mirror` says it for the left side; `shaded` are the words for the targets that are striped.
    """
    poses = zip(figure.poses, needed(figure), strict=True)
    sentences = [_pose(pose, said, len(figure.poses), mirror) for pose, said in poses]
    used = tuple(_thing(prop, mirror) for prop in things(figure))
    if used:
        sentences.append(Message("figure.things", {"things": Listed(used)}))
    if figure.arrows:
        moves = tuple(move(arrow, mirror) for arrow in figure.arrows)
        sentences.append(Message("figure.moves", {"moves": Listed(moves)}))
    if shaded:
        sentences.append(stripes(shaded))
    return one_after_the_other(*sentences)


def captions(roles: Sequence[str], overlaid: bool = False) -> tuple[Phrase, ...]:
    """A caption a panel, numbered; one for both poses where the first is a shadow behind the last."""
    if overlaid:
        return (Message("figure.caption.overlaid"),)
    if len(roles) == 1:
        return ()
    return tuple(Message(f"figure.caption.{role}", {"number": Number(Decimal(at))}) for at, role in enumerate(roles, 1))


def stripes(shaded: Sequence[Prose]) -> Phrase:
    """What the stripes of a figure mean."""
    return Message("figure.stripes", {"targets": Listed(tuple(Written(words) for words in shaded))})


def _pose(pose: Pose, statements: Sequence[Statement], of: int, mirror: bool) -> Phrase:
    clauses = [] if pose.position is None else [_position(pose.position, pose.forward, mirror)]
    clauses += [clause(statement, mirror) for statement in statements]
    said = Listed(tuple(clauses)) if clauses else Message("figure.same")
    return Message("figure.pose.only" if of == 1 else f"figure.pose.{pose.role}", {"pose": said})


def _position(position: str, forward: str, mirror: bool) -> Phrase:
    if position in _LYING:
        return Message(f"figure.position.lying-on-side.{sided(_LYING[position], mirror)}")
    if position == "half-kneeling":
        return Message(f"figure.position.half-kneeling.{sided(forward or 'right', mirror)}")
    return Message(f"figure.position.{position.replace(' ', '-')}")


def _thing(prop: Prop, mirror: bool) -> Phrase:
    thing: Phrase = Message(f"figure.prop.{prop.kind}")
    if prop.kilograms is not None:
        thing = Message("figure.prop.heavy", {"thing": thing, "weight": Measure(Quantity(prop.kilograms, UNITS["kg"]))})
    if prop.where in _BESIDE:
        thing = Message(f"figure.prop.{sided(prop.where, mirror).replace(' ', '-')}", {"thing": thing})
    if prop.centimetres is not None:
        thing = Message("figure.prop.high", {"thing": thing, "height": centimetres(prop.centimetres)})
    parts = [named(end, mirror) for end in prop.ends if isinstance(end, Part)]
    if not parts:
        return thing
    if _ANCHOR in prop.ends:
        return Message("figure.prop.anchored", {"thing": thing, "part": parts[0]})
    if len(parts) > 1:
        how = "from" if prop.kind in _LONG and prop.where != "between" else "between"
        return Message(f"figure.prop.{how}", {"thing": thing, "part": parts[0], "other": parts[1]})
    how = prop.where if prop.where in ("under", "around") else "at"
    return Message(f"figure.prop.{how}", {"thing": thing, "part": parts[0]})
