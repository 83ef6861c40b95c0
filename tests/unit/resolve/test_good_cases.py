"""Every folder of `tests/cases/good/resolve/` holds a project and, in `model.txt`, what it comes to.

Each file that declares a protocol is an entry. `PROTODSL_WRITE_EXPECTED=1 python -m pytest tests/unit/resolve` writes
`model.txt` anew; read the difference before it is committed.
"""

import os
from pathlib import Path

import pytest

from protodsl.diagnostics.diagnostic import Severity
from protodsl.model.protocol import Protocol
from tests.unit.resolve.outline import outline
from tests.unit.resolve.shelf import resolved

GOOD = Path(__file__).resolve().parents[2] / "cases" / "good" / "resolve"
FOLDERS = sorted(path for path in GOOD.iterdir() if path.is_dir())
MODEL = "model.txt"


@pytest.mark.parametrize("folder", FOLDERS, ids=lambda folder: folder.name)
def test_a_project_comes_to(folder: Path) -> None:
    """No errors; the protocols, what they change, and the exercises and progressions as they stand inside them."""
    texts = {path.relative_to(folder).as_posix(): path.read_text("utf-8") for path in folder.rglob("*.protocol")}
    lines: list[str] = []
    for path in sorted(texts):
        entry, said = resolved(texts, path)
        assert not [one for one in said if one.severity is Severity.ERROR]
        for protocol in entry.protocols:
            lines += [f"{path}: protocol {protocol.name}", *outline(protocol, 1), *in_scope(protocol)]
            lines += [f"  said: {one.code.id} {one.message}" for one in said] + [""]
    seen = "\n".join(lines)
    if os.environ.get("PROTODSL_WRITE_EXPECTED"):
        (folder / MODEL).write_text(seen, encoding="utf-8")
    assert seen == (folder / MODEL).read_text("utf-8")


def in_scope(protocol: Protocol) -> list[str]:
    scope = protocol.scope
    named = [("exercise", scope.exercises), ("progression", scope.progressions), ("setting", scope.settings)]
    return [
        line
        for kind, things in named
        for name, thing in things.items()
        for line in (f"  {kind} {name}", *outline(thing, 2))
    ]


def test_every_file_belongs_to_a_case() -> None:
    files = {path for path in GOOD.rglob("*") if path.is_file()}
    assert all(path.name == MODEL or path.suffix == ".protocol" for path in files)
    assert {path.parent for path in files if path.name == MODEL} == set(FOLDERS)
