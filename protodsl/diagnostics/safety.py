"""What is said on safety: limits of a phase, danger signs, what to do instead, when to stop."""

from __future__ import annotations

import datetime
from collections.abc import Sequence
from decimal import Decimal

from protodsl.diagnostics.diagnostic import Code, Diagnostic, Label, Severity
from protodsl.source import Span
from protodsl.units import plain

PAST_LIMIT = Code("S601", "past-a-limit", Severity.ERROR)
FORBIDDEN = Code("S602", "forbidden-movement", Severity.ERROR)
SILENT_JOINT = Code("S603", "silent-about-a-joint", Severity.ERROR)
TOO_MUCH_BEARING = Code("S604", "more-weight-than-allowed", Severity.ERROR)
LOAD_PAST_LIMIT = Code("S605", "load-past-a-limit", Severity.ERROR)
LOAD_NOT_KNOWN = Code("S606", "load-not-known", Severity.ERROR)
PAST_NORMAL_RANGE = Code("S607", "past-the-normal-range", Severity.WARNING)
NO_INSTEAD = Code("S608", "avoid-without-instead", Severity.HINT)
INSTEAD_AVOIDED = Code("S609", "instead-avoided-too", Severity.WARNING)
NO_STOP_RULE = Code("S610", "no-stop-rule", Severity.WARNING)
NO_DANGER_SIGN = Code("S611", "no-danger-sign", Severity.WARNING)
REVIEW_PASSED = Code("S612", "review-date-passed", Severity.HINT)
FLAG_NEVER_YES = Code("S613", "danger-sign-never-yes", Severity.ERROR)
INSTEAD_LEFT_OUT = Code("S614", "instead-left-out", Severity.WARNING)
INSTEAD_LEADS_NOWHERE = Code("S615", "instead-leads-nowhere", Severity.ERROR)
LOOSER_LIMIT = Code("S616", "looser-limit", Severity.WARNING)
DRAWN_PAST_LIMIT = Code("S617", "drawn-past-a-limit", Severity.ERROR)
DRAWN_FURTHER = Code("S618", "drawn-further-than-said", Severity.WARNING)

CODES: tuple[Code, ...] = (
    PAST_LIMIT,
    FORBIDDEN,
    SILENT_JOINT,
    TOO_MUCH_BEARING,
    LOAD_PAST_LIMIT,
    LOAD_NOT_KNOWN,
    PAST_NORMAL_RANGE,
    NO_INSTEAD,
    INSTEAD_AVOIDED,
    NO_STOP_RULE,
    NO_DANGER_SIGN,
    REVIEW_PASSED,
    FLAG_NEVER_YES,
    INSTEAD_LEFT_OUT,
    INSTEAD_LEADS_NOWHERE,
    LOOSER_LIMIT,
    DRAWN_PAST_LIMIT,
    DRAWN_FURTHER,
)

GIVEN = "given here"


def at_most(op: str, most: str) -> str:
    """A limit in words; `op` is <= or <."""
    return f"{'at most' if op == '<=' else 'less than'} {most}"


def given() -> str:
    """Words for the line of a phase that gives something."""
    return GIVEN


def as_level(level: str) -> str:
    """Words for the line of a level on the way to an exercise."""
    return f"through the level `{level}`"


def in_place_of(exercise: str, kind: str) -> str:
    """Words for the line on the way to a replacement; `kind` is avoid or needs."""
    return f"`{exercise}` stands in here" if kind == "avoid" else f"`{exercise}` stands in where this is missing"


def past_limit(
    exercise: str, movement: str, to: Decimal, limit: str, phase: str, setting: str | None,
    way: Sequence[Label], at: Span, limited: Span,
) -> Diagnostic:  # fmt: skip
    """A movement that goes further than a phase allows; degrees; `way` leads from the give to the exercise."""
    return Diagnostic(
        PAST_LIMIT,
        f"`{exercise}` takes {movement} to {plain(to)} deg, and `{phase}` allows {limit}",
        way[0],
        (Label(limited, "the limit"), *way[1:], Label(at, f"`{exercise}` goes this far")),
        notes=(f"the limit is the setting `{setting}`",) if setting else (),
        help="give an exercise that stays within the limit, or `change` this one in the protocol",
        args={"exercise": exercise, "movement": movement, "to": to, "phase": phase},
    )


