"""`protodsl why`: the chain of reasons behind what is, or is not, on one person's sheet."""

from __future__ import annotations

import argparse
import sys
from collections.abc import Mapping
from datetime import date
from pathlib import Path

from protodsl.case_checking import CheckedCase, check_cases
from protodsl.case_compiler import decide_case
from protodsl.cli.evidence import Places
from protodsl.cli.reasons import names_of, overview, why
from protodsl.cli.report import from_here, say, show, wants_colour
from protodsl.cli.status import CLEAN, ERRORS, WRONG_USE
from protodsl.compiler import open_run
from protodsl.diagnostics.diagnostic import Diagnostic, Severity
from protodsl.diagnostics.suggest import nearest
from protodsl.project import CASE_SUFFIX, open_project, shown
from protodsl.run import Run
from protodsl.source import Source


def run(arguments: argparse.Namespace) -> int:
    """Print why, or what can be asked about."""
    path: Path = arguments.case
    if path.suffix != CASE_SUFFIX:
        say(f"protodsl why: `{path}` is no case: the name of a case file ends in `{CASE_SUFFIX}`")
        return WRONG_USE
    project = open_project(path)
    opened = open_run(project, date.today())
    cases = tuple(check_cases(project.name(path), opened))
    found = [one for one in cases if arguments.id in (None, one.id)]
    if len(found) != 1:
        say(f"protodsl why: name one of the cases in the file with `--id`; there is {', '.join(c.id for c in cases)}")
        return WRONG_USE
    return _why(found[0], opened, arguments)


def _why(case: CheckedCase, opened: Run, arguments: argparse.Namespace) -> int:
    project = opened.project
    said = project.diagnostics + case.diagnostics
    decided = None
    if case.person is not None and not any(one.severity is Severity.ERROR for one in case.diagnostics):
        outcome = decide_case(case.person, opened, arguments.as_of)
        decided, said = outcome.value, said + outcome.diagnostics
    _show(said, opened.sources(), opened, arguments)
    if decided is None:
        return ERRORS
    plan = decided.plan
    places = Places(opened.sources(), lambda name: shown(project.root / name))
    name = " ".join(arguments.item)
    if not name:
        print("\n".join(overview(plan, project.clinic, places)))
        return CLEAN
    known = {*plan.protocol.scope.findings}
    known.update(*names_of(plan, project.clinic).values())
    if name not in known:
        meant = nearest(name, known)
        hint = f"; did you mean `{meant}`?" if meant else "; `protodsl why CASE` lists what there is"
        say(f"protodsl why: nothing in `{plan.protocol.name}` is named `{name}`{hint}")
        return WRONG_USE
    print("\n".join(why(plan, name, project.clinic, places)))
    return CLEAN


def _show(
    said: tuple[Diagnostic, ...], sources: Mapping[str, Source], opened: Run, arguments: argparse.Namespace
) -> None:
    placed, texts = from_here(said, sources, opened.project.root)
    show(placed, texts, "text", sys.stderr, wants_colour(sys.stderr, arguments.no_color))
