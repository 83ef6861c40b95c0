"""What is said of a body in a pose: what cannot be, and what would make it possible; ranges, balance, slides,
arrows.
"""

from __future__ import annotations

from collections.abc import Sequence

from protodsl.diagnostics.diagnostic import Code, Diagnostic, Label, Severity
from protodsl.source import NOWHERE, Span

OUT_OF_REACH = Code("F201", "part-that-cannot-get-there", Severity.ERROR)
NOT_SO = Code("F202", "relation-that-does-not-hold", Severity.ERROR)
THROUGH = Code("F203", "body-through-something", Severity.ERROR)
NO_BODY = Code("F204", "angle-that-no-body-has", Severity.ERROR)
BEYOND = Code("F205", "beyond-the-normal-range", Severity.WARNING)
TWO_JOINTS = Code("F206", "long-muscle-needed", Severity.WARNING)
FALLS = Code("F207", "not-balanced", Severity.WARNING)
SLIDES = Code("F208", "contact-that-slides", Severity.WARNING)
AGAINST = Code("F209", "arrow-against-the-movement", Severity.ERROR)
STILL = Code("F210", "arrow-at-what-stands-still", Severity.ERROR)
TWICE = Code("F211", "two-angles-for-one-joint", Severity.ERROR)

# The words of a hint: what could be left out, and what to write.
Hint = tuple[str, str]

_OF_KIND = {"contact": OUT_OF_REACH, "relation": NOT_SO, "through": THROUGH, "anatomy": NO_BODY}


def pose_cannot_be(
    kind: str, role: str, hints: Sequence[Hint], facts: Sequence[str], at: Span, also: Span
) -> Diagnostic:
    """A pose that no body can take; the likeliest way out comes first. `kind` is `contact`, `relation`, `through` or
    `anatomy`."""
    message = f"the `{role}` pose cannot be as written, but is {hints[0][0]}" if hints else facts[0]
    said = [f"or it is {words}" for words, _ in hints[1:]]
    return Diagnostic(
        _OF_KIND[kind],
        message,
        Label(at),
        (Label(also, "does not hold"),) if also != NOWHERE and also != at else (),
        notes=(*said, *(f"as it is written, {fact}" for fact in (facts if hints else facts[1:]))),
        help=hints[0][1] if hints else "take something out of this pose, or write other angles",
        args={"role": role, "hints": tuple(words for words, _ in hints), "facts": tuple(facts)},
    )


def without_contact(part: str, surface: str, because: str) -> Hint:
    """A contact that stands in the way; `because` is `written`, `kept` or the name of the position that brings it."""
    origin = {"written": "written here", "kept": "kept from the pose before"}.get(because, f"implied by {because}")
    return f"possible without `{part} on {surface}` ({origin})", f"write `lift {part}`"


def without_angle(angle: str, written: str, instead: float) -> Hint:
    """An angle that stands in the way, and what it would be of itself."""
    would = f"it would be {round(instead)} instead of {written}"
    return f"possible if {angle} is not fixed ({would})", f"take out or change `{angle} {written}`"


def without_relation(words: str) -> Hint:
    """A relation that stands in the way."""
    return f"possible without `{words}`", f"take out `{words}`"


def off_surface(part: str, surface: str, cm: float) -> str:
    """A part that does not get to its surface, or goes through it."""
    how = "short of it" if cm > 0 else "through it"
    return f"{part} cannot reach the {surface}: {_cm(abs(cm))} {how}"


def not_held(words: str, off: float, in_degrees: bool) -> str:
    """A relation that does not hold."""
    return f"`{words}` does not hold: {f'{off:.0f} degrees' if in_degrees else _cm(off)} off"


def goes_through(landmark: str, what: str, cm: float) -> str:
    """A part of the body where something else is."""
    below = "below the floor" if what == "floor" else f"inside the {what}"
    return f"the {landmark} would be {_cm(cm)} {below}"


def past_anatomy(joint: str, movement: str, degrees: float, normal: float) -> str:
    """An angle that nobody wrote and no body has."""
    return (
        f"{joint} {movement} {degrees:.0f}, implied by the contacts, is more than any body does "
        f"(the normal range ends at {normal:.0f})"
    )


