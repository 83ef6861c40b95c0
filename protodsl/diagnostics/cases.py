"""What is said about case files: their protocol, values, sessions and changes, and what could say who it is."""

from __future__ import annotations

from collections.abc import Sequence
from datetime import date

from protodsl.diagnostics.diagnostic import Code, Diagnostic, Fix, Label, Severity
from protodsl.source import Span

NO_SUCH_PROTOCOL = Code("L101", "no-such-protocol", Severity.ERROR)
PROTOCOL_TWICE = Code("L102", "protocol-in-two-files", Severity.ERROR)
OTHER_VERSION = Code("L103", "another-version", Severity.ERROR)
NOT_PLACED = Code("L104", "not-placed-after-a-new-version", Severity.ERROR)
NOT_IN_PROTOCOL = Code("L105", "not-in-the-protocol", Severity.ERROR)
OTHER_KIND = Code("L106", "value-of-another-kind", Severity.ERROR)
OUT_OF_RANGE = Code("L107", "value-out-of-range", Severity.ERROR)
SIDES = Code("L108", "sides-of-a-value", Severity.ERROR)
FOLLOWS = Code("L109", "answer-that-follows-from-others", Severity.ERROR)
CONTRADICTION = Code("L110", "two-values-on-one-date", Severity.ERROR)
BEFORE_START = Code("L111", "session-before-the-start", Severity.ERROR)
CORRECTS_NOTHING = Code("L112", "corrects-nothing", Severity.ERROR)
NO_SUCH_LEVEL = Code("L113", "no-such-level", Severity.ERROR)
NO_SUCH_CHOICE = Code("L114", "not-among-the-choices", Severity.ERROR)
SESSION_UNCLEAR = Code("L115", "session-unclear", Severity.ERROR)
TOO_LONG = Code("L116", "run-of-dates-too-long", Severity.ERROR)
TWO_PLACES = Code("L117", "placed-twice-on-one-date", Severity.ERROR)
WHO_IT_IS = Code("L118", "may-say-who-it-is", Severity.WARNING)
TWO_DOSES_NOW = Code("L119", "two-doses-for-this-person", Severity.ERROR)
BEFORE_THE_CASE = Code("L120", "as-of-before-the-start", Severity.ERROR)
OVER_TEN_YEARS = Code("L121", "over-ten-years", Severity.ERROR)
NOTHING_LEFT = Code("L122", "no-exercise-on-the-sheet", Severity.WARNING)
VISIT_PASSED = Code("L123", "next-visit-has-passed", Severity.WARNING)

LONGEST_RUN = 366
LONGEST_CASE = 3653


def no_such_protocol(name: str, span: Span, near: str | None) -> Diagnostic:
    """A case that follows a protocol nobody declares."""
    return Diagnostic(
        NO_SUCH_PROTOCOL,
        f"no protocol named `{name}` is declared in this project",
        Label(span),
        help=f"did you mean `{near}`?" if near else "write the name as it stands behind `protocol` in its file",
        fix=Fix(span, near) if near else None,
        args={"name": name, "nearest": near},
    )


def protocol_twice(name: str, span: Span, places: Sequence[Span]) -> Diagnostic:
    """Two files declare the protocol that a case follows."""
    return Diagnostic(
        PROTOCOL_TWICE,
        f"the protocol `{name}` is declared in {len(places)} files, and nothing says which one is meant",
        Label(span),
        tuple(Label(place, "declared here") for place in places),
        help="give one of the two protocols another name",
        args={"name": name},
    )


def other_version(name: str, followed: str, there: str, span: Span, place: Span) -> Diagnostic:
    """A case that follows another version than the text has."""
    return Diagnostic(
        OTHER_VERSION,
        f"this case follows version {followed} of `{name}`, and the text is version {there}",
        Label(span),
        (Label(place, f"version {there}"),),
        notes=("a change of the first or second number can change what the steps mean",),
        help=f"read what changed, then add `from DATE version {there}`, and a `place` line for each progression",
        args={"name": name, "followed": followed, "there": there},
    )


def not_placed(item: str, version: str, span: Span, place: Span) -> Diagnostic:
    """A progression that was under way when the version changed, and no level in the new version."""
    return Diagnostic(
        NOT_PLACED,
        f"`{item}` was under way when version {version} began, and no line says on which level it goes on",
        Label(span),
        (Label(place, "the progression"),),
        help=f"add `place DATE {item}: LEVEL` with a `because`, dated the day version {version} begins",
        args={"item": item, "version": version},
    )


