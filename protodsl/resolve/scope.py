"""From files to tables: who declares what, what `with` sets and `without` takes out, what is declared twice."""

from __future__ import annotations

from protodsl.diagnostics import kinds as say_kinds
from protodsl.diagnostics import names as say
from protodsl.diagnostics.diagnostic import Diagnostic
from protodsl.diagnostics.suggest import nearest
from protodsl.model.protocol import Setting
from protodsl.resolve.files import Program
from protodsl.resolve.index import in_range
from protodsl.resolve.names import KINDS, Missing, Symbol, Tables
from protodsl.resolve.quantities import quantity
from protodsl.resolve.taken_out import lost_lines
from protodsl.source import Span
from protodsl.syntax import tree
from protodsl.units import Quantity


def tabulate(program: Program, said: list[Diagnostic], missing: list[Missing]) -> Tables:
    """Every declaration in reach by kind and name; of two under one name the first stands, and it is said."""
    out = _without(program, said)
    tables: Tables = {kind: {} for kind in KINDS}
    for path, index in program.files.items():
        said += index.said
        for symbol in index.symbols:
            if (symbol.kind, symbol.name, path) in out:
                continue
            before = tables[symbol.kind].setdefault(symbol.name, symbol)
            if before is not symbol and symbol.name not in index.damaged:
                said.append(say.declared_twice(symbol.kind, symbol.name, symbol.span, before.span))
    _with(program, tables, said, missing)
    return tables


def _without(program: Program, said: list[Diagnostic]) -> set[tuple[str, str, str]]:
    """Kind, name and file of every declaration that an importer's own stands in for."""
    out: set[tuple[str, str, str]] = set()
    for importer, use, used in program.uses:
        for name in use.without:
            files = program.closure(used) - {importer}
            theirs = [one for path in files if path in program.files for one in program.files[path].symbols]
            same = [one for one in theirs if one.name == name.text]
            own = {one.kind for one in program.files[importer].symbols if one.name == name.text}
            if not same:
                near = nearest(name.text, [one.name for one in theirs])
                said.append(say.without_nothing(name.text, use.path.text, name.span, near))
            elif not any(one.kind in own for one in same) and name.text not in program.files[importer].damaged:
                said.append(say.without_own(name.text, name.span, same[0].span))
            gone = [one for one in same if one.kind in own]
            out |= {(one.kind, one.name, one.path) for one in gone}
            for one in gone:
                _tell_lost(one, importer, name, program, said)
    return out


def _tell_lost(gone: Symbol, importer: str, name: tree.Name, program: Program, said: list[Diagnostic]) -> None:
    """What was said for safety of a thing that is taken out has to be said by what stands in for it."""
    reach = [one for path in program.closure(importer) if path in program.files for one in program.files[path].symbols]
    others = {(one.kind, one.name): one for one in reach if one is not gone}
    own = next(one for one in program.files[importer].symbols if (one.kind, one.name) == (gone.kind, gone.name))
    own.stands_in = True
    others[own.kind, own.name] = own
    damaged = program.files[importer].damaged
    if own.name not in damaged and (lines := lost_lines(gone, own, others)):
        said.append(say.safety_lost(own.kind, own.name, lines, name.span, gone.span, own.span))


def _with(program: Program, tables: Tables, said: list[Diagnostic], missing: list[Missing]) -> None:
    """Give settings the values that `with` lines say; two different values for one are said."""
    given: dict[str, tuple[Quantity, Span]] = {}
    for _, use, _ in program.uses:
        for name, amount in use.settings:
            symbol = tables["settings"].get(name.text)
            if symbol is None:
                missing.append(Missing(("settings",), name))
                continue
            value = quantity(amount)
            before = given.setdefault(name.text, (value, name.span))
            if before[1] is not name.span and before[0] != value:
                said.append(say.two_values(name.text, name.span, before[1]))
            elif before[1] is name.span:
                _set(symbol, value, amount, tables, said)


def _set(symbol: Symbol, value: Quantity, amount: tree.Amount, tables: Tables, said: list[Diagnostic]) -> None:
    setting = symbol.setting
    if setting is None:
        return
    if value.dimension != setting.value.dimension:
        is_, other = setting.value.dimension, value.dimension
        places = [(symbol.span, f"`{symbol.name}` is {setting.value}")]
        said.append(say_kinds.different_dimensions(symbol.name, is_, str(value), other, amount.span, places))
    elif in_range(setting, value, amount, said):
        new = Setting(setting.name, value, setting.low, setting.high, span=setting.span)
        tables["settings"][symbol.name] = Symbol(
            symbol.kind, symbol.name, symbol.path, symbol.node, setting=new
        )
