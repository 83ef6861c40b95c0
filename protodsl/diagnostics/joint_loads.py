"""What is said of a `harder than` that the drawn figures contradict, or cannot confirm."""

from __future__ import annotations

from collections.abc import Sequence

from protodsl.diagnostics.diagnostic import Code, Diagnostic, Label, Severity
from protodsl.source import Span

CERTAINLY_LESS = Code("F401", "load-certainly-less", Severity.ERROR)
LESS = Code("F402", "load-less", Severity.WARNING)
OPEN = Code("F403", "load-not-established", Severity.WARNING)
NO_FIGURE = Code("F404", "load-without-a-figure", Severity.WARNING)
NO_ESTIMATE = Code("F405", "load-without-an-estimate", Severity.WARNING)
NO_JOINT = Code("F406", "load-at-a-joint-not-drawn", Severity.ERROR)
NOTHING_TO_COMPARE = Code("F407", "level-harder-than-itself", Severity.ERROR)
OTHER_MOVEMENT = Code("F408", "load-in-another-movement", Severity.WARNING)

# The estimate, and the least and most that it can be, in N m.
Figures = tuple[float, float, float]

_WHAT = (
    "reckoned is the largest moment that holds a body of 70 kg and 1.70 m still along the movement that is drawn,"
    " on the right side"
)


def certainly_less(
    harder: str, easier: str, joint: str, movement: str, more: Figures, less: Figures, beyond: Sequence[str], at: Span
) -> Diagnostic:
    """A claim that the figures contradict, whatever forces there are at the supports."""
    return Diagnostic(
        CERTAINLY_LESS,
        f"`{harder}` loads the {joint} less than `{easier}`: estimated {_against(more, less)} of {movement}",
        Label(at),
        notes=(_WHAT, *_ranges(harder, easier, more, less), *_beyond(beyond)),
        help=_mend(beyond, "put the levels in the other order, or take this line out"),
        args={"harder": harder, "easier": easier, "joint": joint, "movement": movement, "loads": (*more, *less)},
    )


def less(
    harder: str, easier: str, joint: str, movement: str, more: Figures, less: Figures, beyond: Sequence[str], at: Span
) -> Diagnostic:
    """A claim that the figures contradict as far as they can tell."""
    return Diagnostic(
        LESS,
        f"`{harder}` seems to load the {joint} less than `{easier}`: estimated {_against(more, less)} of {movement}",
        Label(at),
        notes=(_WHAT, *_ranges(harder, easier, more, less), *_beyond(beyond)),
        help=_mend(beyond, "look whether the figures show the right poses; if they do, take this line out"),
        args={"harder": harder, "easier": easier, "joint": joint, "movement": movement, "loads": (*more, *less)},
    )


def not_established(
    harder: str,
    easier: str,
    joint: str,
    movement: str,
    more: Figures,
    less: Figures,
    beyond: Sequence[str],
    bands: Sequence[str],
    at: Span,
) -> Diagnostic:
    """A claim that the figures neither confirm nor contradict."""
    pull = tuple(f"how hard the band of `{name}` pulls is not known" for name in bands)
    return Diagnostic(
        OPEN,
        f"the figures do not show that `{harder}` is harder than `{easier}` at the {joint}:"
        f" estimated {_against(more, less)} of {movement}",
        Label(at),
        notes=(_WHAT, *_ranges(harder, easier, more, less), *pull, *_beyond(beyond)),
        help=_mend(beyond, "take this line out, or let the figures show what makes it harder"),
        args={"harder": harder, "easier": easier, "joint": joint, "movement": movement, "loads": (*more, *less)},
    )


def other_movement(
    harder: str, easier: str, joint: str, movement: str, other: str, more: float, less: float, at: Span
) -> Diagnostic:
    """Two levels that load different movements of a joint."""
    return Diagnostic(
        OTHER_MOVEMENT,
        f"`{harder}` and `{easier}` load the {joint} in different movements and are not compared",
        Label(at),
        notes=(_WHAT, f"`{harder}`: {more:.0f} N m of {movement}", f"`{easier}`: {less:.0f} N m of {other}"),
        help="name a joint that both load in the same way, or take this line out",
        args={"harder": harder, "easier": easier, "joint": joint, "movement": movement, "other": other},
    )


def no_figure(exercise: str, harder: str, easier: str, joint: str, at: Span) -> Diagnostic:
    """A claim about an exercise that is not drawn."""
    return Diagnostic(
        NO_FIGURE,
        f"whether `{harder}` is harder than `{easier}` at the {joint} is not known: `{exercise}` has no figure",
        Label(at),
        help=f"draw a figure for `{exercise}`, or take this line out",
        args={"exercise": exercise, "harder": harder, "easier": easier, "joint": joint},
    )


def no_estimate(exercise: str, harder: str, easier: str, joint: str, at: Span) -> Diagnostic:
    """A claim about a movement in which nobody could hold still."""
    return Diagnostic(
        NO_ESTIMATE,
        f"whether `{harder}` is harder than `{easier}` at the {joint} is not known: no pose of `{exercise}` is one that"
        " a person can hold still",
        Label(at),
        help="add what the person stands or leans on to the figure, or take this line out",
        args={"exercise": exercise, "harder": harder, "easier": easier, "joint": joint},
    )


def no_joint(joint: str, known: Sequence[str], at: Span) -> Diagnostic:
    """A joint that is too small to be reckoned with."""
    return Diagnostic(
        NO_JOINT,
        f"no load is reckoned at the {joint}",
        Label(at),
        notes=(f"it is reckoned at {', '.join(known)}",),
        help="name one of these joints, or take this line out",
        args={"joint": joint},
    )


def nothing_to_compare(level: str, last: bool, at: Span) -> Diagnostic:
    """A level against itself; or (`last`) a whole progression whose last level is named, which no level follows."""
    what = f"no level comes after `{level}`" if last else f"the level `{level}` cannot be harder than itself"
    return Diagnostic(
        NOTHING_TO_COMPARE,
        what,
        Label(at),
        help="name an easier level",
        args={"level": level, "last": last},
    )


def _against(more: Figures, less: Figures) -> str:
    return f"{more[0]:.0f} N m against {less[0]:.0f} N m"


def _ranges(harder: str, easier: str, more: Figures, less: Figures) -> tuple[str, ...]:
    return (_range(harder, more), _range(easier, less))


def _range(level: str, figures: Figures) -> str:
    estimate, least, most = figures
    if most - least < 1.0:
        return f"`{level}`: {estimate:.0f} N m, which the weights alone decide"
    return f"`{level}`: {estimate:.0f} N m, and {least:.0f} to {most:.0f} N m depending on how the supports are pressed"


def _beyond(exercises: Sequence[str]) -> tuple[str, ...]:
    return tuple(f"the load in the dose of `{name}` is not part of it" for name in exercises)


def _mend(beyond: Sequence[str], otherwise: str) -> str:
    if beyond:
        return f"show the weight in the figure of `{beyond[-1]}`, such as `weight 5 kg on right hand`, or {otherwise}"
    return otherwise