def not_in_protocol(what: str, name: str, protocol: str, span: Span, near: str | None) -> Diagnostic:
    """A name in a case that the protocol does not know."""
    return Diagnostic(
        NOT_IN_PROTOCOL,
        f"`{protocol}` has no {what} named `{name}`",
        Label(span),
        help=f"did you mean `{near}`?" if near else f"write the name of the {what} as it stands in the protocol",
        fix=Fix(span, near) if near else None,
        args={"what": what, "name": name, "nearest": near},
    )


def other_kind(finding: str, wants: str, written: str, example: str, span: Span, place: Span) -> Diagnostic:
    """A value that is of another kind than the finding's answer."""
    return Diagnostic(
        OTHER_KIND,
        f"`{finding}` is answered with {wants}, and `{written}` is something else",
        Label(span),
        (Label(place, "declared here"),),
        help=f"write it as in `{finding}: {example}`",
        args={"finding": finding, "written": written},
    )


def out_of_range(finding: str, written: str, low: str, high: str, span: Span, place: Span) -> Diagnostic:
    """A value that the finding cannot have."""
    return Diagnostic(
        OUT_OF_RANGE,
        f"`{finding}` lies between {low} and {high}, and `{written}` does not",
        Label(span),
        (Label(place, "declared here"),),
        help="check the number and its unit",
        args={"finding": finding, "written": written},
    )


def side_wanted(finding: str, span: Span, place: Span) -> Diagnostic:
    """A value without a side for a finding that has two."""
    return Diagnostic(
        SIDES,
        f"`{finding}` is asked for each side, and no side stands here",
        Label(span),
        (Label(place, "declared here"),),
        help=f"write it as in `{finding}: left ..., right ...`",
        args={"finding": finding},
    )


def no_sides(finding: str, span: Span, place: Span) -> Diagnostic:
    """A value with a side for a finding that has none."""
    return Diagnostic(
        SIDES,
        f"`{finding}` is not asked for each side, and a side stands here",
        Label(span),
        (Label(place, "declared here"),),
        help="take out the side, or declare the answer with `, each side`",
        args={"finding": finding},
    )


def follows(finding: str, span: Span, place: Span) -> Diagnostic:
    """An answer to what is worked out from other answers."""
    return Diagnostic(
        FOLLOWS,
        f"`{finding}` follows from other answers and is not answered itself",
        Label(span),
        (Label(place, "worked out here"),),
        help="answer the questions and tests it is worked out from",
        args={"finding": finding},
    )


def contradiction(finding: str, side: str | None, day: date, span: Span, before: Span) -> Diagnostic:
    """Two values of one finding on one date."""
    where = f" on the {side}" if side else ""
    return Diagnostic(
        CONTRADICTION,
        f"`{finding}`{where} has two different values on {day.isoformat()}",
        Label(span, "here another"),
        (Label(before, "here first"),),
        help=f"if one is wrong, take it out, or add `corrected {day.isoformat()} {finding}: VALUE` with a `because`",
        args={"finding": finding, "side": side, "date": day.isoformat()},
    )


def before_start(day: date, started: date, span: Span, place: Span) -> Diagnostic:
    """A session on a date before the case began."""
    return Diagnostic(
        BEFORE_START,
        f"this session is dated {day.isoformat()}, before the start on {started.isoformat()}",
        Label(span),
        (Label(place, "the first day"),),
        help="check the two dates",
        args={"date": day.isoformat(), "started": started.isoformat()},
    )


def corrects_nothing(finding: str, day: date, span: Span) -> Diagnostic:
    """A correction of a date on which nothing was said."""
    return Diagnostic(
        CORRECTS_NOTHING,
        f"nothing was said on `{finding}` on {day.isoformat()}, so there is nothing to correct",
        Label(span),
        help="check the date and the side, or write the value under `on DATE`",
        args={"finding": finding, "date": day.isoformat()},
    )


def no_such_level(level: str, item: str, span: Span, place: Span, near: str | None) -> Diagnostic:
    """A level that the progression does not have."""
    return Diagnostic(
        NO_SUCH_LEVEL,
        f"`{item}` has no level `{level}`",
        Label(span),
        (Label(place, "the progression"),),
        help=f"did you mean `{near}`?" if near else "write the name of one of its levels",
        fix=Fix(span, near) if near else None,
        args={"level": level, "item": item, "nearest": near},
    )


def no_such_choice(item: str, protocol: str, span: Span, near: str | None) -> Diagnostic:
    """Something chosen that stands in no choice."""
    return Diagnostic(
        NO_SUCH_CHOICE,
        f"`{protocol}` leaves no choice in which `{item}` stands",
        Label(span),
        help=f"did you mean `{near}`?" if near else "write one of the things that stand under `choose`",
        fix=Fix(span, near) if near else None,
        args={"item": item, "nearest": near},
    )


