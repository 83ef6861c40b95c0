"""Rules that hold a translation against its text, one a file, all with one signature."""

from collections.abc import Callable, Iterator

from protodsl.diagnostics.diagnostic import Diagnostic, Severity
from protodsl.translate.entries import Entry
from protodsl.translate.judge.emphasis import emphasis_differs
from protodsl.translate.judge.identical import identical
from protodsl.translate.judge.numbers import numbers_differ
from protodsl.translate.judge.pair import Pair
from protodsl.translate.judge.placeholders import placeholders_differ
from protodsl.translate.judge.sides import sides_differ
from protodsl.translate.judge.units import units_differ

RULES: tuple[Callable[[Pair], Iterator[Diagnostic]], ...] = (
    numbers_differ,
    units_differ,
    placeholders_differ,
    sides_differ,
    emphasis_differs,
    identical,
)


def judge(entry: Entry, language: str, own: str) -> Iterator[Diagnostic]:
    """What is unlike between a text written in `own` and its translation; nothing for what has none, or is outdated.

    Whoever has read the very words has seen what a warning is about; an error stays.
    """
    if entry.is_translated:
        pair = Pair(entry, language, own)
        least = Severity.ERROR if entry.is_reviewed else Severity.HINT
        for rule in RULES:
            yield from (one for one in rule(pair) if one.severity >= least)
