"""`protodsl check`: find every problem and print it."""

from __future__ import annotations

import argparse
import sys
from datetime import date

from protodsl.cli.report import from_here, show, status, wants_colour
from protodsl.cli.work import in_parallel, open_projects
from protodsl.compiler import check_project
from protodsl.diagnostics.diagnostic import Diagnostic
from protodsl.source import Source


def run(arguments: argparse.Namespace) -> int:
    """Check every file of every project named, and print what was found in one go."""
    found: list[Diagnostic] = []
    sources: dict[str, Source] = {}
    for project, paths in open_projects(arguments.paths):
        today = arguments.as_of or date.today()
        checked = check_project(project, paths, today, cases_as_of=arguments.as_of, parallel=in_parallel)
        diagnostics, texts = from_here(checked.diagnostics, checked.sources, project.root)
        found.extend(diagnostics)
        sources.update(texts)
    show(tuple(found), sources, arguments.format, sys.stdout, wants_colour(sys.stdout, arguments.no_color))
    return status(found, arguments.strict)
