"""What is said about figures: the words of a pose, the things beside the body, what a figure takes from another."""

from __future__ import annotations

from collections.abc import Sequence
from decimal import Decimal

from protodsl.diagnostics.diagnostic import Code, Diagnostic, Fix, Label, Severity
from protodsl.diagnostics.phrases import either
from protodsl.source import Span
from protodsl.units import plain

UNKNOWN_ITEM = Code("F101", "not-part-of-a-pose", Severity.ERROR)
UNKNOWN_PART = Code("F102", "unknown-body-part", Severity.ERROR)
UNKNOWN_JOINT = Code("F103", "unknown-joint", Severity.ERROR)
NO_SUCH_MOVEMENT = Code("F104", "movement-the-joint-has-not", Severity.ERROR)
NO_NUMBER = Code("F105", "angle-without-a-number", Severity.ERROR)
UNKNOWN_DIRECTION = Code("F106", "unknown-direction", Severity.ERROR)
UNKNOWN_VIEW = Code("F107", "unknown-view", Severity.ERROR)
UNKNOWN_POSITION = Code("F108", "unknown-position", Severity.ERROR)
NO_POSITION = Code("F109", "first-pose-without-a-position", Severity.ERROR)
NO_POSE = Code("F110", "figure-without-a-pose", Severity.ERROR)
OUT_OF_ORDER = Code("F111", "poses-out-of-order", Severity.ERROR)
NOT_THERE = Code("F112", "thing-that-is-not-there", Severity.ERROR)
SIDE_OF_MIDDLE = Code("F113", "side-of-a-middle-part", Severity.ERROR)
NO_TOWARDS = Code("F114", "bending-to-no-side", Severity.ERROR)
WRONG_MEASURE = Code("F115", "missing-or-wrong-measure", Severity.ERROR)
SIZE = Code("F116", "size-out-of-the-ordinary", Severity.ERROR)
WRONG_PLACE = Code("F117", "thing-in-a-place-it-cannot-have", Severity.ERROR)
CANNOT_STAND_SO = Code("F118", "relation-that-cannot-be", Severity.ERROR)
BUT_WITHOUT_POSE = Code("F119", "but-without-a-pose-to-change", Severity.ERROR)
LIKE_WITHOUT_FIGURE = Code("F120", "like-without-a-figure", Severity.ERROR)
LIKE_IN_A_CIRCLE = Code("F121", "figure-like-in-a-circle", Severity.ERROR)
OTHER_POSITION = Code("F122", "figure-in-another-position", Severity.WARNING)
STILL_ARROW = Code("F123", "arrow-without-a-movement", Severity.ERROR)


def unknown_item(written: str, near: str | None, at: Span) -> Diagnostic:
    """An item of a pose that begins with no part and is no position and no posture."""
    return Diagnostic(
        UNKNOWN_ITEM,
        f"`{written}` says nothing about a pose",
        Label(at),
        notes=("a pose is made of angles (`right knee 90`), contacts (`hands on wall`), postures (`trunk upright`)",),
        help=f"did you mean `{near}`?" if near else "write what a part does, such as `lift left foot`",
        fix=Fix(at, near) if near else None,
        args={"written": written, "nearest": near},
    )


def unknown_part(written: str, near: str | None, at: Span) -> Diagnostic:
    """A part of the body, or a thing to touch, that a figure does not know."""
    return Diagnostic(
        UNKNOWN_PART,
        f"a figure knows no part or surface `{written}`",
        Label(at),
        help=f"did you mean `{near}`?" if near else "`protodsl reference closed lists` has parts and surfaces",
        fix=Fix(at, near) if near else None,
        args={"written": written, "nearest": near},
    )


def unknown_joint(written: str, near: str | None, known: Sequence[str], at: Span) -> Diagnostic:
    """An angle of something that is no joint of the body that is drawn."""
    return Diagnostic(
        UNKNOWN_JOINT,
        f"`{written}` begins with no joint that a figure has",
        Label(at),
        notes=(f"joints: {', '.join(known)}",),
        help=f"did you mean `{near}`?" if near else "name one of these joints",
        fix=Fix(at, near) if near else None,
        args={"written": written, "nearest": near},
    )


def no_such_movement(joint: str, movement: str, known: Sequence[str], near: str | None, at: Span) -> Diagnostic:
    """A movement that the joint does not have."""
    return Diagnostic(
        NO_SUCH_MOVEMENT,
        f"the {joint} has no movement `{movement}`",
        Label(at),
        notes=(f"the {joint} has {', '.join(known)}",),
        help=f"did you mean `{near}`?" if near else "name one of these movements, or none for the first of them",
        args={"joint": joint, "movement": movement, "nearest": near},
    )


