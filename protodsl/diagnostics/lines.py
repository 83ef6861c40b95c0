"""What is said about a line whose keyword is right: its numbers, units, dates, names, lists, brackets and words."""

from __future__ import annotations

from collections.abc import Sequence

from protodsl.diagnostics.diagnostic import Code, Diagnostic, Fix, Label, Severity
from protodsl.diagnostics.phrases import either
from protodsl.source import Span

MISSING_COLON = Code("T109", "missing-colon", Severity.ERROR)
EXTRA_COLON = Code("T110", "extra-colon", Severity.ERROR)
MIXED_AND_OR = Code("T111", "mixed-and-or", Severity.ERROR)
UNKNOWN_UNIT = Code("T114", "unknown-unit", Severity.ERROR)
WRONG_UNIT = Code("T115", "unit-of-another-kind", Severity.ERROR)
NO_SUCH_DATE = Code("T116", "no-such-date", Severity.ERROR)
DATE_FORM = Code("T117", "date-form", Severity.ERROR)
COMMA_DECIMAL = Code("T118", "comma-decimal", Severity.ERROR)
NOT_WHOLE = Code("T119", "not-a-whole-number", Severity.ERROR)
BACKWARDS = Code("T120", "range-backwards", Severity.ERROR)
JOINING_WORD = Code("T121", "joining-word-in-name", Severity.ERROR)
NAME_OPENING = Code("T122", "name-opening", Severity.ERROR)
NOT_UNDERSTOOD = Code("T123", "not-understood", Severity.ERROR)
STOPS_SHORT = Code("T124", "line-stops-short", Severity.ERROR)
FIX_WITHOUT_COLON = Code("T127", "fix-without-colon", Severity.ERROR)
EARLY_SIDE = Code("T135", "side-before-comparison", Severity.ERROR)
HYPHEN_RANGE = Code("T136", "range-with-hyphen", Severity.ERROR)
SIDE_WITHOUT_NAME = Code("T138", "side-without-name", Severity.ERROR)
SIDE_TWICE = Code("T139", "side-twice", Severity.ERROR)
COMPARISON = Code("T140", "comparison-sign", Severity.ERROR)
LIST_FORM = Code("T141", "list-form", Severity.ERROR)
BRACKET = Code("T142", "bracket", Severity.ERROR)
UNKNOWN_WORD = Code("T143", "unknown-word", Severity.ERROR)
MISSING_COMMA = Code("T144", "missing-comma", Severity.ERROR)
LONG_NUMBER = Code("T145", "long-number", Severity.ERROR)
MANY_BRACKETS = Code("T146", "many-brackets", Severity.ERROR)


def mixed_and_or(span: Span) -> Diagnostic:
    """`and` and `or` side by side."""
    return Diagnostic(
        MIXED_AND_OR,
        "`and` and `or` stand side by side, and it is not clear which goes first",
        Label(span),
        help="put brackets round what belongs together: `a or (b and c)`",
    )


def unknown_unit(span: Span, word: str, near: str | None) -> Diagnostic:
    """A word where a unit stands that is no unit; `near` is the one probably meant."""
    return Diagnostic(
        UNKNOWN_UNIT,
        f"`{word}` is not a unit",
        Label(span),
        help=f"write `{near}`" if near else "write a unit such as deg, cm, m, kg, s, min, days, weeks, reps or %",
        fix=Fix(span, near) if near else None,
        args={"word": word},
    )


def wrong_unit(span: Span, what: str, unit: str, allowed: Sequence[str]) -> Diagnostic:
    """A unit that does not measure what it stands behind; an empty one is missing."""
    said = f"{what} is not measured in `{unit}`" if unit else f"{what} needs a unit"
    return Diagnostic(WRONG_UNIT, said, Label(span), help=f"use {either(allowed)}", args={"unit": unit})


def no_such_date(span: Span, written: str) -> Diagnostic:
    """A date that the calendar does not have."""
    return Diagnostic(NO_SUCH_DATE, f"there is no day `{written}`", Label(span), help="look at the day and the month")


