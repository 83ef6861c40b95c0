"""Where declarations are worked on: their own lines read once, what they inherit laid under, the whole built."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass, field
from typing import Any

from protodsl.diagnostics import names as say
from protodsl.diagnostics.diagnostic import Diagnostic
from protodsl.resolve import exercises, findings, progressions
from protodsl.resolve.blocks import LOST, UNREADABLE, Form, first, read_block
from protodsl.resolve.inherit import PICTURES, inherit
from protodsl.resolve.layers import one_dose
from protodsl.resolve.names import Block, Missing, Names, Own, Symbol, Tables, Whole
from protodsl.syntax import tree

SORTS = {"findings": "finding", "exercises": "exercise", "progressions": "progression", "protocols": "protocol"}


@dataclass(slots=True, eq=False)
class Desk:
    """One set of tables and what was made with it; with `keep` the results stay on the symbols for the next run.

    `damaged` are names whose declarations the parser could not read whole, so nothing is said to be missing there.
    """

    tables: Tables
    damaged: frozenset[str] = frozenset()
    keep: bool = True
    said: list[Diagnostic] = field(default_factory=list)
    read: list[Own] = field(default_factory=list)
    done: dict[Symbol, Whole] = field(default_factory=dict)

    def own(self, symbol: Symbol, read: Callable[[Symbol, Names], Block]) -> Own:
        """The declaration's own lines, read again only where a name in them means something else than last time."""
        for kept in symbol.own:
            if kept.holds(self.tables):
                self.read.append(kept)
                return kept
        names = Names(self.tables, prefix_of(symbol))
        own = names.result(read(symbol, names))
        self.read.append(own)
        if self.keep:
            symbol.own = [own]
        return own

    def whole(self, symbol: Symbol) -> Whole:
        """The declaration with everything it inherits; a circle of `like` is cut and named."""
        chain: list[Symbol] = []
        at: Symbol | None = symbol
        while at is not None and at not in self.done:
            if at in chain:
                self.said.append(circle_of(chain[chain.index(at) :]))
                break
            chain.append(at)
            at = self._under(at)
        below = self.done.get(at) if at is not None else None
        for one in reversed(chain):
            below = self._join(one, below)
            self.done[one] = below
        return self.done[symbol]

    def _under(self, symbol: Symbol) -> Symbol | None:
        """What a declaration inherits from."""
        if symbol.base is not None:
            return symbol.base
        like: tree.Name | None = getattr(symbol.node, "like", None)
        return self.tables[symbol.kind].get(like.text) if like is not None else None

    def _join(self, symbol: Symbol, below: Whole | None) -> Whole:
        own = self.own(symbol, read_own)
        made_from = (own, below)
        kept = symbol.whole
        if kept is not None and kept.made_from[0] is own and kept.made_from[1] is below:
            self.said += kept.said
            return kept
        said: list[Diagnostic] = []
        block = join(symbol, own.block, below.block if below else None, self.damaged, said)
        model = _build(symbol, block, said)
        whole = Whole(block, made_from, said, model)
        self.said += said
        if self.keep:
            symbol.whole = whole
        return whole


def circle_of(symbols: list[Symbol]) -> Diagnostic:
    """A circle of `like`, told from the one that is written first, so that it is the same from wherever it is met."""
    start = min(range(len(symbols)), key=lambda at: symbols[at].span)
    ordered = symbols[start:] + symbols[:start]
    return say.like_in_a_circle([one.name for one in (*ordered, ordered[0])], ordered[0].node.like.span)


def prefix_of(symbol: Symbol) -> str:
    """How the keys of a declaration's prose begin: `exercise/NAME/`."""
    return f"{symbol.node.keyword}/{symbol.name}/"


def read_own(symbol: Symbol, names: Names) -> Block:
    """The lines of a declaration, or of what changes it, without what it inherits."""
    if symbol.base is not None:
        block: Block = {}
        for change in symbol.changes:
            block = {**block, **read_change(symbol, change, names)}
        return block
    node = symbol.node
    if symbol.kind == "findings":
        return findings.read(node, node.lines, symbol.answer, names)
    if node.like is not None:
        look_up_like(symbol, names)
    block = read_block(node.lines, FORMS[symbol.kind], names)
    one_dose(block, names)
    return block


def read_change(symbol: Symbol, change: tree.Declaration, names: Names) -> Block:
    """The lines of a `change`, read as lines of what it changes."""
    lines = [line for line in change.lines if line.keyword != "because"]
    if symbol.kind == "findings":
        return findings.read(symbol.node, lines, symbol.answer, names)
    form = CHANGE_FORM if symbol.kind == "progressions" else FORMS[symbol.kind]
    block = read_block(lines, form, names)
    one_dose(block, names)
    return block


def look_up_like(symbol: Symbol, names: Names) -> None:
    """What a declaration is like has to be declared."""
    like = symbol.node.like
    if names.find(symbol.kind, like.text) is None:
        names.missing.append(Missing((symbol.kind,), like))


def join(symbol: Symbol, own: Block, below: Block | None, broken: frozenset[str], said: list[Diagnostic]) -> Block:
    """A declaration's own lines over those it inherits; what is missing then is said."""
    sort = SORTS[symbol.kind]
    node = symbol.node
    if symbol.name in broken or (below is None and symbol.base is None and getattr(node, "like", None) is not None):
        own = {**own, LOST: [*own.get(LOST, ()), UNREADABLE]}
    block = inherit(below, own, sort, symbol.base is not None, said)
    if symbol.kind == "progressions" and "level" in own and (below is not None or _has_after(own)):
        levels = progressions.join_levels(below or {}, own, symbol.name, symbol.base is not None, said)
        block = {**block, "level": levels}
    return block


def _has_after(own: Block) -> bool:
    return any(level.after is not None for level in own["level"])


def _build(symbol: Symbol, block: Block, said: list[Diagnostic]) -> Any:
    node = symbol.node
    if symbol.kind == "findings":
        return findings.build(node, symbol.answer, block)
    like = node.like.text if node.like is not None else None
    if symbol.kind == "exercises":
        _picture(symbol, block, said)
        return exercises.build(node.name, like, block, node.name.span)
    return progressions.build(node.name, like, block, said)


def _picture(symbol: Symbol, block: Block, said: list[Diagnostic]) -> None:
    """A picture that a variant inherits though its own lines say that it is done in another way."""
    like = symbol.node.like
    if like is None or symbol.base is not None:
        return
    stated = {line.keyword: line for line in symbol.node.lines}
    if stated.keys() & set(PICTURES) or not (first(block, "figure") or first(block, "image")):
        return
    for keyword in ("position", "moves"):
        if keyword in stated:
            said.append(say.inherited_picture(symbol.name, like.text, keyword, stated[keyword].head))
            return


CHANGE_FORM = Form("a progression", progressions.CHANGE_READERS)
FORMS: dict[str, Form] = {"exercises": exercises.FORM, "progressions": progressions.FORM}
