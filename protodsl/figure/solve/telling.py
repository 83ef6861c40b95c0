"""From the facts about a solved pose to what is said of it."""

from __future__ import annotations

from collections.abc import Iterator
from math import degrees

from protodsl.diagnostics import poses as say
from protodsl.diagnostics.diagnostic import Diagnostic
from protodsl.figure.body.limits import FROM_MEMORY, LIMITS, beyond_anatomy, plain_name, two_joint
from protodsl.figure.body.parts import FEET, limb_of
from protodsl.figure.body.skeleton import ANGLES, SIDES
from protodsl.figure.solve.base_of_support import inside
from protodsl.figure.solve.faults import (
    Beyond,
    Fault,
    NotHeld,
    OffSurface,
    beyond_of,
    faults_of,
    looser,
    shortfall,
    slides_of,
)
from protodsl.figure.solve.hints import Hint, WithoutAngle, WithoutContact, hints_of
from protodsl.figure.solve.motion import PELVIS
from protodsl.figure.solve.posing import Posed
from protodsl.figure.solve.scene import Scene
from protodsl.figure.solve.statements import fixed_angles
from protodsl.figure.solve.weights import CAN_FALL
from protodsl.figure.solve.words import angle_words, joint_words, part_words, statement_words
from protodsl.model.figure import Angle, Pose
from protodsl.source import NOWHERE, Span
from protodsl.units import plain

# So far outside the base of support the centre of mass is said to be outside, in cm.
OUTSIDE = 0.5


def said_before(pose: Pose) -> Iterator[Diagnostic]:
    """What can be said of a pose before anything is solved: angles that no body does, or that are given twice."""
    given: dict[str, tuple[float, Angle]] = {}
    for name, (value, one) in fixed_angles(pose).items():
        if beyond_anatomy(name, value):
            movement, normal, source = LIMITS[plain_name(name)].ends(value)
            if _first_of(name, pose, one):
                joint = joint_words(name, both=isinstance(one, Angle) and not one.side)
                yield say.beyond_anatomy(joint, movement, abs(value), normal, source, one.span)
    for one in pose.statements:
        if not isinstance(one, Angle):
            continue
        for name, (value, _) in fixed_angles(_alone(pose, one)).items():
            before = given.setdefault(name, (value, one))
            if before[0] != value:
                yield say.angle_twice(joint_words(name), before[0], value, one.span, before[1].span)
                break


def _alone(pose: Pose, one: Angle) -> Pose:
    return Pose(pose.role, pose.position, pose.forward, (one,), span=pose.span)


def _first_of(name: str, pose: Pose, one: object) -> bool:
    """Whether an angle is the first of those that one statement fixes: a pair is said once."""
    return next(other for other, (_, by) in fixed_angles(pose).items() if by is one) == name


def said_of(posed: Posed, scene: Scene) -> list[Diagnostic]:
    """What is to be said of a solved pose: one error where it cannot be, else its warnings."""
    faults = faults_of(posed, scene)
    if faults:
        return [_cannot_be(posed, faults, scene)]
    return [*_slides(posed, scene), *_beyond(posed), *_two_joints(posed), *_balance(posed)]


def _cannot_be(posed: Posed, faults: tuple[Fault, ...], scene: Scene) -> Diagnostic:
    worst = next((fault for fault in faults if isinstance(fault, OffSurface)), None)
    if worst is not None:
        measured = shortfall(posed, worst, looser(posed, worst, scene))
        faults = tuple(measured if fault is worst else fault for fault in faults)
    facts = tuple(dict.fromkeys(_fact(fault, faults) for fault in faults))
    hints = tuple(_words(hint, posed) for hint in hints_of(posed, scene))
    return say.pose_cannot_be(_kind(faults), posed.asked.pose.role, hints, facts, posed.asked.pose.span, _place(faults))


def _kind(faults: tuple[Fault, ...]) -> str:
    first = faults[0]
    match first:
        case OffSurface():
            return "contact"
        case NotHeld():
            return "relation"
        case Beyond():
            return "anatomy"
        case _:
            return "through"


def _place(faults: tuple[Fault, ...]) -> Span:
    return next((fault.statement.span for fault in faults if isinstance(fault, NotHeld)), NOWHERE)


def _fact(fault: Fault, faults: tuple[Fault, ...]) -> str:
    if isinstance(fault, OffSurface):
        return say.off_surface(part_words(fault.part), fault.surface, fault.cm)
    if isinstance(fault, NotHeld):
        return say.not_held(statement_words(fault.statement), fault.off, fault.in_degrees)
    if isinstance(fault, Beyond):
        alike = [one for one in faults if isinstance(one, Beyond) and plain_name(one.angle) == plain_name(fault.angle)]
        joint = joint_words(fault.angle, both=len({round(one.degrees) for one in alike}) < len(alike))
        return say.past_anatomy(joint, fault.movement, abs(fault.degrees), fault.normal)
    return say.goes_through(fault.landmark, fault.what, fault.cm)


def _words(hint: Hint, posed: Posed) -> tuple[str, str]:
    if isinstance(hint, WithoutContact):
        return say.without_contact(part_words(hint.part), hint.surface, hint.because)
    if isinstance(hint, WithoutAngle):
        return say.without_angle(angle_words(hint.angle), plain(hint.angle.degrees), hint.instead)
    return say.without_relation(statement_words(hint.statement))


def _slides(posed: Posed, scene: Scene) -> Iterator[Diagnostic]:
    slides = slides_of(posed)
    if not slides:
        return
    hints = tuple(_words(hint, posed) for hint in hints_of(posed, scene))
    yield say.contact_slides(tuple((part_words(part), cm) for part, cm in slides.items()), hints, posed.asked.pose.span)


def _beyond(posed: Posed) -> Iterator[Diagnostic]:
    """One word for a joint on both sides."""
    grouped: dict[tuple[str, str, int, bool], list[Beyond]] = {}
    for one in beyond_of(posed):
        key = (plain_name(one.angle), one.movement, round(one.degrees), one.written is not None)
        grouped.setdefault(key, []).append(one)
    for several in grouped.values():
        first = several[0]
        at = (
            first.written.span if first.written is not None and first.written.span != NOWHERE else posed.asked.pose.span
        )
        joint = joint_words(first.angle, both=len(several) > 1)
        yield say.beyond_the_range(
            joint, first.movement, abs(first.degrees), first.normal, first.source, first.written is not None, at
        )


def _two_joints(posed: Posed) -> Iterator[Diagnostic]:
    angles = {name: degrees(posed.body.state[PELVIS + number]) for number, name in enumerate(ANGLES)}
    found: dict[tuple[str, str], list[str]] = {}
    for side in SIDES:
        loaded = any(name.startswith(side) and limb_of(name)[1] == "leg" and name.partition(" ")[2] in FEET
                     for name in posed.asked.holding.holds)  # fmt: skip
        for one in two_joint(angles, side, loaded):
            found.setdefault((one.muscle, one.words), []).append(side)
    for (muscle, words), sides in found.items():
        which = f"{sides[0]} " if len(sides) == 1 else ""
        yield say.two_joint(f"{which}{words}", muscle, FROM_MEMORY, posed.asked.pose.span)


def _balance(posed: Posed) -> Iterator[Diagnostic]:
    margin = inside(posed)
    if posed.asked.position.name in CAN_FALL and posed.asked.holding.holds and margin < -OUTSIDE:
        yield say.not_balanced(posed.asked.pose.role, -margin, posed.asked.pose.span)
