"""Items of a pose: from what was written to angles, contacts and relations."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace
from decimal import Decimal

from protodsl.diagnostics import figures as say
from protodsl.diagnostics.suggest import nearest
from protodsl.model import figure as model
from protodsl.model.figure import JOINTS, MIDDLE_PARTS, POSTURES, SURFACES, Part, Statement
from protodsl.resolve.figure_words import (
    JOINT_WORDS,
    POSTURE_WORDS,
    SPINE,
    TO_A_SIDE,
    axis,
    centimetres,
    near_joint,
    part,
)
from protodsl.resolve.names import Names
from protodsl.syntax.figure_lines import item_text
from protodsl.syntax.print_parts import amount_text
from protodsl.syntax.tree import Item, Name
from protodsl.units import UNITS

MOST_DEGREES = 180
MOST_LEAN = 120
# How far apart two things beside somebody of 170 cm can be: common practice, no source.
FAR = (0, 200)
# What can be level or upright.
_LIMBS = ("thigh", "shin", "calf", "leg", "foot", "upper arm", "forearm", "arm", "hand", "trunk", "head", "pelvis")
_DIRECTED = ("horizontal", "vertical")
_RELATIONS = ("under", "against", "behind", "horizontal", "vertical", "straight", "off", "from", "apart")
_EDGES = ("step", "chair", "table")


def statement(item: Item, names: Names) -> Statement | None:
    """What an item says; None where it could not be understood, which is then said."""
    return _READERS[item.form](item, names)


def _said(item: Item, names: Names) -> Statement | None:
    words = item.part.text
    if words in POSTURE_WORDS:
        name, side = POSTURE_WORDS[words]
        return model.Posture(name, side, span=item.span)
    front, _, last = words.rpartition(" ")
    if front and last in _DIRECTED:
        return _directed(item, front, last, names)
    found = axis(words)
    if found is not None:
        front = f"{found.side} {found.joint}" if found.side else _plural(found.joint)
        names.say(say.no_number(front, words, item.span))
        return None
    known = (*POSTURES, *JOINT_WORDS)
    names.say(say.unknown_item(words, nearest(words, known) or _near_relation(words), item.span))
    return None


def _near_relation(words: str) -> str | None:
    """The words with the one put right that says how a part stands to another: `hands undr shoulders`."""
    parts = words.split()
    for at, word in enumerate(parts[1:], 1):
        near = nearest(word, _RELATIONS) if len(word) > 2 else None
        if near is not None:
            return " ".join((*parts[:at], near, *parts[at + 1 :]))
    return None


def _directed(item: Item, front: str, direction: str, names: Names) -> Statement | None:
    limb = part(replace(item.part, text=front), names)
    if limb is None:
        return None
    if limb.name not in _LIMBS:
        why, action = f"the {limb.name} has no direction of its own", "name a limb, such as `thighs horizontal`"
        names.say(say.cannot_stand_so(item_text(item), why, action, item.span))
        return None
    return model.Line(limb, direction, span=item.span)


def _angle(item: Item, names: Names) -> Statement | None:
    words, amount = item.part.text, item.amount
    assert amount is not None
    unit = UNITS.get(amount.unit or "")
    if item.towards and unit is not None and unit.dimension == "length":
        return _aside(item, names)
    found = axis(words)
    if found is None:
        names.say(say.unknown_joint(words, near_joint(words), tuple(JOINT_WORDS), item.part.span))
        return None
    joint, side, behind = found
    if joint in SPINE and side:
        names.say(say.side_of_middle(joint, side, True, item.part.span))
        return None
    movement = behind or JOINTS[joint][0]
    if movement not in JOINTS[joint]:
        near = nearest(movement, JOINTS[joint])
        names.say(say.no_such_movement(joint, movement, JOINTS[joint], near, item.part.span))
        return None
    if not _sided_well(item, joint, movement, names) or not _degrees(item, names):
        return None
    return model.Angle(joint, movement, amount.value, side, item.towards, span=item.span)


def _aside(item: Item, names: Names) -> Statement | None:
    """`right foot 30 cm to right`: from where it was in the pose before."""
    assert item.amount is not None
    one = part(item.part, names)
    far = centimetres(item.amount, f"the distance in `{item_text(item)}`", _example(item), FAR, names)
    return None if one is None or far is None else model.Distance(one, far, item.towards, span=item.span)


def _sided_well(item: Item, joint: str, movement: str, names: Names) -> bool:
    """Whether a side is said where the spine bends or turns to one, and nowhere else."""
    needed = joint in SPINE and movement in TO_A_SIDE
    if needed and not item.towards and item.amount is not None and item.amount.value:
        names.say(say.no_towards(joint, movement, item.span))
        return False
    if item.towards and not needed:
        names.say(say.needless_towards(joint, movement, item.towards, item.span))
        return False
    return True


def _degrees(item: Item, names: Names, most: int = MOST_DEGREES) -> bool:
    """Whether an amount is one of degrees that a joint can turn by."""
    assert item.amount is not None
    if item.amount.unit is not None:
        names.say(say.wrong_measure(amount_text(item.amount), "an angle", f"{item.part.text} 90", item.amount.span))
        return False
    if abs(item.amount.value) > most:
        names.say(say.beyond_turning(str(item.amount.value), most, item.amount.span))
        return False
    return True


def _lean(item: Item, names: Names) -> Statement | None:
    assert item.amount is not None and item.other is not None
    if item.part.text not in ("trunk", "body", "upper body"):
        why, action = "it is the trunk that leans", "write `trunk lean forward 40`"
        names.say(say.cannot_stand_so(item_text(item), why, action, item.span))
        return None
    way = {"backward": "back", "backwards": "back", "forwards": "forward"}.get(item.other.text, item.other.text)
    if way not in ("forward", "back"):
        near = nearest(way, ("forward", "back"))
        names.say(say.unknown_direction(way, ("forward", "back"), near, item.other.span))
        return None
    if not _degrees(item, names, MOST_LEAN):
        return None
    return model.Lean(way, item.amount.value, span=item.span)


def _lift(item: Item, names: Names) -> Statement | None:
    lifted = part(item.part, names)
    if lifted is None or (item.other is not None and _surface(item.other, names) is None):
        return None
    return model.Lift(lifted, span=item.span)


def _slide(item: Item, names: Names) -> Statement | None:
    slid = part(item.part, names)
    return None if slid is None else model.Slide(slid, span=item.span)


def _touching(item: Item, names: Names) -> Statement | None:
    assert item.other is not None
    posture = POSTURE_WORDS.get(f"{item.part.text} {item.form} {item.other.text}")
    if posture is not None:
        return model.Posture(*posture, span=item.span)
    touching = part(item.part, names)
    surface = item.other.text.removesuffix(" edge")
    edge = surface != item.other.text
    if edge and surface not in _EDGES:
        names.say(say.unknown_part(item.other.text, "step edge", item.other.span))
        return None
    if surface == "mat" or surface in SURFACES:
        surface = "floor" if surface == "mat" else surface
        return None if touching is None else model.Contact(touching, surface, edge, span=item.span)
    on = part(item.other, names, surfaces=True)
    return None if touching is None or on is None else model.Touch(touching, on, span=item.span)


def _under(item: Item, names: Names) -> Statement | None:
    two = _two(item, names)
    return None if two is None else model.Under(*two, span=item.span)


def _behind(item: Item, names: Names) -> Statement | None:
    """`hands behind head` is a posture; anything else has to say how far."""
    assert item.other is not None
    posture = POSTURE_WORDS.get(f"{item.part.text} behind {item.other.text}")
    if posture is not None:
        return model.Posture(*posture, span=item.span)
    action = f"write `{item.part.text} 30 cm behind {item.other.text}`"
    names.say(say.cannot_stand_so(item_text(item), "it does not say how far", action, item.span))
    return None


def _level(item: Item, names: Names) -> Statement | None:
    two = _two(item, names)
    return None if two is None else model.Height(*two, span=item.span)


def _two(item: Item, names: Names) -> tuple[Part, Part] | None:
    assert item.other is not None
    one, other = part(item.part, names), part(item.other, names)
    return None if one is None or other is None else (one, other)


def _distance(item: Item, names: Names) -> Statement | None:
    assert item.amount is not None
    relation = "behind" if item.form == "far behind" else item.form
    one = part(item.part, names)
    far = centimetres(item.amount, f"the distance in `{item_text(item)}`", _example(item), FAR, names)
    if relation == "apart":
        return _apart(item, one, far, names)
    assert item.other is not None
    surface = item.other.text
    if relation == "from" and surface in SURFACES:
        return None if one is None or far is None else model.Distance(one, far, relation, surface, span=item.span)
    if surface in SURFACES:
        why, action = "only a part can be in front of or behind a part", f"write `{item.part.text} 45 cm from wall`"
        names.say(say.cannot_stand_so(item_text(item), why, action, item.span))
        return None
    other = part(item.other, names, surfaces=True)
    if one is None or far is None or other is None:
        return None
    return model.Distance(one, far, relation, "", other, span=item.span)


def _apart(item: Item, one: Part | None, far: Decimal | None, names: Names) -> Statement | None:
    if one is not None and (one.side or one.name in MIDDLE_PARTS):
        why, action = "one alone is not apart", "name both, such as `feet 30 cm apart`"
        names.say(say.cannot_stand_so(item_text(item), why, action, item.span))
        return None
    return None if one is None or far is None else model.Distance(one, far, "apart", span=item.span)


def _example(item: Item) -> str:
    """The item with a unit behind its number."""
    assert item.amount is not None
    return item_text(replace(item, amount=replace(item.amount, unit="cm")))


def _surface(name: Name, names: Names) -> str | None:
    """A surface by its name; else None, and it is said."""
    word = name.text.removesuffix(" edge")
    if word == "mat" or word in SURFACES:
        return "floor" if word == "mat" else word
    names.say(say.unknown_part(name.text, nearest(word, SURFACES), name.span))
    return None


def _plural(joint: str) -> str:
    return next(word for word, one in JOINT_WORDS.items() if one == joint)


_READERS: dict[str, Callable[[Item, Names], Statement | None]] = {
    "said": _said,
    "angle": _angle,
    "lean": _lean,
    "lift": _lift,
    "off": _lift,
    "slide": _slide,
    "on": _touching,
    "against": _touching,
    "under": _under,
    "behind": _behind,
    "level": _level,
    "from": _distance,
    "apart": _distance,
    "in front of": _distance,
    "far behind": _distance,
}