def drawn_past_limit(
    exercise: str, movement: str, drawn: int, pose: str, limit: str, phase: str,
    way: Sequence[Label], at: Span, limited: Span,
) -> Diagnostic:  # fmt: skip
    """A figure that shows more than a phase allows; degrees; `way` leads from the give to the exercise."""
    return Diagnostic(
        DRAWN_PAST_LIMIT,
        f"the figure of `{exercise}` shows {movement} {drawn} deg, and `{phase}` allows {limit}",
        way[0],
        (Label(limited, "the limit"), *way[1:], Label(at, f"drawn so in the `{pose}` pose")),
        notes=("whoever takes the sheet home does what is drawn",),
        help="draw a pose within the limit, or `change` the exercise in the protocol with another `figure`",
        args={"exercise": exercise, "movement": movement, "drawn": drawn, "phase": phase},
    )


def drawn_further(
    exercise: str, movement: str, to: Decimal, drawn: int, pose: str, at: Span, moves: Span
) -> Diagnostic:
    """A figure that goes clearly further than `moves` says; degrees."""
    return Diagnostic(
        DRAWN_FURTHER,
        f"`{exercise}` says {movement} to {plain(to)} deg, and its figure shows {drawn}",
        Label(at, f"drawn so in the `{pose}` pose"),
        (Label(moves, "said here"),),
        notes=("limits are checked against what `moves` says and against what is drawn",),
        help="write in `moves` how far it really goes, or draw less",
        args={"exercise": exercise, "movement": movement, "to": to, "drawn": drawn},
    )


def drawn_moving(exercise: str, joint: str, degrees: int, at: Span, named: Span) -> Diagnostic:
    """A figure that moves a joint which the exercise says is still; degrees."""
    return Diagnostic(
        DRAWN_FURTHER,
        f"`{exercise}` says `still {joint}`, and its figure moves the {joint} by {degrees} deg",
        Label(at, "moved up to this pose"),
        (Label(named, f"says `still {joint}`"),),
        notes=("limits are checked against what `moves` says and against what is drawn",),
        help=f"write a `moves` line for the {joint}, or draw it still",
        args={"exercise": exercise, "joint": joint, "degrees": degrees},
    )


def forbidden(
    exercise: str, movement: str, forbids: str, phase: str, way: Sequence[Label], at: Span, forbidding: Span
) -> Diagnostic:
    """A kind of movement that a phase forbids, or a stronger kind."""
    return Diagnostic(
        FORBIDDEN,
        f"`{exercise}` has {movement}, and `{phase}` forbids {forbids}",
        way[0],
        (Label(forbidding, "forbidden here"), *way[1:], Label(at, f"`{exercise}` does it here")),
        notes=("a kind of movement counts with every stronger kind; without a kind a movement counts as resisted",),
        help="give an exercise without this movement, or write the weaker kind that is meant",
        args={"exercise": exercise, "movement": movement, "phase": phase},
    )


def silent_joint(
    exercise: str, joint: str, phase: str, way: Sequence[Label], at: Span, limited: Span
) -> Diagnostic:
    """An exercise that says neither how it moves a limited joint nor that it keeps it still."""
    return Diagnostic(
        SILENT_JOINT,
        f"`{phase}` limits the {joint}, and `{exercise}` does not say what it does to it",
        way[0],
        (Label(limited, "the limit"), *way[1:], Label(at, f"silent about the {joint}")),
        notes=("what is not said is not known to be safe",),
        help=f"add `still {joint}`, or a `moves` line that says how far the {joint} goes",
        args={"exercise": exercise, "joint": joint, "phase": phase},
    )


