"""A small project with figures, made in a folder of a test; its store of figures lies beside it, not at home."""

from __future__ import annotations

from datetime import date
from pathlib import Path

from protodsl.asked import Asked
from protodsl.compiler import Checked, check_files, make_handout, open_run
from protodsl.figure.cache import Store
from protodsl.figure.figures import Figures
from protodsl.project import open_project
from protodsl.run import Run

CLINIC = Path(__file__).resolve().parents[2] / "cases" / "clinic.toml"

LIBRARY = """\
target front of the thigh: front of the thigh

exercise straighten the knee
  works front of the thigh
  moves knee extension to 0 deg, knee flexion to 95 deg
  figure
    start sitting, trunk upright, hands on chair
    end lift right foot, right knee 0
    arrow right foot up
  do
    Straighten one knee.
  stop sharp pain

exercise bend both knees
  figure
    start standing, arms forward
    end knees 60
    arrow pelvis down
  do
    Bend your knees.
  stop sharp pain
"""

PROTOCOL = """\
use library

question knee pain: Does your knee hurt?

protocol sore knee
  title After a sore knee
  version 1.0.0
  review 2026-10-05 by outpatient lead, next by 2027-10-05
  source Common practice, no source.
  for adults
  emergency if knee pain
  give straighten the knee
    dose 2 x 10, {side}daily
  give bend both knees
    dose 2 x 10, daily
"""

CASE = """\
case P-0001
  protocol sore knee, version 1.0.0
  started 2026-11-02
  language {language}
  side {side}
  on 2026-11-02
    no: knee pain
  next visit 2026-11-30
"""


def project(
    folder: Path, library: str = LIBRARY, protocol: str = PROTOCOL.format(side="affected side, "), case: str = ""
) -> Path:
    """The folder with its files."""
    folder.mkdir(exist_ok=True)
    (folder / "clinic.toml").write_bytes(CLINIC.read_bytes())
    (folder / "library.protocol").write_text(library, encoding="utf-8")
    if protocol:
        (folder / "knee.protocol").write_text(protocol, encoding="utf-8")
    if case:
        (folder / "one.case").write_text(case, encoding="utf-8")
    return folder


def checked(folder: Path) -> tuple[Run, Checked]:
    """The project checked, its figures kept in a folder beside it."""
    run = open_run(open_project(folder), date(2026, 11, 25))
    run._figures = Figures(Store(folder.parent / "kept"))
    return run, check_files(run, [folder])


def sheet(folder: Path, **asked: object) -> tuple[str, Checked]:
    """The general sheet as HTML, and what was found."""
    run, found = checked(folder)
    entry = run.entry("knee.protocol")
    assert entry.value is not None
    made = make_handout(found, entry, entry.value.protocols[0], Asked(formats=("html",), **asked))  # type: ignore[arg-type]
    assert made.value is not None and made.diagnostics == (), made.diagnostics
    return made.value["html"].decode(), found
