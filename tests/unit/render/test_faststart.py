"""The quick import of the library makes the same pages as the ordinary one, and steps aside where it does not fit.

`PROTODSL_WRITE_EXPECTED=1 python -m pytest tests/unit/render/test_faststart.py` writes the declarations anew.
"""

import ast
import os
import subprocess
import sys
from importlib.util import find_spec
from pathlib import Path

import cffi  # type: ignore[import-untyped]
import pytest

from protodsl import resources
from protodsl.render import faststart

ROOT = Path(__file__).parents[3]
HEAD = '''"""The C declarations of WeasyPrint {} as cffi parses them; written by tests/unit/render/test_faststart.py."""

# ruff: noqa
# fmt: off
# mypy: ignore-errors
DIGEST = "{}"

'''

PAGES = """
import hashlib, pathlib, sys
from protodsl.render import Style, faststart, pdf
if sys.argv[1] == "ordinary":
    faststart.KNOWN_VERSION = "0"
faststart.weasyprint()
print("fontTools.ttLib" in sys.modules, "pycparser" in sys.modules)
from tests.pdf.forms import FORMS
own = pathlib.Path(sys.argv[2])
(own / "clinic.css").write_text("blockquote { color: #000 }")
for form in (FORMS["person"], FORMS["right to left"], FORMS["clinician"]):
    print(hashlib.sha256(pdf(form.make(), form.style).value).hexdigest())
print(hashlib.sha256(pdf(form.make(), Style(template_folder=own)).value).hexdigest())
"""

OTHER_USE = """
import hashlib, io, sys
from protodsl.render import faststart
if sys.argv[1] == "quick":
    library = faststart.weasyprint()
else:
    import weasyprint as library
text = "<h1>Head</h1><ol><li>one<blockquote>two</blockquote></ol><form><input value=x></form>"
print(hashlib.sha256(library.HTML(string=text).write_pdf(pdf_forms=True)).hexdigest())
print(hashlib.sha256(library.HTML(string=text).write_pdf(full_fonts=True, presentational_hints=True)).hexdigest())
"""


def run(program: str, *arguments: str) -> list[str]:
    """What a program of its own prints, line by line."""
    done = subprocess.run([sys.executable, "-c", program, *arguments], cwd=ROOT, capture_output=True, text=True)
    assert done.returncode == 0, done.stderr
    return done.stdout.splitlines()


def declared() -> str:
    """The C declarations in the installed library's source."""
    spec = find_spec("weasyprint")
    assert spec is not None and spec.origin is not None
    source = (Path(spec.origin).parent / "text" / "ffi.py").read_text("utf-8")
    calls = [node for node in ast.walk(ast.parse(source)) if isinstance(node, ast.Call)]
    found = [call.args[0] for call in calls if isinstance(call.func, ast.Attribute) and call.func.attr == "cdef"]
    assert len(found) == 1 and isinstance(found[0], ast.Constant)
    return str(found[0].value)


def test_the_declarations_are_those_of_the_known_version(tmp_path: Path) -> None:
    """Parsed by cffi itself from the installed library's own text."""
    if faststart._installed_version() != faststart.KNOWN_VERSION:
        pytest.skip("another version is installed, so the import is the ordinary one")
    interface = cffi.FFI()
    interface.set_source("declarations", None)
    interface.cdef(declared())
    interface.emit_python_code(str(tmp_path / "declarations.py"))
    emitted = (tmp_path / "declarations.py").read_text("utf-8").replace("# auto-generated file\n", "", 1)
    wanted = HEAD.format(faststart.KNOWN_VERSION, faststart.digest(declared())) + emitted
    file = resources.path("protodsl.render", "declarations.py")
    if os.environ.get("PROTODSL_WRITE_EXPECTED"):
        file.write_text(wanted, encoding="utf-8")
    assert file.read_text("utf-8") == wanted


def test_the_pages_are_the_same_as_after_an_ordinary_import(tmp_path: Path) -> None:
    """Byte for byte: in English, in Arabic, for the clinician, with a clinic's templates; and it really was quick."""
    loaded, *quick = run(PAGES, "quick", str(tmp_path))
    all_loaded, *ordinary = run(PAGES, "ordinary", str(tmp_path))
    assert quick == ordinary
    assert (loaded, all_loaded) == ("False False", "True True")


def test_the_library_is_whole_for_others_in_the_same_process() -> None:
    """Its own style sheets and fontTools are there as soon as somebody needs them."""
    assert run(OTHER_USE, "quick") == run(OTHER_USE, "ordinary")


def test_another_version_is_imported_the_ordinary_way(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(faststart, "_installed_version", lambda: "71.0")
    monkeypatch.delitem(sys.modules, "weasyprint", raising=False)
    seen: list[str] = []
    monkeypatch.setattr(faststart, "import_module", lambda name: seen.append(name))
    assert faststart.weasyprint() is None
    assert seen == ["weasyprint"]


def test_other_declarations_are_parsed_by_cffi() -> None:
    """A stand-in that is given another text becomes what cffi makes of it."""
    with faststart._declarations_at_hand():
        interface = sys.modules["cffi"].FFI()
        interface.cdef("typedef struct { int hours; } clock;")
    assert interface.new("clock *").hours == 0
    assert sys.modules["cffi"] is cffi