def too_much_bearing(
    exercise: str, bearing: str, said: bool, most: str, phase: str, way: Sequence[Label], at: Span, limited: Span
) -> Diagnostic:
    """An exercise with more weight on the leg or arm than a phase allows; `limited` is the phase."""
    unsaid = ("an exercise without `bearing` counts as full",) if not said else ()
    return Diagnostic(
        TOO_MUCH_BEARING,
        f"`{exercise}` has bearing `{bearing}`, and `{phase}` allows `{most}`",
        way[0],
        (Label(limited, f"bearing {most}"), *way[1:], Label(at, f"bearing {bearing}" if said else "no `bearing` line")),
        notes=unsaid,
        help="write the bearing that is meant" if unsaid else "give an exercise with less weight on it",
        args={"exercise": exercise, "bearing": bearing, "most": most, "phase": phase},
    )


def load_past_limit(
    exercise: str, load: str, limit: str, phase: str, way: Sequence[Label], at: Span, limited: Span
) -> Diagnostic:
    """A load, or the end of its steps, over what a phase allows."""
    return Diagnostic(
        LOAD_PAST_LIMIT,
        f"`{exercise}` can come to {load}, and `{phase}` allows {limit}",
        way[0],
        (Label(limited, "the limit"), *way[1:], Label(at, f"{load} here")),
        help="write a `dose` under this `give`, or a lower `up to`, that stays within the limit",
        args={"exercise": exercise, "load": load, "phase": phase},
    )


def load_not_known(
    exercise: str, what: str, limit: str, phase: str, way: Sequence[Label], at: Span, limited: Span
) -> Diagnostic:
    """A load that nobody knows beforehand, under a limit on the load."""
    return Diagnostic(
        LOAD_NOT_KNOWN,
        f"`{phase}` allows {limit}, and nobody knows the load of `{exercise}` beforehand: {what}",
        way[0],
        (Label(limited, "the limit"), *way[1:], Label(at, "not known beforehand")),
        help="add `up to` with a weight within the limit",
        args={"exercise": exercise, "phase": phase},
    )


def past_normal_range(exercise: str, movement: str, to: Decimal, normal: Decimal, source: str, at: Span) -> Diagnostic:
    """A movement past the published range of healthy joints; degrees."""
    return Diagnostic(
        PAST_NORMAL_RANGE,
        f"{movement} to {plain(to)} deg in `{exercise}` is past the normal range of {plain(normal)} deg",
        Label(at),
        notes=(f"normal range by {source}",),
        help="check the number: is it measured from the neutral position?",
        args={"exercise": exercise, "movement": movement, "to": to, "normal": normal},
    )


def no_instead(exercise: str, at: Span) -> Diagnostic:
    """An exercise that is left out for somebody, with nothing in its place."""
    return Diagnostic(
        NO_INSTEAD,
        f"whoever has to leave out `{exercise}` here gets nothing in its place",
        Label(at),
        help="add `instead` with an exercise under the line, if there is one that is safe",
        args={"exercise": exercise},
    )


def instead_avoided(
    exercise: str, instead: str, further: str, always: bool, at: Span, avoided: Span
) -> Diagnostic:
    """A replacement that the same answer rules out; `further` is what then stands in for it.

    `always` is False where it is ruled out by one of several reasons only.
    """
    own_line = f"write an `avoid if` of its own for that answer, with `instead {further}`"
    return Diagnostic(
        INSTEAD_AVOIDED,
        f"`{instead}` stands in for `{exercise}`, but the same answer rules it out as well",
        Label(at),
        (Label(avoided, f"`{instead}` is avoided here"),),
        notes=(f"`{further}` is done in the end",),
        help=f"write `instead {further}`" if always else own_line,
        args={"exercise": exercise, "instead": instead, "further": further},
    )


