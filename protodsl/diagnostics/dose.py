"""What is said on dose: minutes, days, jumps, what is missing, what is out of the ordinary."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from decimal import Decimal

from protodsl.diagnostics.diagnostic import Code, Diagnostic, Label, Severity
from protodsl.source import Span
from protodsl.units import plain

OVER_BUDGET = Code("D701", "day-over-budget", Severity.WARNING)
STRENGTH_RUNNING = Code("D702", "strength-on-two-days-running", Severity.WARNING)
LOAD_JUMP = Code("D703", "load-jump", Severity.WARNING)
VOLUME_JUMP = Code("D704", "volume-jump", Severity.WARNING)
HOW_OFTEN = Code("D705", "how-often-not-said", Severity.WARNING)
NO_VOLUME = Code("D706", "how-much-not-said", Severity.WARNING)
NO_ROOM_FOR_REST = Code("D707", "no-room-for-rest-days", Severity.ERROR)
OUT_OF_THE_ORDINARY = Code("D708", "outside-the-published-range", Severity.HINT)
TWO_DOSES = Code("D709", "two-doses", Severity.ERROR)
SET_LINES = Code("D710", "set-lines-disagree", Severity.ERROR)

CODES: tuple[Code, ...] = (
    OVER_BUDGET,
    STRENGTH_RUNNING,
    LOAD_JUMP,
    VOLUME_JUMP,
    HOW_OFTEN,
    NO_VOLUME,
    NO_ROOM_FOR_REST,
    OUT_OF_THE_ORDINARY,
    TWO_DOSES,
    SET_LINES,
)

WEEKDAYS: tuple[str, ...] = ("Monday", "Tuesday", "Wednesday", "Thursday", "Friday", "Saturday", "Sunday")


def over_budget(
    where: str, minutes: Decimal, budget: Decimal, week: int, longest: Sequence[tuple[str, Decimal]],
    untimed: Sequence[str], at: Span, gives: Sequence[Span],
) -> Diagnostic:  # fmt: skip
    """A day that takes longer than the budget; `longest` are its items with their minutes, the longest first."""
    parts = ", ".join(f"`{name}` {plain(part)}" for name, part in longest)
    notes = [f"on that day in minutes, rounded up: {parts}"]
    if untimed:
        notes.append(f"left out, because nobody can time them: {', '.join(f'`{name}`' for name in untimed)}")
    return Diagnostic(
        OVER_BUDGET,
        f"a day of `{where}` takes up to {plain(minutes)} min in week {week}, and the budget is {plain(budget)} min",
        Label(at),
        tuple(Label(give, "takes the most") for give in gives[:1]),
        notes=tuple(notes),
        help="give less, spread it over more days, or raise the `budget`",
        args={"where": where, "minutes": minutes, "budget": budget, "week": week},
    )


def strength_running(
    target: str, exercises: Sequence[str], days: tuple[int, int], where: str, at: Span, others: Sequence[Span]
) -> Diagnostic:
    """A target that is trained for strength on two days in a row."""
    named = " and ".join(f"`{name}`" for name in exercises)
    first, second = (WEEKDAYS[day] for day in days)
    return Diagnostic(
        STRENGTH_RUNNING,
        f"`{where}` trains the target `{target}` for strength on two days running, with {named}",
        Label(at),
        tuple(Label(other, "and with this") for other in others),
        notes=(
            f"on {first} and {second}, however the days are spread over the week",
            "about 48 hours between strength sessions for one muscle group: common practice, no source",
        ),
        help="give it on fewer days, or add `rest day between`",
        args={"target": target, "exercises": tuple(exercises), "where": where},
    )


def load_jump(exercise: str, when: str, percent: Decimal, most: Decimal, at: Span, before: Span) -> Diagnostic:
    """A load that rises by more than the clinic allows; `when` is a week or a level."""
    return Diagnostic(
        LOAD_JUMP,
        f"in {when} the load of `{exercise}` rises by {plain(percent)} %, and this clinic allows {plain(most)} %",
        Label(at),
        (Label(before, "from here"),),
        help="put a step between the two, or raise `load-rise-percent` in `clinic.toml`",
        args={"exercise": exercise, "percent": percent, "most": most},
    )


def volume_jump(exercise: str, when: str, percent: Decimal, most: Decimal, at: Span, before: Span) -> Diagnostic:
    """A week's repetitions, or its time, that rise by more than the clinic allows."""
    return Diagnostic(
        VOLUME_JUMP,
        f"in {when} the work of `{exercise}` rises by {plain(percent)} % a week, "
        f"and this clinic allows {plain(most)} %",
        Label(at),
        (Label(before, "from here"),),
        help="put a step between the two, or raise `volume-rise-percent` in `clinic.toml`",
        args={"exercise": exercise, "percent": percent, "most": most},
    )


def in_week(week: int) -> str:
    """Words for when a jump comes."""
    return f"week {week}"


def in_level(level: str) -> str:
    """Words for when a jump comes."""
    return f"the level `{level}`"


