"""Data flows one way through the compiler, so an import points back along the flow and never forward."""

import ast
from graphlib import CycleError, TopologicalSorter
from pathlib import Path

import grimp
import pytest

from tests.unit.architecture.imports import Import, imports_of, modules_of

PACKAGE = Path(__file__).resolve().parents[3] / "protodsl"
MODULES = modules_of(PACKAGE)
IMPORTS = imports_of(MODULES)

# What each part of protodsl may import. A name stands for a part and all in it, `syntax.tree` for that folder alone.
BASE = ("source", "outcome", "units", "diagnostics", "frozen")
STAGES = (
    *("syntax", "model", "resolve", "readability", "check", "dose", "decide"),
    *("figure", "handout", "localise", "translate", "render", "fonts", "exchange"),
)
OUTER = (
    *("clinic_file", "project", "languages", "translated_words", "sheet_reading"),
    *("asked", "checking", "run", "case_checking", "catalogue_checking", "pages"),
)
MAY_IMPORT: dict[str, tuple[str, ...]] = {
    "": (),
    "source": (),
    "frozen": (),
    "formats": (),
    "units": (),
    "resources": (),
    "diagnostics": ("source", "units", "resources"),
    "outcome": ("source", "diagnostics"),
    "syntax": (*BASE, "resources"),
    "model": ("source", "units", "frozen"),
    "record": ("source", "syntax"),
    "resolve": (*BASE, "syntax", "model", "frozen"),
    "dose": (*BASE, "model"),
    "readability": ("source", "frozen"),
    "check": (*BASE, "model", "dose", "readability"),
    "decide": (*BASE, "model", "dose"),
    "figure": (*BASE, "model", "handout"),
    "handout": (*BASE, "model", "dose", "decide", "readability"),
    "localise": (*BASE, "resources", "model", "handout"),
    "translate": (*BASE, "resources", "model", "localise"),
    "fonts": ("resources",),
    "starter": (),
    "render": (*BASE, "resources", "figure", "handout", "localise", "fonts"),
    "exchange": (*BASE, "model", "dose", "decide", "handout", "localise", "render.markdown"),
    "clinic_file": (*BASE, "formats", "resources", *STAGES),
    "project": (*BASE, "resources", *STAGES, "clinic_file"),
    "register": (*BASE, *STAGES, "project"),
    "languages": (*BASE, *STAGES, "project"),
    "pictured": (*BASE, *STAGES, "project"),
    "joint_loads": (*BASE, *STAGES),
    "translated_words": (*BASE, *STAGES, "project", "languages"),
    "sheet_reading": (*BASE, *STAGES, "languages"),
    "asked": ("", *BASE, "formats", *STAGES, "project", "pictured"),
    "checking": (*BASE, *STAGES, "project", "pictured", "joint_loads"),
    "run": (*BASE, *STAGES, "project", "register", "languages", "pictured", "asked", "checking"),
    "case_checking": (*BASE, *STAGES, "checking", "run"),
    "catalogue_checking": (*BASE, "project", "languages", "translated_words", "checking", "case_checking", "run"),
    "pages": (*BASE, "formats", *STAGES, "project", "languages", "asked", "checking"),
    "compiler": (*BASE, "formats", *STAGES, *OUTER, "pictured", "joint_loads"),
    "case_compiler": (*BASE, "formats", *STAGES, *OUTER, "pictured"),
    "batch": (),
    "cli": (
        *("", *BASE, "formats", "resources", "record", *STAGES, *OUTER),
        *("compiler", "case_compiler", "batch"),
    ),
}

# The only parts that may know a library.
ONLY_IN: dict[str, tuple[str, ...]] = {
    "lark": ("syntax",),
    "pyphen": ("readability",),
    "jinja2": ("render",),
    "weasyprint": ("render",),
    "markdown_it": ("render", "localise"),
    "docx": ("render",),
    "pypdfium2": ("render",),
    "argparse": ("cli",),
    "importlib.resources": ("resources",),
}

# The clock belongs to the outermost layer; (module or class, function) as a call spells it.
CLOCK = {
    *(("date", "today"), ("datetime", "today"), ("datetime", "now"), ("datetime", "utcnow")),
    *(("time", name) for name in ("time", "time_ns", "localtime", "gmtime", "monotonic", "perf_counter")),
}


def test_imports_point_back_along_the_flow() -> None:
    """Every import between parts is one that the table allows."""
    assert forbidden(IMPORTS) == []


def test_libraries_stay_in_their_parts() -> None:
    """lark is known to the parser only, the page makers to the renderer only, and so on."""
    assert strayed(IMPORTS) == []


def test_every_part_has_a_row() -> None:
    """A new module or folder at the top of the package says where in the flow it stands."""
    assert sorted({part_of(module) for module in MODULES} - MAY_IMPORT.keys()) == []


def test_the_table_itself_has_no_circle() -> None:
    """The table is an order: no two parts may, by whatever way round, import each other."""
    order = TopologicalSorter({part: {name.partition(".")[0] for name in names} for part, names in MAY_IMPORT.items()})
    try:
        order.prepare()
    except CycleError as error:
        pytest.fail(f"a circle: {error.args[1]}")


