"""From one entry file to its model: files, tables, declarations, then the protocols it declares."""

from __future__ import annotations

from collections.abc import Iterable

from protodsl.diagnostics.diagnostic import Diagnostic, in_order
from protodsl.model.protocol import Declared, Entry
from protodsl.outcome import Outcome
from protodsl.resolve import unknown
from protodsl.resolve.assemble import protocol
from protodsl.resolve.desk import Desk
from protodsl.resolve.files import read_files
from protodsl.resolve.index import Cache
from protodsl.resolve.library import Library
from protodsl.resolve.names import Missing, Own, Tables
from protodsl.resolve.reachable import build_scope
from protodsl.resolve.scope import tabulate


def resolve(entry: str, library: Library, cache: Cache | None = None) -> Outcome[Entry]:
    """What an entry file means: None only where it cannot be read at all; every problem met on the way is said.

    Hand the same cache to all entries of a run: what a shared library comes to is then worked out once.
    """
    program = read_files(entry, library, cache or Cache())
    if program is None:
        return Outcome(None)
    said, missing = program.said, list[Missing]()
    tables = tabulate(program, said, missing)
    desk = Desk(tables, frozenset(name for index in program.files.values() for name in index.damaged))
    scope = build_scope(desk)
    own_protocols = [symbol for symbol in tables["protocols"].values() if symbol.path == entry]
    resolved = [protocol(symbol, desk, scope) for symbol in own_protocols]
    said += desk.said
    for own in desk.read:
        said += own.said
        missing += own.missing
    undeclared = list(unknown.report(missing, tables, desk.damaged))
    said += undeclared
    others = [path for path in program.files if path != entry]
    used = _used(desk.read, undeclared, tables, desk.damaged)
    value = Entry(entry, (entry, *others), scope, tuple(resolved), used)
    return Outcome(value, in_order(tuple(said)))


def _used(
    read: Iterable[Own], undeclared: Iterable[Diagnostic], tables: Tables, damaged: Iterable[str]
) -> frozenset[Declared]:
    """Every declaration that some line asked for, or would have but for its spelling, and what was not read whole."""
    asked = {(kind, name) for name in damaged for kind in tables}
    for one in undeclared:
        near, kinds = one.args.get("nearest"), one.args.get("kinds")
        if isinstance(near, str) and isinstance(kinds, tuple):
            asked.update((kind, near) for kind in kinds if kind in tables)
    for own in read:
        asked.update(own.exact)
        asked.update(own.there)
    found = ((kind, name, tables[kind].get(name)) for kind, name in asked)
    return frozenset(Declared(kind, name, symbol.path) for kind, name, symbol in found if symbol is not None)
