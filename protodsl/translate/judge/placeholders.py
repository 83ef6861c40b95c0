"""Placeholders: `[affected side]`, `[setting]` and `{value}` stand in the translation as they stand in the text."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator

from protodsl.diagnostics import translation as say
from protodsl.diagnostics.diagnostic import Diagnostic
from protodsl.model.text import PLACED_SIDES
from protodsl.translate.judge.pair import SLOT, Pair


def placeholders_differ(pair: Pair) -> Iterator[Diagnostic]:
    """A placeholder that is lost, or that the text does not have; plural forms before the last may leave some out."""
    wanted = {_name(slot) for form in pair.entry.source for slot in SLOT.findall(form)}
    for at, form in enumerate(pair.entry.target):
        there = Counter(_name(slot) for slot in SLOT.findall(form))
        last = at == len(pair.entry.target) - 1
        lost = tuple(sorted(wanted - there.keys())) if last else ()
        added = tuple(sorted(there.keys() - wanted))
        if lost or added:
            yield say.placeholder_differs(pair.entry.span, form, lost, added)


def _name(slot: str) -> str:
    """`{Name}` is `{name}` raised; `[on the affected side]` is `[affected side]` after its preposition."""
    if slot.startswith("{"):
        return slot[0] + slot[1:2].lower() + slot[2:]
    name = " ".join(slot[1:-1].split())
    return f"[{PLACED_SIDES.get(name, name)}]"