def no_number(joint: str, written: str, at: Span) -> Diagnostic:
    """A joint with words where its degrees should stand."""
    return Diagnostic(
        NO_NUMBER,
        f"`{written}` does not say how many degrees",
        Label(at),
        help=f"write the angle as a number, such as `{joint} 90`, or `{joint} straight`",
        args={"joint": joint, "written": written},
    )


def beyond_turning(written: str, most: int, at: Span) -> Diagnostic:
    """More degrees than any joint turns."""
    return Diagnostic(
        NO_NUMBER,
        f"no joint turns by {written} degrees",
        Label(at),
        help=f"write the angle from the neutral position, at most {most}",
        args={"written": written},
    )


def unknown_direction(written: str, known: Sequence[str], near: str | None, at: Span) -> Diagnostic:
    """An arrow, or a trunk that leans, in no direction."""
    return Diagnostic(
        UNKNOWN_DIRECTION,
        f"`{written}` is no direction",
        Label(at),
        help=f"did you mean `{near}`?" if near else f"end with {either([f'`{one}`' for one in known])}",
        args={"written": written, "nearest": near},
    )


def unknown_view(written: str, known: Sequence[str], near: str | None, at: Span) -> Diagnostic:
    """A view that there is none of."""
    return Diagnostic(
        UNKNOWN_VIEW,
        f"a figure cannot be looked at from `{written}`",
        Label(at),
        help=f"did you mean `{near}`?" if near else f"write {either([f'`{one}`' for one in known])}",
        fix=Fix(at, near) if near else None,
        args={"written": written, "nearest": near},
    )


def unknown_position(written: str, known: Sequence[str], near: str | None, at: Span) -> Diagnostic:
    """A pose that begins with what looks like a position and is none."""
    return Diagnostic(
        UNKNOWN_POSITION,
        f"`{written}` is no position that a figure knows",
        Label(at),
        notes=(f"positions: {', '.join(known)}",),
        help=f"did you mean `{near}`?" if near else "begin with one of these positions",
        fix=Fix(at, near) if near else None,
        args={"written": written, "nearest": near},
    )


def position_not_first(written: str, at: Span) -> Diagnostic:
    """A position behind other items, where it would undo them."""
    return Diagnostic(
        UNKNOWN_POSITION,
        f"the position `{written}` does not stand first in its pose",
        Label(at),
        notes=("a position puts the whole body anew, and what is said behind it changes that",),
        help="put it in front of the other items",
        args={"written": written},
    )


def no_position(known: Sequence[str], at: Span) -> Diagnostic:
    """A first pose that does not say how the person is placed."""
    return Diagnostic(
        NO_POSITION,
        "the first pose does not begin with a position",
        Label(at),
        notes=(f"positions: {', '.join(known)}",),
        help="write the position first, such as `start lying on back, knees 100`",
    )


def no_pose(at: Span) -> Diagnostic:
    """A figure in which nobody is."""
    return Diagnostic(
        NO_POSE,
        "this figure has no pose",
        Label(at),
        help="write a line `start` with a position, such as `start standing`",
    )


def out_of_order(role: str, before: str, at: Span, first: Span) -> Diagnostic:
    """A pose that stands behind one that comes after it."""
    return Diagnostic(
        OUT_OF_ORDER,
        f"`{role}` stands behind `{before}`",
        Label(at),
        (Label(first, f"`{before}` is here"),),
        notes=("poses stand in the order in which they are done: `start`, each `then`, `end`",),
        help=f"put the line `{role}` in front",
        args={"role": role, "before": before},
    )


def no_start(role: str, at: Span) -> Diagnostic:
    """A figure of its own that begins in the middle."""
    return Diagnostic(
        OUT_OF_ORDER,
        f"`{role}` has no `start` in front of it",
        Label(at),
        help="write a line `start` with the position that the exercise begins in",
        args={"role": role, "before": ""},
    )


NEEDED = {
    "wall": "wall in front", "chair": "chair 45 cm", "step": "step 15 cm", "table": "table 90 cm",
    "pillow": "pillow under head", "towel": "towel under right knee", "ball": "ball 20 cm between knees",
}  # fmt: skip


def not_there(surface: str, at: Span) -> Diagnostic:
    """Something to touch that the figure does not have."""
    return Diagnostic(
        NOT_THERE,
        f"there is no {surface} in this figure",
        Label(at),
        help=f"write `{NEEDED.get(surface, surface)}` under `figure`",
        args={"surface": surface},
    )


def side_of_middle(part: str, side: str, bends: bool, at: Span) -> Diagnostic:
    """A side of a part that stands in the middle of the body."""
    return Diagnostic(
        SIDE_OF_MIDDLE,
        f"there is only one {part}, and no {side} one",
        Label(at),
        help=f"write `{part} rotation 30 to {side}` where it turns to a side" if bends else f"write `{part}`",
        args={"part": part, "side": side},
    )