def date_form(span: Span, written: str) -> Diagnostic:
    """A date in another form."""
    return Diagnostic(
        DATE_FORM,
        f"`{written}` is not a date as this language writes it",
        Label(span),
        help="write year, month and day with hyphens: `2026-11-02` is the 2nd of November",
    )


def comma_decimal(span: Span, written: str) -> Diagnostic:
    """A decimal comma."""
    point = written.replace(",", ".")
    return Diagnostic(
        COMMA_DECIMAL,
        f"`{written}` could be one number or two",
        Label(span),
        help=f"write `{point}` with a point, or put a blank behind the comma if they are two",
        fix=Fix(span, point),
    )


def not_a_whole_number(span: Span, number: str) -> Diagnostic:
    """A count that is not a whole number from 0."""
    return Diagnostic(
        NOT_WHOLE,
        f"`{number}` counts something, so it must be a whole number",
        Label(span),
        help="write a whole number",
    )


def range_backwards(span: Span, low: str, high: str) -> Diagnostic:
    """A range whose end lies before its start."""
    return Diagnostic(
        BACKWARDS, f"`{low} to {high}` runs backwards", Label(span), help=f"write `{high} to {low}`, or mend a number"
    )


def joining_word(span: Span, word: str) -> Diagnostic:
    """One of the seven words inside a name."""
    return Diagnostic(
        JOINING_WORD,
        f"`{word}` joins two things, so it cannot stand in a name",
        Label(span),
        help="put hyphens in the name, as in `pins-and-needles`",
        args={"word": word},
    )


def name_opening(span: Span, word: str) -> Diagnostic:
    """A name that begins with words that mean something else."""
    return Diagnostic(
        NAME_OPENING,
        f"a name cannot begin with `{word}`",
        Label(span),
        help="put the word elsewhere in the name, or a hyphen behind it",
        args={"word": word},
    )


def not_understood(span: Span, word: str, expected: Sequence[str], may_end: bool) -> Diagnostic:
    """Something that cannot stand where it stands; `expected` are the things that can, if the line may not end."""
    help_ = f"write {either(expected)} here" if expected else ""
    if may_end:
        help_ = f"{help_}, or end the line before it" if help_ else "end the line before it"
    return Diagnostic(
        NOT_UNDERSTOOD,
        f"`{word}` cannot stand here",
        Label(span),
        help=help_ or "look at the form of this line with `protodsl reference`",
        args={"word": word},
    )


def stops_short(span: Span, expected: Sequence[str]) -> Diagnostic:
    """A line that ends where more has to follow."""
    return Diagnostic(
        STOPS_SHORT,
        "the line stops too soon",
        Label(span),
        help=f"go on with {either(expected)}" if expected else "finish the line",
    )


def early_side(span: Span) -> Diagnostic:
    """A side between a finding and its comparison."""
    return Diagnostic(
        EARLY_SIDE,
        "the side stands before the comparison",
        Label(span),
        help="put it behind, as in `heel raises >= 15 on the affected side`",
    )


def hyphen_range(span: Span, low: str, high: str) -> Diagnostic:
    """`8-12`."""
    return Diagnostic(
        HYPHEN_RANGE,
        f"`{low}-{high}` is not a range as this language writes it",
        Label(span),
        help=f"write `{low} to {high}`",
        fix=Fix(span, f"{low} to {high}"),
    )


def side_without_name(span: Span) -> Diagnostic:
    """A value for a side without a name."""
    return Diagnostic(
        SIDE_WITHOUT_NAME,
        "a value for one side stands here, but nothing says what was measured",
        Label(span),
        help="write the name before it, as in `stiffness left 2, right 3`",
    )


def side_twice(span: Span, side: str) -> Diagnostic:
    """Two values for one side."""
    return Diagnostic(SIDE_TWICE, f"the {side} side has two values", Label(span), help="write one for each side")


def comparison(span: Span, written: str, meant: str | None) -> Diagnostic:
    """A sign of comparison in another spelling."""
    return Diagnostic(
        COMPARISON,
        f"`{written}` is not a sign of comparison",
        Label(span),
        help=f"write `{meant}`" if meant else "write >=, <=, <, > or =, or `is not` for words",
        fix=Fix(span, meant) if meant else None,
    )


