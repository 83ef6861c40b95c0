"""Read which module imports which, from the text of the modules alone."""

import ast
from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from pathlib import Path


@dataclass(frozen=True, slots=True)
class Import:
    """An import as written: the module that imports, the module it names ("" if unknown), where, and how.

    `by_name` is True for `import_module(f"package.{name}")`, which names a package for all that is in it.
    """

    importer: str
    imported: str
    place: str
    by_name: bool = False


def modules_of(package: Path) -> dict[str, Path]:
    """Map the dotted name of each module of a package to its file; a package stands for its `__init__.py`."""
    found: dict[str, Path] = {}
    for path in sorted(package.rglob("*.py")):
        parts = (package.name, *path.relative_to(package).with_suffix("").parts)
        found[".".join(parts[:-1] if parts[-1] == "__init__" else parts)] = path
    return found


def imports_of(modules: Mapping[str, Path]) -> tuple[Import, ...]:
    """Every import in the modules, also those inside functions and for the type checker only."""
    found: list[Import] = []
    for module, path in modules.items():
        depth = module.count(".") + (path.name == "__init__.py")
        file = path.relative_to(path.parents[depth]).as_posix()
        for node in ast.walk(ast.parse(path.read_text(encoding="utf-8"))):
            if isinstance(node, ast.Import | ast.ImportFrom):
                names = _names(node, module, path, modules)
                found += [Import(module, name, f"{file}:{node.lineno}") for name in names]
            elif isinstance(node, ast.Call) and _is_import_module(node.func):
                found.append(Import(module, _beginning(node.args), f"{file}:{node.lineno}", by_name=True))
    return tuple(found)


def _names(node: ast.Import | ast.ImportFrom, module: str, path: Path, modules: Mapping[str, Path]) -> Iterator[str]:
    """The modules that a statement names; `from a import b` names `a.b` where that is a module, else `a`."""
    if isinstance(node, ast.Import):
        yield from (alias.name for alias in node.names)
        return
    base = node.module or ""
    if node.level:
        package = module.split(".") if path.name == "__init__.py" else module.split(".")[:-1]
        above = package[: len(package) - node.level + 1]
        base = ".".join((*above, base)) if base else ".".join(above)
    for alias in node.names:
        inner = f"{base}.{alias.name}"
        yield inner if inner in modules or inner in OUTSIDE_SUBMODULES else base


def _is_import_module(function: ast.expr) -> bool:
    name = function.attr if isinstance(function, ast.Attribute) else getattr(function, "id", "")
    return name in ("import_module", "__import__")


def _beginning(arguments: list[ast.expr]) -> str:
    """What the text of the first argument is sure to begin with, up to a whole name; empty if nothing is sure."""
    first = arguments[0] if arguments else None
    if isinstance(first, ast.Constant):
        return str(first.value)
    if isinstance(first, ast.JoinedStr) and isinstance(first.values[0], ast.Constant):
        return str(first.values[0].value).rpartition(".")[0]
    return ""


OUTSIDE_SUBMODULES = frozenset({"importlib.resources", "importlib.metadata"})
"""Modules of other packages that a rule names and that `from package import module` can bring in."""