def test_no_stage_reads_the_clock() -> None:
    """What a stage gives depends on what it was given: only the command line asks for the time."""
    found: list[str] = []
    for module, path in MODULES.items():
        if part_of(module) == "cli":
            continue
        for node in ast.walk(ast.parse(path.read_text(encoding="utf-8"))):
            if isinstance(node, ast.Call) and _spelling(node.func) in CLOCK:
                found.append(f"{path.relative_to(PACKAGE.parent)}:{node.lineno}")
    assert found == []


def test_grimp_reads_the_same_imports() -> None:
    """The reader of imports agrees with grimp, the library that import-linter is built on, about every module."""
    graph = grimp.build_graph("protodsl", include_external_packages=True, cache_dir=None)
    theirs = {(module, imported) for module in MODULES for imported in graph.find_modules_directly_imported_by(module)}
    ours = {(found.importer, _as_grimp_names_it(found.imported)) for found in IMPORTS if not found.by_name}
    assert {module for module in graph.modules if module.partition(".")[0] == "protodsl"} == MODULES.keys()
    assert ours == theirs


@pytest.mark.parametrize(
    ("module", "line", "rule"),
    [
        ("model/phase.py", "from protodsl.syntax import tree", "model imports syntax.tree"),
        ("model/phase.py", "import protodsl.syntax.tree", "model imports syntax.tree"),
        ("check/rule.py", "from protodsl.syntax.parser import parse", "check imports syntax.parser"),
        ("check/rule.py", "from ..render import html", "check imports render"),
        ("check/__init__.py", "def late() -> None:\n    from protodsl import cli", "check imports cli"),
        ("handout/page.py", "from jinja2 import Template", "handout imports jinja2"),
        ("fonts/__init__.py", "from importlib import resources", "fonts imports importlib.resources"),
        ("fonts/__init__.py", "import importlib.resources.abc", "fonts imports importlib.resources"),
        ("compiler.py", "import argparse", "compiler imports argparse"),
        ("check/rule.py", "import_module('lark')", "check imports lark"),
        ("check/rule.py", "import_module(f'protodsl.render.{name}')", "check imports render"),
        ("check/rule.py", "importlib.import_module(name)", "check imports a module that cannot be told"),
    ],
)
def test_a_wrong_import_is_seen(module: str, line: str, rule: str, tmp_path: Path) -> None:
    """However it is spelled, an import that the tables do not allow is found and named with its line."""
    for name in ("syntax/tree/__init__.py", "syntax/parser.py", "render/__init__.py", "cli/__init__.py", module):
        (tmp_path / "protodsl" / name).parent.mkdir(parents=True, exist_ok=True)
        (tmp_path / "protodsl" / name).touch()
    (tmp_path / "protodsl" / module).write_text(line, encoding="utf-8")
    imports = imports_of(modules_of(tmp_path / "protodsl"))
    number = line.count("\n") + 1
    assert forbidden(imports) + strayed(imports) == [f"protodsl/{module}:{number}: {rule}"]


# The door to packaged files takes the package's name; the fast start puts back the names of two libraries it names.
NAMED_AT_RUN_TIME = ("protodsl.resources", "protodsl.render.faststart")


def forbidden(imports: tuple[Import, ...]) -> list[str]:
    """Imports between parts that the table does not allow, each with its place."""
    wrong: list[str] = []
    for found in imports:
        root, _, imported = found.imported.partition(".")
        part = part_of(found.importer)
        if root == "" and found.importer not in NAMED_AT_RUN_TIME:
            wrong.append(f"{found.place}: {part} imports a module that cannot be told")
        if root != "protodsl" or imported.partition(".")[0] == part:
            continue
        if not any(_lies_in(imported, allowed) for allowed in MAY_IMPORT.get(part, ())):
            wrong.append(f"{found.place}: {part or 'protodsl'} imports {imported or 'protodsl'}")
    return wrong


def strayed(imports: tuple[Import, ...]) -> list[str]:
    """Imports of a library in a part that is not to know it, each with its place."""
    return [
        f"{found.place}: {part_of(found.importer) or 'protodsl'} imports {library}"
        for found in imports
        for library, parts in ONLY_IN.items()
        if _lies_in(found.imported, library) and part_of(found.importer) not in parts
    ]


def part_of(module: str) -> str:
    """The part that a module of protodsl belongs to: the folder or file at the top of the package."""
    return ".".join(module.split(".")[1:2])


def _lies_in(module: str, whole: str) -> bool:
    return module == whole or (whole != "" and module.startswith(f"{whole}."))


def _spelling(function: ast.expr) -> tuple[str, str] | None:
    """The last two names of a call such as `datetime.date.today()`; None for anything else."""
    if not isinstance(function, ast.Attribute):
        return None
    owner = function.value
    if isinstance(owner, ast.Attribute):
        return owner.attr, function.attr
    return (owner.id, function.attr) if isinstance(owner, ast.Name) else None


def _as_grimp_names_it(module: str) -> str:
    """grimp names modules of other packages by their first part."""
    return module if module in MODULES else module.partition(".")[0]
