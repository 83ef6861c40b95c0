"""What is said on tables and thresholds: gaps, overlaps, values that are left undecided."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from decimal import Decimal

from protodsl.diagnostics.diagnostic import Code, Diagnostic, Label, Severity
from protodsl.source import Span
from protodsl.units import plain

WEEKS_GAP = Code("R501", "weeks-with-a-gap", Severity.ERROR)
WEEKS_OVERLAP = Code("R502", "weeks-that-overlap", Severity.ERROR)
WEEKS_LATE = Code("R503", "weeks-not-from-the-first", Severity.ERROR)
ZONES_GAP = Code("R504", "pain-zones-with-a-gap", Severity.ERROR)
ZONES_OVERLAP = Code("R505", "pain-zones-that-overlap", Severity.ERROR)
ZONES_BEYOND = Code("R506", "pain-zones-past-the-scale", Severity.ERROR)
ADJUST_GAP = Code("R507", "repetitions-with-a-gap", Severity.ERROR)
ADJUST_OVERLAP = Code("R508", "repetitions-that-overlap", Severity.ERROR)
FINDING_UNDECIDED = Code("R509", "finding-left-undecided", Severity.WARNING)
GIVES_UNDECIDED = Code("R510", "gives-left-undecided", Severity.WARNING)
ROW_NEVER_WINS = Code("R511", "row-never-reached", Severity.WARNING)

CODES: tuple[Code, ...] = (
    WEEKS_GAP,
    WEEKS_OVERLAP,
    WEEKS_LATE,
    ZONES_GAP,
    ZONES_OVERLAP,
    ZONES_BEYOND,
    ADJUST_GAP,
    ADJUST_OVERLAP,
    FINDING_UNDECIDED,
    GIVES_UNDECIDED,
    ROW_NEVER_WINS,
)


def weeks_gap(first: int, last: int, before: Span, after: Span) -> Diagnostic:
    """Weeks between two rows that have no dose."""
    weeks = _run(first, last, "week", "weeks")
    return Diagnostic(
        WEEKS_GAP,
        f"{weeks} {'has' if first == last else 'have'} no dose",
        Label(after, "the next row"),
        (Label(before, "the row before"),),
        help=f"let one of the two rows include {weeks}",
        args={"first": first, "last": last},
    )


def weeks_overlap(first: int, last: int | None, before: Span, after: Span) -> Diagnostic:
    """Weeks that stand in two rows; `last` None: all from `first` on."""
    weeks = f"every week from week {first} on" if last is None else _run(first, last, "week", "weeks")
    stands = "stands" if last is None or first == last else "stand"
    return Diagnostic(
        WEEKS_OVERLAP,
        f"{weeks} {stands} in two rows with two doses",
        Label(after, "here again"),
        (Label(before, "here first"),),
        help="let each week stand in one row only",
        args={"first": first, "last": last},
    )


def weeks_late(first: int, at: Span) -> Diagnostic:
    """A table that does not begin with week 1."""
    weeks = _run(1, first - 1, "week", "weeks")
    return Diagnostic(
        WEEKS_LATE,
        f"the table begins with week {first}, so {weeks} {'has' if first == 2 else 'have'} no dose",
        Label(at, "the first row"),
        notes=("week 1 is the first week of the exercise or level, whenever that begins",),
        help="count the weeks of the table from 1",
        args={"first": first},
    )


def zones_gap(missing: Sequence[int], at: Span) -> Diagnostic:
    """Points of the pain scale that no zone holds."""
    return Diagnostic(
        ZONES_GAP,
        f"the pain zones leave out {_numbers(missing)}",
        Label(at, "the zone next to it"),
        notes=("every number from 0 to 10 stands in exactly one zone",),
        help="widen the zone that they belong to",
        args={"missing": tuple(missing)},
    )


def zones_overlap(twice: Sequence[int], before: Span, after: Span) -> Diagnostic:
    """Points of the pain scale that two zones hold."""
    return Diagnostic(
        ZONES_OVERLAP,
        f"the pain zones hold {_numbers(twice)} twice",
        Label(after, "here again"),
        (Label(before, "here first"),),
        notes=("every number from 0 to 10 stands in exactly one zone",),
        help="let each number stand in one zone only",
        args={"twice": tuple(twice)},
    )


def zones_beyond(low: int, high: int, at: Span) -> Diagnostic:
    """A zone that leaves the scale from 0 to 10."""
    return Diagnostic(
        ZONES_BEYOND,
        f"the zone {low} to {high} leaves the pain scale, which goes from 0 to 10",
        Label(at),
        help="write a zone within 0 to 10",
        args={"low": low, "high": high},
    )


def adjust_gap(first: int, last: int | None, at: Span, near: Span) -> Diagnostic:
    """Counts of repetitions that no row holds; `last` None: all from `first` on."""
    counts = f"{first} repetitions or more" if last is None else _run(first, last, "repetition", "repetitions")
    return Diagnostic(
        ADJUST_GAP,
        f"nothing is said of {counts}",
        Label(near, "the row next to it"),
        (Label(at, "the table"),),
        notes=("a person who does that many would be left without a load",),
        help="widen the row that they belong to, or add one",
        args={"first": first, "last": last},
    )


def adjust_overlap(first: int, last: int | None, before: Span, after: Span) -> Diagnostic:
    """Counts of repetitions that stand in two rows."""
    counts = f"{first} repetitions or more" if last is None else _run(first, last, "repetition", "repetitions")
    one = last == first and first == 1
    return Diagnostic(
        ADJUST_OVERLAP,
        f"{counts} {'stands' if one else 'stand'} in two rows",
        Label(after, "here again"),
        (Label(before, "here first"),),
        help="let each number stand in one row only",
        args={"first": first, "last": last},
    )


def finding_undecided(finding: str, of: str, values: str, at: Span, rows: Sequence[Span]) -> Diagnostic:
    """A derived finding that is neither one thing nor the other for some values; `of` is what is measured.

    Where the rows ask for several things `of` is empty, and `values` are an example.
    """
    left = f"when `{of}` is {values}" if of else f"for example with {values}"
    return Diagnostic(
        FINDING_UNDECIDED,
        f"`{finding}` is left undecided{'' if of else ','} {left}",
        Label(at),
        tuple(Label(row, "decided here") for row in rows),
        notes=("what is undecided counts as unknown, and the clinician is asked",),
        help="widen a row, or add `otherwise`",
        args={"finding": finding, "of": of, "values": values},
    )


def gives_undecided(items: Sequence[str], of: str, values: str, at: Span, others: Sequence[Span]) -> Diagnostic:
    """Gives that decide by one number and leave a gap between them."""
    named = " and ".join(f"`{item}`" for item in dict.fromkeys(items))
    several = len(dict.fromkeys(items)) > 1
    return Diagnostic(
        GIVES_UNDECIDED,
        f"nothing is given when `{of}` is {values}",
        Label(at, "given on one side of it"),
        tuple(Label(other, "given on the other side") for other in others),
        notes=(f"{named} {'are' if several else 'is'} given below and above that",),
        help="widen one of the conditions, or add what is given in between",
        args={"items": tuple(items), "of": of, "values": values},
    )


def row_never_wins(value: str, at: Span, above: Sequence[Span]) -> Diagnostic:
    """A row of a derived finding that the rows above it leave nothing to."""
    return Diagnostic(
        ROW_NEVER_WINS,
        f"`{value}` is never reached here, because the rows above take every case of it",
        Label(at),
        tuple(Label(row, "taken here") for row in above),
        notes=("the first row that holds decides",),
        help="move the row up, or take it out",
        args={"value": value},
    )


def stretch(
    low: Decimal | None, high: Decimal | None, low_open: bool, high_open: bool, unit: str
) -> str:
    """A stretch of values in words; None has no end, an open end is not part of it; `unit` empty for a bare number."""
    ends = [None if end is None else f"{plain(end)}" for end in (low, high)]
    tail = f" {unit}" if unit else ""
    bottom, top = ends
    if bottom is None or top is None:
        if top is not None:
            return f"{'less than' if high_open else 'at most'} {top}{tail}"
        return f"{'more than' if low_open else 'at least'} {bottom}{tail}"
    if bottom == top:
        return f"exactly {top}{tail}"
    if low_open:
        return f"more than {bottom} and {'less than' if high_open else 'at most'} {top}{tail}"
    return f"from {bottom} to {'less than ' if high_open else ''}{top}{tail}"


def several(stretches: Iterable[str]) -> str:
    """Stretches joined as alternatives."""
    return ", or ".join(stretches)


def measured(term: str, name: str, side: str) -> str:
    """What is measured, with its side: `knee-to-wall on the affected side`."""
    sides = {"lowest": " on the side with the lower value", "highest": " on the side with the higher value"}
    named = f"{term} since {name}" if term in ("weeks", "days") else f"{term}{name}"
    return f"{named}{sides.get(side, f' on the {side} side')}" if side else named


def _run(first: int, last: int, one: str, many: str) -> str:
    if one == "week":
        return f"week {first}" if first == last else f"weeks {first} to {last}"
    return f"{first} {one if first == 1 else many}" if first == last else f"{first} to {last} {many}"


def _numbers(numbers: Sequence[int]) -> str:
    words = [str(number) for number in numbers]
    return words[0] if len(words) == 1 else f"{', '.join(words[:-1])} and {words[-1]}"
