"""Pages of the demo clinic in the two made-up languages, made as the command line makes them."""

from __future__ import annotations

import contextlib
import io
import shutil
import tempfile
from collections.abc import Mapping
from dataclasses import dataclass
from datetime import date
from functools import cache
from pathlib import Path
from xml.etree.ElementTree import Element, fromstring

from protodsl.asked import Asked
from protodsl.case_checking import check_cases
from protodsl.case_compiler import make_case
from protodsl.cli.main import main
from protodsl.compiler import Checked, check_project, make_handout
from protodsl.formats import CLINICIAN, HTML, PDF, QUESTIONS, SHEET
from protodsl.outcome import Outcome
from protodsl.project import open_project
from tests.pdf.reading import Printed, watched
from tests.pseudo.words import Spell, accented, fill, mirrored

DEMO = Path(__file__).parents[2] / "protocols_demo"
DAY = date(2026, 11, 25)
# By the locale of its numbers, dates and units: one without a letter from A to Z, and one from right to left.
SPELLS: dict[str, Spell] = {"el": accented, "ar": mirrored}
PROTOCOLS = ("lateral ankle sprain", "knee osteoarthritis")
CASES = ("P-0417", "P-0431")
REFERRAL = "P-0499"
NAMES = (
    *(f"{name}, {kind}" for name in PROTOCOLS for kind in (SHEET, CLINICIAN, QUESTIONS)),
    *(f"{name}, {kind}" for name in CASES for kind in (SHEET, CLINICIAN)),
    f"{REFERRAL}, {SHEET}",
)
# Of each kind of page one that is printed; setting them is most of the time.
PRINTED = (
    f"lateral ankle sprain, {SHEET}",
    f"lateral ankle sprain, {CLINICIAN}",
    f"lateral ankle sprain, {QUESTIONS}",
    f"P-0431, {SHEET}",
    f"P-0431, {CLINICIAN}",
    f"{REFERRAL}, {SHEET}",
)


@dataclass(frozen=True)
class Page:
    """A page of HTML as a tree, and what was said while it was made."""

    html: str
    said: tuple[str, ...]

    @property
    def root(self) -> Element:
        """The element `html`."""
        return fromstring(self.html.replace("<!DOCTYPE html>", ""))


@cache
def clinic() -> Checked:
    """The demo in a folder of its own with both languages translated, reviewed by somebody, and checked."""
    root = Path(tempfile.mkdtemp(prefix="pseudo-")) / "clinic"
    shutil.copytree(DEMO, root, ignore=shutil.ignore_patterns("handouts", "translations", "*.sh"))
    settings = root / "clinic.toml"
    text = settings.read_text("utf-8")
    own = next(line for line in text.splitlines() if line.startswith("languages"))
    settings.write_text(text.replace(own, 'languages = ["en", "el", "ar"]'), encoding="utf-8")
    case = (root / "cases/P-0417.case").read_text("utf-8")
    sign = case.replace("P-0417", REFERRAL).replace("    no: chest pain, ", "    yes: chest pain\n    no: ")
    (root / f"cases/{REFERRAL}.case").write_text(sign, encoding="utf-8")
    with contextlib.chdir(root), contextlib.redirect_stdout(io.StringIO()), contextlib.redirect_stderr(io.StringIO()):
        for language, spell in SPELLS.items():
            main(["translate", "extract", "--product", "--language", language])
            catalogues = sorted(Path("translations", language).rglob("*.po"))
            for path in catalogues:
                fill(path, language, spell)
            assert main(["translate", "review", *map(str, catalogues), "--by", "nobody", "--on", "2026-10-05"]) == 0
    return check_project(open_project(root), (root,), DAY)


@cache
def page(name: str, language: str) -> Page:
    """One of NAMES as HTML."""
    outcome = _made(name, language, HTML)
    assert outcome.value is not None, outcome.diagnostics
    return Page(outcome.value.decode(), tuple(f"{one.code.id} {one.message}" for one in outcome.diagnostics))


@cache
def printed(name: str, language: str) -> Printed:
    """One of PRINTED as it is printed."""
    return watched(lambda: _made(name, language, PDF))


def _made(name: str, language: str, form: str) -> Outcome[bytes]:
    subject, _, kind = name.rpartition(", ")
    asked = Asked(kind=kind, language=language, formats=(form,))
    made = _of_case(subject, kind, asked) if subject.startswith("P-") else _of_protocol(subject, asked)
    return Outcome((made.value or {}).get(form), made.diagnostics)


def _of_protocol(name: str, asked: Asked) -> Outcome[dict[str, bytes]]:
    found = [
        (entry, protocol)
        for entry in clinic().entries
        if entry.value is not None
        for protocol in entry.value.protocols
        if protocol.name == name
    ]
    return make_handout(clinic(), *found[0], asked)


def _of_case(name: str, kind: str, asked: Asked) -> Outcome[Mapping[str, bytes]]:
    run = clinic().run
    assert run is not None
    (case,) = check_cases(f"cases/{name}.case", run)
    made = make_case(case, run, {kind: asked}, DAY)
    return Outcome(made.value.pages.get(kind) if made.value else None, made.diagnostics)
