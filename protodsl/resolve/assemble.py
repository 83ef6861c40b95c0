"""A protocol put together: the chain of `like`, the changes along it, the whole in tables of its own."""

from __future__ import annotations

from dataclasses import replace

from protodsl.diagnostics import names as say
from protodsl.diagnostics.diagnostic import Diagnostic
from protodsl.model.protocol import ChangeMade, Protocol, Scope
from protodsl.model.reach import exercises_reached
from protodsl.resolve import protocols
from protodsl.resolve.blocks import LOST, UNREADABLE, read_block
from protodsl.resolve.changes import Target, changed_tables, changes_made, targets
from protodsl.resolve.desk import Desk, circle_of, look_up_like, prefix_of
from protodsl.resolve.layers import one_dose
from protodsl.resolve.names import Block, Names, Symbol, Tables
from protodsl.resolve.phases import PhaseLines, gather, read_phase
from protodsl.resolve.reachable import build_scope


def protocol(symbol: Symbol, base: Desk, scope: Scope) -> Protocol:
    """The protocol with all it inherits and changes; `scope` is what its file has in reach, before its own changes."""
    said: list[Diagnostic] = []
    names = Names(base.tables, prefix_of(symbol))
    chain = _chain(symbol, base.tables, said)
    found = [(one, targets(one, chain[: at + 1], base.tables, names)) for at, one in enumerate(chain)]
    every = [target for _, some in found for target in some]
    desk = base
    if any(target.kind not in (None, "phases") for target in every):
        desk = Desk(changed_tables(base.tables, every), base.damaged, keep=False)
        scope = build_scope(desk, scope)
    block = _joined(found, desk, said)
    said = _without_left_out(said, block)
    whole = protocols.build_protocol(symbol.node, block, scope, said)
    made = changes_made(every, base, desk, names)
    if desk is not base:
        base.read += desk.read
        base.said += desk.said
    base.read.append(names.result({}))
    base.said += said
    made += _standing_in(whole, desk.tables)
    return replace(whole, changes=made, changed=_changed(made))


def _standing_in(whole: Protocol, tables: Tables) -> tuple[ChangeMade, ...]:
    """What the protocol reaches and is this file's own in place of what a `without` takes out."""
    own = {name: one for name, one in tables["exercises"].items() if one.stands_in}
    reached = (one.exercise for one in exercises_reached(whole)) if own else ()
    return tuple(ChangeMade("exercises", name, span=own[name].span) for name in reached if name in own)


def _without_left_out(said: list[Diagnostic], block: Block) -> list[Diagnostic]:
    """What is said, but of gives that are gone only those that no `leave out` takes away in the open."""
    out = {name.text for name in block.get("leave out", ())}
    kept: list[Diagnostic] = []
    for one in said:
        names = one.args.get("names")
        if one.code is not say.GIVES_REPLACED or not isinstance(names, tuple):
            kept.append(one)
        elif left := [name for name in names if name not in out]:
            kept.append(say.gives_replaced(left, str(one.args["where"]), one.primary.span))
    return kept


def _chain(symbol: Symbol, tables: Tables, said: list[Diagnostic]) -> list[Symbol]:
    """The protocol and those it is like, the oldest first; a circle is cut and named."""
    chain: list[Symbol] = []
    at: Symbol | None = symbol
    while at is not None:
        if at in chain:
            said.append(circle_of(chain[chain.index(at) :]))
            break
        chain.append(at)
        at = tables["protocols"].get(at.node.like.text) if at.node.like is not None else None
    return chain[::-1]


def _joined(found: list[tuple[Symbol, list[Target]]], desk: Desk, said: list[Diagnostic]) -> Block:
    """The lines of the whole chain, each protocol's phase changes made after its own lines."""
    block: Block | None = None
    for symbol, changes in found:
        own = desk.own(symbol, _read).block
        if symbol.name in desk.damaged or (block is None and symbol.node.like is not None):
            own = {**own, LOST: [*own.get(LOST, ()), UNREADABLE]}
        block = protocols.join(block, own, symbol.node, said)
        for target in changes:
            if target.kind == "phases":
                block = protocols.change_phase(block, _phase_change(target, symbol, desk), said)
    return block or {}


def _read(symbol: Symbol, names: Names) -> Block:
    if symbol.node.like is not None:
        look_up_like(symbol, names)
    block = read_block(symbol.node.lines, protocols.FORM, names)
    one_dose(block, names)
    gather(block)
    return block


def _phase_change(target: Target, symbol: Symbol, desk: Desk) -> PhaseLines:
    names = Names(desk.tables, prefix_of(symbol))
    change = target.change
    lines = [line for line in change.lines if line.keyword != "because"]
    read = read_phase(change.name, lines, change, names)
    desk.read.append(names.result({}))
    return read


def _changed(made: tuple[ChangeMade, ...]) -> tuple[str, ...]:
    return tuple(dict.fromkeys(name for one in made for name in (one.name, *one.followers)))
