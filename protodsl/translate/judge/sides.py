"""Left and right: in the translation as in the text, so far as the language's words for them are known."""

from __future__ import annotations

from collections.abc import Iterator

from protodsl.diagnostics import translation as say
from protodsl.diagnostics.diagnostic import Diagnostic
from protodsl.translate.judge.pair import Pair
from protodsl.translate.judge.words import sides_in


def sides_differ(pair: Pair) -> Iterator[Diagnostic]:
    """Swapped, where one side stands only here and the other only there; else lost, added, or in another order."""
    for source, target, shown in zip(_sources(pair), pair.targets, pair.entry.target, strict=True):
        here, there = sides_in(source, pair.own), sides_in(target, pair.language)
        if here is None or there is None or here == there:
            continue
        differ = [side for side in ("left", "right") if (side in here) != (side in there)]
        if len(differ) == len(("left", "right")) and here and there:
            yield say.sides_swapped(pair.entry.span, shown, here[0], there[0])
        elif differ:
            yield say.side_lost(pair.entry.span, shown, differ[0], differ[0] in here)
        elif sorted(here) == sorted(there):
            yield say.sides_in_another_order(pair.entry.span, shown)


def _sources(pair: Pair) -> tuple[str, ...]:
    """The text for each form of the translation."""
    forms = pair.sources
    return tuple(forms[min(at, len(forms) - 1)] for at in range(len(pair.targets)))