def how_often(exercise: str, at: Span) -> Diagnostic:
    """A dose that does not say on which days."""
    return Diagnostic(
        HOW_OFTEN,
        f"nothing says how often `{exercise}` is done",
        Label(at),
        notes=("it counts as daily",),
        help="add it to the `dose`, as in `daily` or `3 days a week`",
        args={"exercise": exercise},
    )


def no_volume(exercise: str, week: int | None, at: Span) -> Diagnostic:
    """An exercise that is given without any amount; `week` where other weeks have one."""
    return Diagnostic(
        NO_VOLUME,
        f"nothing says how much of `{exercise}` is done{f' in week {week}' if week else ''}",
        Label(at),
        help="add a `dose`, as in `dose 3 x 12`",
        args={"exercise": exercise, "week": week},
    )


def no_room_for_rest(days: Decimal, at: Span) -> Diagnostic:
    """More training days than a week with rest days between them can hold."""
    return Diagnostic(
        NO_ROOM_FOR_REST,
        f"{plain(days)} days a week leave no rest day between",
        Label(at),
        notes=("the week goes round: of 7 days at most 3 have a rest day between each two",),
        help="write at most `3 days a week`, or `every other day`, or take out `rest day between`",
        args={"days": days},
    )


def too_many_for_load(exercise: str, repetitions: int, load: str, most: str, source: str, at: Span) -> Diagnostic:
    """More repetitions than can be done with the load; `most` says what can."""
    return Diagnostic(
        OUT_OF_THE_ORDINARY,
        f"{repetitions} repetitions of `{exercise}` with {load} are more than can be done: {most}",
        Label(at),
        notes=(f"source: {source}",),
        help="take a lighter load, or fewer repetitions",
        args={"exercise": exercise, "repetitions": repetitions},
    )


def exactly_times(maximum: int) -> str:
    """Words for how often nRM can be lifted."""
    return f"{maximum}RM can be lifted {_times(maximum)}"


def about_times(percent: Decimal, times: int) -> str:
    """Words for how often a share of 1RM can be lifted; 0 where it cannot be lifted at all."""
    return f"{plain(percent)} % can be lifted {f'about {_times(times)}' if times else 'by nobody'}"


def unusual_days(exercise: str, days: str, usual: str, source: str, at: Span) -> Diagnostic:
    """Heavy loads on more or fewer days than is published."""
    return Diagnostic(
        OUT_OF_THE_ORDINARY,
        f"`{exercise}` has a heavy load on {days} days a week; published is {usual}",
        Label(at),
        notes=(f"source: {source}",),
        help="check the number of days",
        args={"exercise": exercise, "days": days},
    )


def two_doses(exercise: str, where: str, at: Span, first: Span) -> Diagnostic:
    """One exercise given twice at one time with two doses."""
    return Diagnostic(
        TWO_DOSES,
        f"`{exercise}` comes twice in `{where}`, with two different doses",
        Label(at, "here again"),
        (Label(first, "here first"),),
        notes=("a sheet prints an exercise once, and cannot tell which dose is meant",),
        help="give it once, give both times the same `dose`, or add conditions that rule each other out",
        args={"exercise": exercise, "where": where},
    )


def set_beyond(exercise: str, number: int, most: int, at: Span, dose: Span) -> Diagnostic:
    """A line for a set that the dose does not have."""
    return Diagnostic(
        SET_LINES,
        f"`{exercise}` has a line for set {number}, and its dose has {_sets(most)}",
        Label(at, f"set {number}"),
        (Label(dose, _sets(most)),),
        notes=("a new `dose` leaves the `set` lines of the one before it as they were",),
        help="write the `set` lines and the `dose` so that they fit together",
        args={"exercise": exercise, "set": number, "most": most},
    )


def set_differs(exercise: str, number: int, what: str, at: Span, dose: Span) -> Diagnostic:
    """A set line that says another amount or load than the dose; `what` is amount or load."""
    return Diagnostic(
        SET_LINES,
        f"set {number} of `{exercise}` has another {what} in its own line than in the dose",
        Label(at, "the set"),
        (Label(dose, "the dose"),),
        notes=("the sheet prints both, and nobody could tell which one is meant",),
        help=f"write the same {what} in both, or take the {what} out of the `dose`",
        args={"exercise": exercise, "set": number, "what": what},
    )


def adjust_beyond(exercise: str, number: int, most: int, at: Span, sets: Span) -> Diagnostic:
    """`adjust` names a set that is not there; `most` may be 0."""
    has = _sets(most) if most else "no sets"
    return Diagnostic(
        SET_LINES,
        f"`adjust` names set {number}, and `{exercise}` has {has}",
        Label(at),
        (Label(sets, has),),
        help="name a set that is there, or write the sets that are meant",
        args={"exercise": exercise, "set": number, "most": most},
    )


def and_sets(one: Diagnostic, others: Sequence[Span]) -> Diagnostic:
    """The same with the further lines that disagree."""
    return replace(one, secondary=(*one.secondary, *(Label(other, "and this") for other in others)))


def _sets(count: int) -> str:
    return "1 set" if count == 1 else f"{count} sets"


def _times(count: int) -> str:
    return "once" if count == 1 else "twice" if count == 2 else f"{count} times"