def too_many_chosen(count: int, day: date, span: Span, place: Span) -> Diagnostic:
    """More chosen on one date than the protocol allows."""
    return Diagnostic(
        NO_SUCH_CHOICE,
        f"more than {count} were chosen on {day.isoformat()} where the protocol says `choose {count}`",
        Label(span),
        (Label(place, "the choice"),),
        help=f"leave {count} of them",
        args={"count": count, "date": day.isoformat()},
    )


def session_unclear(first: str, second: str, span: Span) -> Diagnostic:
    """A session line that says two things on what was done."""
    return Diagnostic(
        SESSION_UNCLEAR,
        f"this session is both `{first}` and `{second}`",
        Label(span),
        help="leave the one that is true",
        args={"first": first, "second": second},
    )


def load_unclear(span: Span) -> Diagnostic:
    """A load in a session that is no weight."""
    return Diagnostic(
        SESSION_UNCLEAR,
        "the load of a session is the weight that was lifted",
        Label(span),
        help="write it as in `load 5 kg`",
    )


def too_long(days: int, span: Span) -> Diagnostic:
    """A run of sessions that cannot be meant."""
    return Diagnostic(
        TOO_LONG,
        f"these dates are {days} days, and a run of sessions is at most {LONGEST_RUN}",
        Label(span),
        help="check the two dates",
        args={"days": days},
    )


def two_places(item: str, day: date, span: Span, before: Span) -> Diagnostic:
    """Two levels for one item on one date."""
    return Diagnostic(
        TWO_PLACES,
        f"`{item}` is placed on two levels on {day.isoformat()}",
        Label(span, "here again"),
        (Label(before, "here first"),),
        help="leave one of the two lines",
        args={"item": item, "date": day.isoformat()},
    )


def who_it_is(what: str, words: str, span: Span) -> Diagnostic:
    """Words that look as if they said who somebody is; `what` is a name, a date of birth or a telephone number."""
    return Diagnostic(
        WHO_IT_IS,
        f"`{words}` looks like {what}",
        Label(span),
        notes=("a case is known by an id that says nothing; who it is stands in the clinic's own records",),
        help="take it out",
        args={"what": what, "words": words},
    )


def two_doses_now(exercise: str, at: Span, first: Span) -> Diagnostic:
    """One exercise that comes to stand twice on this person's sheet, with two doses."""
    return Diagnostic(
        TWO_DOSES_NOW,
        f"`{exercise}` comes twice for this person, with two different doses",
        Label(at, "here again"),
        (Label(first, "here first"),),
        notes=("a sheet prints an exercise once, and cannot tell which dose is meant",),
        help="leave one of the two out for this person with `from DATE leave out ...`",
        args={"exercise": exercise},
    )


def before_the_case(as_of: date, started: date, span: Span) -> Diagnostic:
    """A sheet asked for as of a date before the case began."""
    return Diagnostic(
        BEFORE_THE_CASE,
        f"the sheet is asked for as of {as_of.isoformat()}, before the start on {started.isoformat()}",
        Label(span, "the first day"),
        help="ask for a later date",
        args={"as_of": as_of.isoformat(), "started": started.isoformat()},
    )


def over_ten_years(day: date, started: date, span: Span) -> Diagnostic:
    """A date so long after the start that one of the two cannot be meant."""
    return Diagnostic(
        OVER_TEN_YEARS,
        f"{day.isoformat()} is more than ten years after the start on {started.isoformat()}",
        Label(span),
        help="check the two dates; for a new episode begin a new case",
        args={"date": day.isoformat(), "started": started.isoformat()},
    )


def nothing_left(case: str, day: date, span: Span) -> Diagnostic:
    """A sheet on which no exercise is left, for other reasons than a danger sign."""
    return Diagnostic(
        NOTHING_LEFT,
        f"no exercise is on the sheet of `{case}` as of {day.isoformat()}",
        Label(span),
        notes=("the clinician's page says what was left out, and why",),
        help="see the person, or have what is unknown answered; `protodsl why` names it",
        args={"case": case, "as_of": day.isoformat()},
    )


def visit_passed(visit: date, day: date, span: Span) -> Diagnostic:
    """A next visit on or before the day of the sheet, which then says that there is no date yet."""
    return Diagnostic(
        VISIT_PASSED,
        f"the next visit, {visit.isoformat()}, is not after the day of the sheet, {day.isoformat()}",
        Label(span),
        notes=("the sheet says that there is no date yet, and is for 14 days",),
        help="write the date of the visit that comes",
        args={"visit": visit.isoformat(), "as_of": day.isoformat()},
    )