def beyond_anatomy(joint: str, movement: str, degrees: float, normal: float, source: str, at: Span) -> Diagnostic:
    """A written angle that no body has."""
    return Diagnostic(
        NO_BODY,
        f"{joint} {movement} {degrees:.0f} is more than any body does (the normal range ends at {normal:.0f})",
        Label(at),
        notes=(f"the normal range: {source}",),
        help="check the number, and the movement it is measured in",
        args={"joint": joint, "movement": movement, "degrees": degrees, "normal": normal},
    )


def beyond_the_range(
    joint: str, movement: str, degrees: float, normal: float, source: str, written: bool, at: Span
) -> Diagnostic:
    """An angle past the normal range; not `written`: it follows from the contacts."""
    implied = "" if written else ", implied by the contacts"
    return Diagnostic(
        BEYOND,
        f"{joint} {movement} {degrees:.0f} is beyond the normal range ({normal:.0f}){implied}",
        Label(at),
        notes=(f"the normal range: {source}",),
        help="check the number" if written else "write another angle nearby, or lift a part",
        args={"joint": joint, "movement": movement, "degrees": degrees, "normal": normal, "written": written},
    )


def two_joint(words: str, muscle: str, source: str, at: Span) -> Diagnostic:
    """A pose that a muscle over two joints hardly allows."""
    return Diagnostic(
        TWO_JOINTS,
        f"{words} asks more length of the {muscle} than most adults have",
        Label(at),
        notes=(f"the limit: {source}",),
        help="bend one of the two joints less, if this is not meant",
        args={"muscle": muscle},
    )


def not_balanced(role: str, cm: float, at: Span) -> Diagnostic:
    """A pose in which a person would fall."""
    return Diagnostic(
        FALLS,
        f"the `{role}` pose is not balanced: the centre of mass is {_cm(cm)} outside the base of support",
        Label(at),
        help="add a support, such as `left hand on table`, or change an angle",
        args={"cm": cm},
    )


def contact_slides(slides: Sequence[tuple[str, float]], hints: Sequence[Hint], at: Span) -> Diagnostic:
    """Contacts of the pose before that cannot stay where they were."""
    part, cm = max(slides, key=lambda one: one[1])
    said = [f"{words}: {help}" for words, help in hints]
    others = [f"{other} would slide {_cm(far)}" for other, far in slides if other != part]
    return Diagnostic(
        SLIDES,
        f"{part} would slide {_cm(cm)} between the poses",
        Label(at),
        notes=(*said, *others),
        help=(f"{hints[0][1]}, or " if hints else "write ") + f"`slide {part}` if that is meant",
        args={"slides": tuple(slides), "hints": tuple(words for words, _ in hints)},
    )


def arrow_against(part: str, plural: bool, direction: str, moves: str, cm: float, at: Span) -> Diagnostic:
    """An arrow that points the other way."""
    verb = "move" if plural else "moves"
    return Diagnostic(
        AGAINST,
        f"arrow says `{part} {direction}`, but the {part} {verb} {moves} {_cm(cm)}",
        Label(at),
        help=f"write `arrow {part} {moves}`, or change the poses",
        args={"part": part, "direction": direction, "moves": moves, "cm": cm},
    )


def part_stands_still(part: str, plural: bool, at: Span) -> Diagnostic:
    """An arrow at a part that does not move."""
    return Diagnostic(
        STILL,
        f"arrow at the {part}, but the {part} {'do' if plural else 'does'} not move between the last two poses",
        Label(at),
        help="put the arrow at a part that moves, or change the poses",
        args={"part": part},
    )


def angle_twice(joint: str, first: float, second: float, at: Span, before: Span) -> Diagnostic:
    """Two written angles for one joint in one pose."""
    return Diagnostic(
        TWICE,
        f"this pose gives the {joint} two angles",
        Label(at),
        (Label(before, "the first of them"),),
        help="keep one of the two",
        args={"joint": joint, "first": first, "second": second},
    )


def _cm(cm: float) -> str:
    """Whole centimetres; where that would be none, millimetres are not worth a word either."""
    return f"{max(1, round(cm))} cm"