def instead_leads_nowhere(exercise: str, instead: str, at: Span, avoided: Span) -> Diagnostic:
    """A replacement that the same answer rules out, with nothing safe behind it."""
    return Diagnostic(
        INSTEAD_LEADS_NOWHERE,
        f"`{instead}` stands in for `{exercise}`, but the same answer rules it out as well, and nothing is left to do",
        Label(at),
        (Label(avoided, f"`{instead}` is avoided here"),),
        help="name an exercise that is safe then, or take the `instead` out if there is none",
        args={"exercise": exercise, "instead": instead},
    )


def instead_left_out(
    exercise: str, missed: str, missing: bool, protocol: str, way: Sequence[Label], line: Span, leaving: Span
) -> Diagnostic:
    """A replacement that the protocol, or one of its phases, leaves out; `line` names it or leads to it.

    `missing` tells whether it was to stand in where equipment is missing.
    """
    whoever = f"has not what `{exercise}` needs" if missing else f"has to leave out `{exercise}`"
    return Diagnostic(
        INSTEAD_LEFT_OUT,
        f"whoever {whoever} gets nothing: `{missed}` is left out",
        way[0],
        (*way[1:], Label(line, f"`{missed}` was to stand in"), Label(leaving, f"`{protocol}` leaves it out")),
        notes=("what is left out is not done in place of anything else either",),
        help=f"`change {exercise}` with another `instead` for that line, or take out `leave out {missed}`",
        args={"exercise": exercise, "missed": missed, "protocol": protocol},
    )


def no_stop_rule(exercise: str, at: Span, where: Sequence[Label]) -> Diagnostic:
    """An exercise that is printed without any word on when to stop."""
    return Diagnostic(
        NO_STOP_RULE,
        f"nothing says when to stop `{exercise}`",
        Label(at),
        tuple(where),
        notes=("neither the exercise, nor the phase, nor the protocol has a `stop` line",),
        help="add a `stop` line, as in `stop sharp pain`",
        args={"exercise": exercise},
    )


def no_danger_sign(protocol: str, at: Span) -> Diagnostic:
    """A protocol that asks for no sign that forbids exercise."""
    return Diagnostic(
        NO_DANGER_SIGN,
        f"`{protocol}` has neither a `red flag if` nor an `emergency if`",
        Label(at),
        notes=("a sheet without danger signs is handed to everybody, whatever they have",),
        help="add the signs with which nobody should start, as in `emergency if chest pain`",
        args={"protocol": protocol},
    )


def review_passed(protocol: str, next_by: datetime.date, as_of: datetime.date, at: Span) -> Diagnostic:
    """A review date that lies before the day of the check."""
    return Diagnostic(
        REVIEW_PASSED,
        f"the next review of `{protocol}` was due by {next_by.isoformat()}",
        Label(at),
        notes=(f"checked as of {as_of.isoformat()}",),
        help="review the protocol and write the new dates",
        args={"protocol": protocol, "next_by": next_by, "as_of": as_of},
    )


def flag_never_yes(keyword: str, at: Span, parts: Sequence[Span]) -> Diagnostic:
    """A danger sign that no answer can ever show; `parts` contradict each other."""
    return Diagnostic(
        FLAG_NEVER_YES,
        f"this `{keyword}` can never be yes, so it warns nobody",
        Label(at),
        tuple(Label(part, "not together with the other") for part in parts),
        help="join the signs with `or`, or mend the numbers",
        args={"keyword": keyword},
    )


def looser_limit(loose: str, strict: str, phase: str, at: Span, holds: Span) -> Diagnostic:
    """A limit that has no effect, because a stricter one stands in the same phase."""
    return Diagnostic(
        LOOSER_LIMIT,
        f"`{loose}` has no effect in `{phase}`: `{strict}` is stricter and holds",
        Label(at, "no effect"),
        (Label(holds, "this one holds"),),
        notes=("a limit that is inherited is never dropped by another one",),
        help=f"take the line out; to allow more, write `lift {strict}` with a `because` beside it",
        args={"loose": loose, "strict": strict, "phase": phase},
    )
