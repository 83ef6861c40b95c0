"""The `change` lines of a protocol: what each changes, and the tables as they are inside this protocol only."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass

from protodsl.diagnostics import names as say
from protodsl.model.protocol import ChangeMade
from protodsl.model.text import Prose
from protodsl.resolve import exercises, findings, phases, progressions
from protodsl.resolve.desk import Desk
from protodsl.resolve.findings import answer_of
from protodsl.resolve.names import Missing, Names, Symbol, Tables
from protodsl.resolve.prose import prose
from protodsl.syntax import tree

CHANGEABLE = ("exercises", "progressions", "findings")


@dataclass(frozen=True, slots=True)
class Target:
    """A `change` line with the kind of what it changes; None where that is not declared or not clear."""

    change: tree.Declaration
    kind: str | None


def targets(symbol: Symbol, chain: Sequence[Symbol], tables: Tables, names: Names) -> list[Target]:
    """Every `change` of one protocol; `chain` ends with it and begins with the oldest it is like."""
    lines = [line for one in chain for line in one.node.lines]
    known = {line.name.text for line in lines if line.keyword == "phase"}
    return [Target(line, _kind(line, known, tables, names)) for line in symbol.node.lines if line.keyword == "change"]


def _kind(change: tree.Declaration, known_phases: set[str], tables: Tables, names: Names) -> str | None:
    """The kind of what is changed; where several kinds have the name, the lines decide."""
    name = change.name
    kinds = ["phases"] if name.text in known_phases else []
    kinds += [kind for kind in CHANGEABLE if names.find(kind, name.text) is not None]
    if not kinds:
        names.missing.append(Missing(("exercises", "progressions", "phases", "findings"), name))
        return None
    if len(kinds) > 1:
        kinds = [kind for kind in kinds if _holds(kind, change, name.text, tables)] or kinds
    if len(kinds) > 1:
        there = [kind for kind in kinds if kind != "phases"]
        places = [tables[kind][name.text].span for kind in there]
        names.say(say.ambiguous(name.text, there, name.span, places))
        return None
    return kinds[0]


def _holds(kind: str, change: tree.Declaration, name: str, tables: Tables) -> bool:
    """Whether every line under the change may stand in that kind of thing."""
    readers = {
        "phases": phases.READERS,
        "exercises": exercises.READERS,
        "progressions": progressions.READERS,
        "findings": findings.form_of(tables["findings"][name].node.keyword).readers if kind == "findings" else {},
    }[kind]
    return all(line.keyword in readers or line.keyword == "because" for line in change.lines)


def changed_tables(tables: Tables, found: Iterable[Target]) -> Tables:
    """The tables with a changed symbol in place of each one that is changed, not counting phases."""
    changed = dict(tables)
    for target in found:
        kind, change = target.kind, target.change
        if kind is None or kind == "phases":
            continue
        if changed[kind] is tables[kind]:
            changed[kind] = dict(tables[kind])
        base = changed[kind][change.name.text]
        symbol = Symbol(kind, base.name, base.path, base.node, base=base, changes=(change,))
        if kind == "findings":
            lines = [line for line in change.lines if line.keyword in ("answer", "if", "otherwise")]
            symbol.answer = answer_of(base.node.keyword, lines) if lines else base.answer
        changed[kind][change.name.text] = symbol
    return changed


def changes_made(found: Iterable[Target], before: Desk, after: Desk, names: Names) -> tuple[ChangeMade, ...]:
    """What each change touched; variants that come out otherwise than before follow it."""
    made: list[ChangeMade] = []
    for target in found:
        change = target.change
        if target.kind is None:
            continue
        because = _because(change, names)
        follow = _followers(change.name.text, before, after) if target.kind in ("exercises", "progressions") else ()
        made.append(ChangeMade(target.kind, change.name.text, because, follow, span=change.head))
        if follow:
            names.say(say.followers(change.name.text, follow, change.name.span))
    return tuple(made)


def _because(change: tree.Declaration, names: Names) -> Prose | None:
    line = next((line for line in change.lines if isinstance(line, tree.ProseLine) and line.keyword == "because"), None)
    return prose(line.words, "because", names) if line is not None else None


def _followers(name: str, before: Desk, after: Desk) -> tuple[str, ...]:
    """Variants of a changed thing, however many steps away, that are not what they were."""
    follow: list[str] = []
    for kind in ("exercises", "progressions"):
        for variant, symbol in after.tables[kind].items():
            if symbol.base is not None or not _is_like(symbol, name, after.tables):
                continue
            if before.whole(before.tables[kind][variant]).model != after.whole(symbol).model:
                follow.append(variant)
    return tuple(follow)


def _is_like(symbol: Symbol, name: str, tables: Tables) -> bool:
    seen: set[str] = set()
    like = symbol.node.like
    while like is not None and like.text not in seen:
        if like.text == name:
            return True
        seen.add(like.text)
        parent = tables[symbol.kind].get(like.text)
        like = parent.node.like if parent is not None else None
    return False
