"""What one file declares, found once for each tree and kept between runs."""

from __future__ import annotations

from dataclasses import dataclass, field

from protodsl.diagnostics import kinds as say_kinds
from protodsl.diagnostics.diagnostic import Diagnostic
from protodsl.model.protocol import Setting
from protodsl.resolve.findings import answer_of
from protodsl.resolve.names import Symbol
from protodsl.resolve.quantities import quantity
from protodsl.syntax import tree
from protodsl.units import Quantity

KIND_OF: dict[str, str] = {
    "setting": "settings",
    "equipment": "equipment",
    "target": "targets",
    "question": "findings",
    "test": "findings",
    "finding": "findings",
    "exercise": "exercises",
    "progression": "progressions",
    "protocol": "protocols",
}


@dataclass(slots=True, eq=False)
class FileIndex:
    """The declarations of one file in text order, its `use` lines, and the names the parser could not read whole."""

    file: tree.File
    symbols: list[Symbol] = field(default_factory=list)
    uses: list[tree.Use] = field(default_factory=list)
    damaged: frozenset[str] = frozenset()
    said: list[Diagnostic] = field(default_factory=list)


@dataclass(slots=True)
class Cache:
    """What is known of the trees of a run; hand the same one to every `resolve` of that run."""

    _files: dict[int, FileIndex] = field(default_factory=dict)

    def index(self, file: tree.File) -> FileIndex:
        """The index of a tree, made when the tree is first met."""
        found = self._files.get(id(file))
        if found is None or found.file is not file:
            found = self._files[id(file)] = _index(file)
        return found


def _index(file: tree.File) -> FileIndex:
    index = FileIndex(file, damaged=frozenset(name.text for name in file.damaged))
    for statement in file.statements:
        if isinstance(statement, tree.Use):
            index.uses.append(statement)
        elif isinstance(statement, (tree.Declaration, tree.FindingDeclaration, tree.Described, tree.SettingLine)):
            kind = KIND_OF.get(statement.keyword)
            if kind is not None:
                symbol = _symbol(kind, statement, file.path, index.said)
                if symbol.name in index.damaged and kind == "findings" and not _says_answer(statement):
                    symbol.answer = None  # the line that says it may be the one that could not be read
                index.symbols.append(symbol)
    return index


def _symbol(
    kind: str,
    node: tree.Declaration | tree.FindingDeclaration | tree.Described | tree.SettingLine,
    path: str,
    said: list[Diagnostic],
) -> Symbol:
    symbol = Symbol(kind, node.name.text, path, node)
    if isinstance(node, tree.FindingDeclaration):
        symbol.answer = answer_of(node.keyword, node.lines)
    elif isinstance(node, tree.SettingLine):
        symbol.setting = _setting(node, said)
    return symbol


def _says_answer(statement: tree.Statement) -> bool:
    lines: tuple[tree.Statement, ...] = getattr(statement, "lines", ())
    return any(isinstance(line, tree.AnswerLine) for line in lines)


def _setting(node: tree.SettingLine, said: list[Diagnostic]) -> Setting | None:
    """A setting whose range, where it has one, is of one dimension and holds its value; else None, and why."""
    value = quantity(node.value)
    low, high = (quantity(node.low) if node.low else None), (quantity(node.high) if node.high else None)
    if low is not None and low.unit is None and high is not None:
        low = Quantity(low.value, high.unit)  # `from 0 to 6 weeks`
    for end, amount in ((low, node.low), (high, node.high)):
        if end is not None and amount is not None and end.dimension != value.dimension:
            said.append(
                say_kinds.different_dimensions(
                    node.name.text, value.dimension, str(end), end.dimension, amount.span, ()
                )
            )
            return None
    if low is not None and high is not None and low.to(value.unit).value > high.to(value.unit).value:
        why = "it runs backwards"
        written = f"from {low} to {high}"
        said.append(say_kinds.impossible_number(written, why, "write the smaller number first", node.head))
        return None
    setting = Setting(node.name.text, value, low, high, span=node.name.span)
    return setting if in_range(setting, value, node.value, said) else None


def in_range(setting: Setting, value: Quantity, written: tree.Amount, said: list[Diagnostic]) -> bool:
    """Whether a value lies in the range of a setting; else it is said."""
    low, high = setting.low, setting.high
    if low is None or high is None:
        return True
    if low.to(value.unit).value <= value.value <= high.to(value.unit).value:
        return True
    said.append(
        say_kinds.setting_outside(setting.name, str(value), str(low), str(high), written.span, setting.span)
    )
    return False
