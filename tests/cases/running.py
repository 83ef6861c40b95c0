"""How a case folder is run: copied to a place of its own, with a clinic where it brings none, checked as of one day."""

from __future__ import annotations

import shutil
from datetime import date
from pathlib import Path

from protodsl.compiler import Checked, check_project
from protodsl.diagnostics.render_text import render_text
from protodsl.project import CASE_SUFFIX, PROTOCOL_SUFFIX, open_project

CASES = Path(__file__).resolve().parent
AS_OF = date(2026, 11, 25)
EXPECTED = "expected.txt"
# A case that is about having no clinic says so with this file.
NO_CLINIC = "no-clinic"


def check_folder(folder: Path, place: Path) -> Checked:
    """Everything that is found in a copy of the folder."""
    shutil.copytree(folder, place, symlinks=True, ignore=shutil.ignore_patterns(EXPECTED))
    if not (place / "clinic.toml").exists() and not (place / NO_CLINIC).exists():
        shutil.copy(CASES / "clinic.toml", place)
    texts = [path for path in place.rglob("*") if path.suffix in (PROTOCOL_SUFFIX, CASE_SUFFIX)]
    return check_project(open_project(place), [place] if texts else [], AS_OF)


def as_seen(checked: Checked) -> str:
    """What a person sees of it."""
    return render_text(checked.diagnostics, checked.sources)