def list_form(span: Span, written: str, separator: str) -> Diagnostic:
    """A list with the wrong word or sign between its items."""
    return Diagnostic(
        LIST_FORM,
        f"`{written}` stands between two items of a list",
        Label(span),
        help=f"put {'a comma' if separator == ',' else f'`{separator}`'} between them",
    )


def bracket(span: Span, missing: bool) -> Diagnostic:
    """A bracket without its partner."""
    return Diagnostic(
        BRACKET,
        "a bracket is opened and not closed" if missing else "a bracket is closed that was never opened",
        Label(span),
        help="put in `)` where the bracket ends" if missing else "take it out, or put in `(` where it begins",
    )


def unknown_word(span: Span, word: str, near: str) -> Diagnostic:
    """A word inside a line that is close to one that can stand there."""
    return Diagnostic(
        UNKNOWN_WORD,
        f"`{word}` cannot stand here",
        Label(span),
        help=f"did you mean `{near}`?",
        fix=Fix(span, near),
        args={"word": word, "near": near},
    )


def missing_comma(span: Span, word: str) -> Diagnostic:
    """Two parts of a line without a comma between them."""
    return Diagnostic(
        MISSING_COMMA,
        f"a comma is missing before `{word}`",
        Label(span),
        help=f"write `, {word}`",
        args={"word": word},
    )


def long_number(span: Span) -> Diagnostic:
    """A number with too many digits."""
    return Diagnostic(
        LONG_NUMBER, "this number has too many digits", Label(span), help="look whether a digit is held down"
    )


def many_brackets(span: Span, limit: int) -> Diagnostic:
    """Too many brackets inside brackets."""
    return Diagnostic(
        MANY_BRACKETS,
        f"more than {limit} brackets stand inside one another",
        Label(span),
        help="declare part of the condition as a `finding` of its own",
    )


def bracketed_name(span: Span, name: str) -> Diagnostic:
    """A setting in the brackets that only prose has."""
    return Diagnostic(
        NOT_UNDERSTOOD,
        f"`[{name}]` cannot stand here",
        Label(span),
        notes=("square brackets hold a setting in prose; elsewhere its name stands alone",),
        help=f"write `{name}` without the brackets",
        fix=Fix(span, name),
        args={"word": name},
    )


def number_in_name(span: Span, number: str, before: str) -> Diagnostic:
    """A word of a name that begins with a digit."""
    return Diagnostic(
        NOT_UNDERSTOOD,
        f"`{number}` cannot stand here",
        Label(span),
        notes=("each word of a name begins with a letter",),
        help=f"if it belongs to the name, write `{before}-{number}`",
        args={"word": number},
    )


def streak_form(span: Span, written: str, count: str) -> Diagnostic:
    """A streak in days, where sessions are counted."""
    return Diagnostic(
        NOT_UNDERSTOOD,
        f"`{written}` cannot stand here",
        Label(span),
        notes=("how long something has to last is counted in sessions",),
        help=f"write `{count} sessions in a row`",
        args={"word": written},
    )


def missing_colon(span: Span, after: str) -> Diagnostic:
    """A name that a value follows, without a colon between them."""
    return Diagnostic(
        MISSING_COLON,
        f"a colon is missing after `{after}`",
        Label(span),
        help="write the name, a colon, and then what belongs to it",
    )


def extra_colon(span: Span, word: str) -> Diagnostic:
    """A colon behind a keyword."""
    return Diagnostic(
        EXTRA_COLON, f"no colon stands after `{word}`", Label(span), help="take the colon out", fix=Fix(span, "")
    )


def fix_without_colon(span: Span) -> Diagnostic:
    """A fault without its cure."""
    return Diagnostic(
        FIX_WITHOUT_COLON,
        "`fix` names a fault without saying what to do about it",
        Label(span),
        help="write the fault, a colon, and then the cure",
    )


CODES: tuple[Code, ...] = tuple(value for value in vars().values() if isinstance(value, Code))