def no_towards(joint: str, movement: str, at: Span) -> Diagnostic:
    """Side bending or rotation of the spine without the side."""
    return Diagnostic(
        NO_TOWARDS,
        f"{movement} of the {joint} does not say to which side",
        Label(at),
        help=f"write `{joint} {movement} 30 to right`",
        args={"joint": joint, "movement": movement},
    )


def needless_towards(joint: str, movement: str, side: str, at: Span) -> Diagnostic:
    """A side behind a movement that goes to no side."""
    return Diagnostic(
        NO_TOWARDS,
        f"{movement} of the {joint} goes to no side",
        Label(at),
        help=f"leave out `to {side}`; a side of the body stands in front, as in `{side} hip abduction 30`",
        args={"joint": joint, "movement": movement, "side": side},
    )


def wrong_measure(written: str, kind: str, example: str, at: Span) -> Diagnostic:
    """A number without its unit, or with that of something else; `kind` is what it should be (a length)."""
    return Diagnostic(
        WRONG_MEASURE,
        f"`{written}` is not {kind}",
        Label(at),
        notes=("lengths and weights have a unit, and angles are a number alone",),
        help=f"write it as in `{example}`",
        args={"written": written, "kind": kind},
    )


def no_weight(example: str, at: Span) -> Diagnostic:
    """A weight that is not said."""
    return Diagnostic(
        WRONG_MEASURE,
        "it is not said how heavy this weight is",
        Label(at),
        help=f"write it as in `{example}`",
    )


def size(what: str, least: int, most: int, unit: str, value: Decimal, at: Span) -> Diagnostic:
    """A size that no such thing has beside somebody of 170 cm."""
    return Diagnostic(
        SIZE,
        f"{what} of {plain(value)} {unit} cannot be meant",
        Label(at),
        notes=(f"between {least} and {most} {unit} can be drawn",),
        help="check the number and its unit",
        args={"what": what, "value": value, "least": least, "most": most},
    )


def wrong_place(kind: str, place: str, example: str, at: Span) -> Diagnostic:
    """A thing that cannot be where the line puts it (`place` "": nowhere), or that has to be told where."""
    return Diagnostic(
        WRONG_PLACE,
        f"a {kind} has no place `{place}` in a figure" if place else f"it is not said where the {kind} is",
        Label(at),
        help=f"write for example `{example}`",
        args={"kind": kind, "place": place},
    )


def cannot_stand_so(written: str, why: str, action: str, at: Span) -> Diagnostic:
    """A relation between parts that a figure cannot place."""
    return Diagnostic(
        CANNOT_STAND_SO,
        f"`{written}` cannot be placed: {why}",
        Label(at),
        help=action,
        args={"written": written, "why": why},
    )


def but_without_pose(role: str, at: Span) -> Diagnostic:
    """`but` where there is no pose to change."""
    return Diagnostic(
        BUT_WITHOUT_POSE,
        f"there is no `{role}` that this line could change",
        Label(at),
        notes=("`but` changes one item or more of the pose of the figure that this one is `like`",),
        help="leave out `but` and write the whole pose, or name another exercise behind `figure like`",
        args={"role": role},
    )


def like_without_figure(name: str, at: Span) -> Diagnostic:
    """A figure like that of an exercise that has none."""
    return Diagnostic(
        LIKE_WITHOUT_FIGURE,
        f"the exercise `{name}` has no figure to be like",
        Label(at),
        help="name an exercise that has one, or write the whole figure here",
        args={"name": name},
    )


def like_in_a_circle(names: Sequence[str], at: Span) -> Diagnostic:
    """Figures that are each like the next, round to the first."""
    return Diagnostic(
        LIKE_IN_A_CIRCLE,
        f"these figures are like one another in a circle: {', '.join(f'`{name}`' for name in names)}",
        Label(at),
        help="write the figure of one of them whole",
        args={"names": tuple(names)},
    )


def other_position(drawn: str, said: str, at: Span, position: Span) -> Diagnostic:
    """A figure in another position than the exercise says."""
    return Diagnostic(
        OTHER_POSITION,
        f"the figure shows `{drawn}`, and the exercise says `position {said}`",
        Label(at, "drawn so"),
        (Label(position, "said so"),),
        help="change the one that is wrong",
        args={"drawn": drawn, "said": said},
    )


def still_arrow(at: Span) -> Diagnostic:
    """An arrow in a figure with one pose."""
    return Diagnostic(
        STILL_ARROW,
        "nothing moves in a figure with one pose, so an arrow points at nothing",
        Label(at),
        help="write a line `end` with the pose that the movement leads to, or leave out the arrow",
    )
