"""What is said on what leads to what: levels, phases, replacements, and conditions that never or always hold."""

from __future__ import annotations

from collections.abc import Sequence

from protodsl.diagnostics.diagnostic import Code, Diagnostic, Label, Severity
from protodsl.source import Span

UNREACHABLE_LEVEL = Code("C401", "level-out-of-reach", Severity.WARNING)
INSTEAD_IN_A_CIRCLE = Code("C402", "instead-in-a-circle", Severity.ERROR)
UP_AND_DOWN = Code("C403", "up-and-down-at-once", Severity.HINT)
NEVER_HOLDS = Code("C404", "never-holds", Severity.ERROR)
ALWAYS_HOLDS = Code("C405", "always-holds", Severity.WARNING)
ENDLESS_PHASE = Code("C406", "phase-without-end", Severity.ERROR)
UP_FROM_THE_TOP = Code("C407", "up-from-the-last-level", Severity.WARNING)

CODES: tuple[Code, ...] = (
    UNREACHABLE_LEVEL,
    INSTEAD_IN_A_CIRCLE,
    UP_AND_DOWN,
    NEVER_HOLDS,
    ALWAYS_HOLDS,
    ENDLESS_PHASE,
    UP_FROM_THE_TOP,
)

# What a condition under each keyword decides, as a person says it.
_NEVER_MEANS: dict[str, str] = {
    "if": "this row never applies",
    "avoid if": "nobody is kept from the exercise by it",
    "caution if": "nobody is ever told to take care",
    "start at": "nobody ever starts at this level",
    "up when": "nobody ever moves up from this level",
    "down when": "nobody ever moves down",
    "until": "this phase never ends",
    "back to": "nobody ever goes back",
    "add": "nothing is ever added",
    "take off": "nothing is ever taken off",
    "give": "it is never given",
}
_ALWAYS_MEANS: dict[str, str] = {
    "if": "the rows below it never apply",
    "avoid if": "the exercise is given to nobody",
    "caution if": "everybody is told so, whatever they answer",
    "start at": "everybody starts at this level",
    "up when": "everybody moves up after each session",
    "down when": "everybody moves down, and nobody up",
    "until": "the phase ends as soon as everything is known",
    "back to": "everybody is sent back",
    "add": "something is added after each session",
    "take off": "something is taken off after each session",
    "give": "it is given to everybody of whom everything is known",
    "emergency if": "nobody ever gets a sheet",
    "red flag if": "nobody ever gets a sheet",
    "call if": "everybody is told to call",
}


def unreachable_level(level: str, before: str, at: Span, before_at: Span) -> Diagnostic:
    """A level that nobody moves up to and nobody starts at."""
    return Diagnostic(
        UNREACHABLE_LEVEL,
        f"nobody ever comes to the level `{level}`",
        Label(at),
        (Label(before_at, f"`{before}` has no `up when`"),),
        notes=("only a clinician can put somebody there by hand, with `place`",),
        help=f"add an `up when` to `{before}`, or a `start at {level} if ...`",
        args={"level": level, "before": before},
    )


def instead_in_a_circle(names: Sequence[str], places: Sequence[Span]) -> Diagnostic:
    """Exercises that stand in for one another in turn; `names` begin and end with the same one."""
    return Diagnostic(
        INSTEAD_IN_A_CIRCLE,
        f"`instead` goes round in a circle: {' to '.join(f'`{name}`' for name in names)}",
        Label(places[0], f"from `{names[0]}` to `{names[1]}`"),
        tuple(
            Label(place, f"from `{name}` to `{after}`")
            for place, name, after in zip(places[1:], names[1:], names[2:], strict=False)
        ),
        notes=("whoever can do none of them would be sent from one to the next",),
        help="name an exercise at one of these places that leads out of the circle"
        if len(names) > 2
        else f"name another exercise; where `{names[0]}` may be done then, lift the inherited line with `allow if`",
        args={"names": tuple(names)},
    )


def up_and_down(at: Span, down: Span, when: str) -> Diagnostic:
    """A level that can be left upward and downward by the same session; `when` is an example."""
    return Diagnostic(
        UP_AND_DOWN,
        "moving up and moving down can both hold after one session; then down wins",
        Label(at, "up"),
        (Label(down, "down"),),
        notes=(f"for example with {when}",) if when else (),
        help="add to `up when` what keeps the two apart, if moving down is not meant then",
        args={"when": when},
    )


def never_holds(keyword: str, at: Span, parts: Sequence[Span], unless: bool) -> Diagnostic:
    """A condition that no answers can meet; `parts` are two that contradict each other."""
    means = "it is given to everybody" if unless else _NEVER_MEANS[keyword]
    return Diagnostic(
        NEVER_HOLDS,
        f"this can never hold, so {means}",
        Label(at),
        tuple(Label(part, "not together with the other") for part in parts),
        help="mend the numbers, or join the parts with `or`",
        args={"keyword": keyword},
    )


def always_holds(keyword: str, at: Span, unless: bool) -> Diagnostic:
    """A condition that no answers can fail."""
    means = "it is given to nobody" if unless else _ALWAYS_MEANS[keyword]
    return Diagnostic(
        ALWAYS_HOLDS,
        f"this always holds, so {means}",
        Label(at),
        help="mend the numbers, or leave the condition out",
        args={"keyword": keyword},
    )


def endless_phase(phase: str, following: str, at: Span, following_at: Span) -> Diagnostic:
    """A phase with another behind it and nothing that ends it."""
    return Diagnostic(
        ENDLESS_PHASE,
        f"the phase `{phase}` never ends, so nobody comes to `{following}`",
        Label(at),
        (Label(following_at, "never begins"),),
        help="add an `until` line, as in `until weeks since phase start >= 4`",
        args={"phase": phase, "following": following},
    )


def up_from_the_top(level: str, at: Span, level_at: Span) -> Diagnostic:
    """An `up when` of the highest level."""
    return Diagnostic(
        UP_FROM_THE_TOP,
        f"`{level}` is the last level, so there is nothing to move up to",
        Label(at),
        (Label(level_at, "the last level"),),
        help="take the line out, or add the level that is meant to follow",
        args={"level": level},
    )
