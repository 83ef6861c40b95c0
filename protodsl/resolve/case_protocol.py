"""The protocol that a case follows, opened so that personal changes can be made in it."""

from __future__ import annotations

from dataclasses import dataclass, replace

from protodsl.diagnostics.diagnostic import Diagnostic
from protodsl.model.protocol import Protocol, Scope
from protodsl.resolve import unknown
from protodsl.resolve.assemble import protocol
from protodsl.resolve.desk import Desk
from protodsl.resolve.files import read_files
from protodsl.resolve.index import Cache
from protodsl.resolve.library import Library
from protodsl.resolve.names import Missing, Names, Symbol, Tables
from protodsl.resolve.reachable import build_scope
from protodsl.resolve.scope import tabulate
from protodsl.syntax import tree


@dataclass(frozen=True, slots=True, eq=False)
class Followed:
    """A protocol with the tables it was made from; what is wrong in it was said when its file was checked."""

    protocol: Protocol
    scope: Scope
    tables: Tables
    symbol: Symbol
    damaged: frozenset[str]

    def changed(self, changes: tuple[tree.Declaration, ...], path: str) -> tuple[Protocol, list[Diagnostic]]:
        """The protocol as if these `change` lines of the case stood in it, and what is to be said about them."""
        node = replace(self.symbol.node, lines=(*self.symbol.node.lines, *changes))
        desk = Desk(self.tables, self.damaged, keep=False)
        made = protocol(Symbol("protocols", self.symbol.name, self.symbol.path, node), desk, self.scope)
        said = list(desk.said)
        missing: list[Missing] = []
        for own in desk.read:
            said += own.said
            missing += own.missing
        return made, self.own_only([*said, *unknown.report(missing, self.tables, self.damaged)], path)

    def names(self, prefix: str) -> Names:
        """The names that a line of the case can speak of."""
        return Names(self.tables, prefix)

    def said(self, names: Names, path: str) -> list[Diagnostic]:
        """What is to be said about lines that were read with `names`."""
        return self.own_only([*names.said, *unknown.report(names.missing, self.tables, self.damaged)], path)

    @staticmethod
    def own_only(said: list[Diagnostic], path: str) -> list[Diagnostic]:
        """What is about the case file; the rest is about the protocol and has been said there."""
        return [one for one in said if one.primary.span.path == path]


def protocols_in(entry: str, library: Library, cache: Cache) -> tuple[Followed, ...]:
    """The protocols that one file declares, each ready to be followed; none where the file cannot be read."""
    program = read_files(entry, library, cache)
    if program is None:
        return ()
    tables = tabulate(program, [], [])
    damaged = frozenset(name for index in program.files.values() for name in index.damaged)
    desk = Desk(tables, damaged)
    scope = build_scope(desk)
    own = [symbol for symbol in tables["protocols"].values() if symbol.path == entry]
    return tuple(Followed(protocol(symbol, desk, scope), scope, tables, symbol, damaged) for symbol in own)
