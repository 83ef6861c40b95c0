"""What is said about the text of a file: its letters, lines, indents and keywords."""

from __future__ import annotations

from collections.abc import Sequence

from protodsl.diagnostics.diagnostic import Code, Diagnostic, Fix, Label, Severity
from protodsl.source import Span

NOT_UNDERSTOOD = Code("T123", "not-understood", Severity.ERROR)
NOT_A_WHOLE_NUMBER = Code("T119", "not-a-whole-number", Severity.ERROR)
RANGE_BACKWARDS = Code("T120", "range-backwards", Severity.ERROR)
WRONG_UNIT = Code("T115", "wrong-unit", Severity.ERROR)
NO_SUCH_DATE = Code("T116", "no-such-date", Severity.ERROR)
FIX_WITHOUT_COLON = Code("T127", "fix-without-colon", Severity.ERROR)
SIDE_WITHOUT_NAME = Code("T138", "side-without-name", Severity.ERROR)
SIDE_TWICE = Code("T139", "side-twice", Severity.ERROR)


def not_a_whole_number(span: Span, number: str) -> Diagnostic:
    """A count that is not a whole number from 0."""
    return Diagnostic(NOT_A_WHOLE_NUMBER, f"`{number}` is not a whole number", Label(span), help="write a whole number")


def range_backwards(span: Span, low: str, high: str) -> Diagnostic:
    """A range whose end lies before its start."""
    return Diagnostic(
        RANGE_BACKWARDS, f"`{low} to {high}` runs backwards", Label(span), help=f"write `{high} to {low}`"
    )


def wrong_unit(span: Span, what: str, unit: str, allowed: Sequence[str]) -> Diagnostic:
    """A unit that does not measure what it stands behind."""
    return Diagnostic(WRONG_UNIT, f"{what} is not measured in `{unit}`", Label(span), help=f"write {allowed}")


def no_such_date(span: Span, written: str) -> Diagnostic:
    """A date that no calendar has."""
    return Diagnostic(NO_SUCH_DATE, f"there is no day `{written}`", Label(span))


def fix_without_colon(span: Span) -> Diagnostic:
    """A fault without its cure."""
    return Diagnostic(FIX_WITHOUT_COLON, "`fix` needs a fault, a colon and a cure", Label(span))


def side_without_name(span: Span) -> Diagnostic:
    """A value for a side without the name before it."""
    return Diagnostic(SIDE_WITHOUT_NAME, "a value for one side without a name before it", Label(span))


def side_twice(span: Span, side: str) -> Diagnostic:
    """Two values for one side."""
    return Diagnostic(SIDE_TWICE, f"the {side} side stands here twice", Label(span))


def not_understood(span: Span) -> Diagnostic:
    """Something that cannot stand where it stands."""
    return Diagnostic(NOT_UNDERSTOOD, "this cannot stand here", Label(span))
