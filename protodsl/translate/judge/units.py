"""Units behind numbers: a translation may spell one out, and may not put another of its kind in its place."""

from __future__ import annotations

import re
from collections.abc import Iterator
from decimal import Decimal

from protodsl.diagnostics import translation as say
from protodsl.diagnostics.diagnostic import Diagnostic
from protodsl.translate.judge.numbers import readings
from protodsl.translate.judge.pair import Pair
from protodsl.translate.judge.words import unit_words

_AFTER = re.compile(r"(\d+(?:[.,\u066b]\d+)?)[\s\u00a0\u202f-]*([^\W\d_]+|%|٪|°)")


def units_differ(pair: Pair) -> Iterator[Diagnostic]:
    """The same number with one unit in the text and another of that kind in the translation: 5 kg and 5 lb."""
    source = _measured(pair.sources[-1], pair.own)
    for form, shown in zip(pair.targets, pair.entry.target, strict=True):
        for numbers, unit, written in _measured(form, pair.language):
            same = [other for others, other, _ in source if others & numbers]
            if same and unit not in same and any(_kind(other) == _kind(unit) for other in same):
                yield say.unit_differs(pair.entry.span, shown, same[0], written)


def _measured(text: str, language: str) -> list[tuple[frozenset[Decimal], str, str]]:
    """Each number that a known unit stands behind: its readings, the unit as the language table has it, as written."""
    words = unit_words(language)
    found = []
    for match in _AFTER.finditer(text):
        unit = words.get(match[2].lower())
        if unit is not None:
            found.append((readings(match[1]), unit, match[2]))
    return found


def _kind(unit: str) -> str:
    return next(kind for kind, units in _KINDS.items() if unit in units)


_KINDS = {
    "mass": ("g", "kg", "lb"),
    "length": ("mm", "cm", "m", "km", "in", "ft"),
    "time": ("s", "min", "hour", "day", "week", "month", "year"),
    "share": ("%",),
    "angle": ("deg",),
}
