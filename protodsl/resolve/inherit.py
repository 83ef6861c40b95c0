"""What `like` and `change` hand down: safety lines are added to and never dropped, any other restated line replaces.

A safety line goes only in the open: `allow if` for an `avoid if`, `lift` for every other, each with a `because`.
"""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import replace
from typing import Any

from protodsl.diagnostics import names as say
from protodsl.diagnostics.diagnostic import Diagnostic
from protodsl.model.condition import Placed
from protodsl.model.exercise import Avoid, Lifted
from protodsl.model.lists import BEARING
from protodsl.resolve.blocks import HURT, LOST, UNREADABLE
from protodsl.resolve.lines import Lift, Word
from protodsl.resolve.names import Block

SAFETY: dict[str, tuple[str, ...]] = {
    "exercise": ("avoid if", "caution if", "stop"),
    "progression": (),
    "finding": (),
    "protocol": ("emergency if", "red flag if", "call if", "caution if", "stop", "not yet"),
    "phase": ("limit", "forbid", "bearing", "call if", "caution if", "stop", "not yet"),
}

_KEYWORDS = frozenset(keyword for keywords in SAFETY.values() for keyword in keywords)

# What shows an exercise, and the line by which a variant is not shown as the other one is.
NO_PICTURE = "no figure"
PICTURES = ("figure", "image", NO_PICTURE)

LIFTED = "lifted"
_LIFTS = ("allow if", "lift")


def text_of(keyword: str, value: Any) -> str:
    """The text by which a safety line is lifted."""
    if keyword in ("stop", "not yet"):
        return f"{keyword} {value.text}"
    if isinstance(value, Word):
        return f"{keyword} {value.word}"
    line: str = value.line
    return line


def inherit(inherited: Block | None, own: Block, kind: str, keep_title: bool, said: list[Diagnostic]) -> Block:
    """The lines of a declaration with those it inherits; None inherited: there is nothing to inherit or to lift."""
    lifts: list[Lift] = [one for keyword in _LIFTS for one in own.get(keyword, ())]
    if inherited is None:
        _nothing_to_lift(lifts, (), own, said)
        return own if not lifts else {keyword: lines for keyword, lines in own.items() if keyword not in _LIFTS}
    merged = {**inherited, **own}
    for keyword in (*_LIFTS, *(PICTURES if NO_PICTURE in own else ())):
        merged.pop(keyword, None)
    if not keep_title and "title" not in own:
        merged.pop("title", None)
    for mark in (LOST, HURT):
        if mark in inherited:
            merged[mark] = [*inherited[mark], *own.get(mark, ())]
    left = _without_lifted(inherited, lifts, kind, merged, own, said) if lifts else inherited
    for keyword in SAFETY[kind]:
        if keyword in left:
            merged[keyword] = _JOIN.get(keyword, _joined)(left[keyword], own.get(keyword, []), keyword, said)
    if LIFTED in merged:
        _forget_restated(merged, kind)
    return merged


def _joined(inherited: list[Any], own: list[Any], keyword: str, said: list[Diagnostic]) -> list[Any]:
    """Inherited lines, then the own ones; the same line restated only adds what stands under it."""
    if not own:
        return inherited
    lines = list(inherited)
    at = {text_of(keyword, value): number for number, value in enumerate(lines)}
    for value in own:
        number = at.get(text_of(keyword, value))
        if number is None:
            lines.append(value)
        elif getattr(value, "lines", ()):
            there = lines[number]
            known = [one.text for one in there.lines]
            more = tuple([one for one in value.lines if one.text not in known])
            lines[number] = replace(there, lines=there.lines + more)
    return lines


def _joined_avoid(inherited: list[Any], own: list[Any], keyword: str, said: list[Diagnostic]) -> list[Any]:
    """As `_joined`, but the same condition restated puts its `instead` and `because` in place of the inherited ones."""
    if not own:
        return inherited
    lines: list[Avoid] = list(inherited)
    at = {line.line: number for number, line in enumerate(lines)}
    for line in own:
        number = at.get(line.line)
        if number is None:
            lines.append(line)
        else:
            there = lines[number]
            lines[number] = replace(
                there,
                instead=line.instead or there.instead,
                because=line.because or there.because,
                span=line.span,
            )
    return lines


def _joined_bearing(inherited: list[Any], own: list[Any], keyword: str, said: list[Diagnostic]) -> list[Any]:
    """The stricter of two; one that would be looser has no effect, and it is said."""
    strictest = min(inherited, key=_strictness)
    for word in own:
        if _strictness(word) <= _strictness(strictest):
            strictest = word
        else:
            said.append(say.looser_bearing(word.word, strictest.word, word.span, strictest.span))
    return [strictest]


def _strictness(word: Word) -> int:
    return BEARING.index(word.word)


_JOIN: dict[str, Callable[[list[Any], list[Any], str, list[Diagnostic]], list[Any]]] = {
    "avoid if": _joined_avoid,
    "bearing": _joined_bearing,
}


def _without_lifted(
    inherited: Block, lifts: Sequence[Lift], kind: str, merged: Block, own: Block, said: list[Diagnostic]
) -> Block:
    """The inherited safety lines without those that are lifted; what was lifted is kept in `merged`."""
    left = {keyword: inherited[keyword] for keyword in SAFETY[kind] if keyword in inherited}
    lifted: list[Lifted] = list(inherited.get(LIFTED, ()))
    unmatched = []
    for lift in lifts:
        keywords = [key for key in left if (key == "avoid if") is lift.allow and text_starts(lift.line, key)]
        gone = [(key, value) for key in keywords for value in left[key] if text_of(key, value) == lift.line]
        for key, value in gone:
            left[key] = [one for one in left[key] if one is not value]
            origin = value if isinstance(value, Placed) else Placed(span=value.span)
            lifted.append(Lifted(lift.line, lift.because, origin, span=lift.span))
        if not gone:
            unmatched.append(lift)
    if unmatched:
        there = [text_of(key, value) for key in left for value in left[key]]
        _nothing_to_lift(unmatched, there, {**inherited, LOST: merged.get(LOST, [])}, said)
    for keyword, lines in left.items():
        if not lines and keyword not in own:
            merged.pop(keyword, None)
    merged[LIFTED] = lifted
    return {keyword: lines for keyword, lines in left.items() if lines}


def text_starts(line: str, keyword: str) -> bool:
    """Whether a line begins with a keyword."""
    return line == keyword or line.startswith(f"{keyword} ")


def _nothing_to_lift(lifts: Sequence[Lift], there: Sequence[str], block: Block, said: list[Diagnostic]) -> None:
    """Each lift that finds nothing is named, unless what it lifts may be among lines that were not understood."""
    broken = block.get(LOST, ())
    for lift in lifts:
        if UNREADABLE in broken or any(text_starts(lift.line, keyword) for keyword in broken):
            continue
        keyword = next((one for one in _KEYWORDS if text_starts(lift.line, one)), None)
        alike = [one for one in there if keyword is not None and text_starts(one, keyword)]
        allowed = lift.line.replace("avoid if", "allow if", 1)
        line = allowed if lift.allow else lift.line
        instead = allowed if keyword == "avoid if" and not lift.allow else ""
        said.append(say.nothing_to_lift(line, lift.span, alike, instead))


def _forget_restated(merged: Block, kind: str) -> None:
    """What was lifted once and stands again is no longer lifted."""
    there = {text_of(keyword, value) for keyword in SAFETY[kind] for value in merged.get(keyword, ())}
    merged[LIFTED] = [one for one in merged[LIFTED] if one.line not in there]
