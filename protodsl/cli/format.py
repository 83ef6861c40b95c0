"""`protodsl format`: write protocols and cases in the one way there is."""

from __future__ import annotations

import argparse
import difflib
import re
import sys
from pathlib import Path

from protodsl.cli.files import write_all
from protodsl.cli.report import from_here, say, show, wants_colour
from protodsl.cli.status import CLEAN, ERRORS, WRONG_USE
from protodsl.cli.work import open_projects
from protodsl.diagnostics.diagnostic import Diagnostic
from protodsl.diagnostics.project import unwritable
from protodsl.outcome import Outcome
from protodsl.project import find_files, read_bytes
from protodsl.source import Source
from protodsl.syntax import format_source, read_source

_CASE = re.compile(rb"^case\s", re.MULTILINE)


def run(arguments: argparse.Namespace) -> int:
    """Format in place, or from standard input to standard output; a file with errors is left as it is."""
    if "-" in arguments.paths:
        return _standard_input(arguments)
    found: list[Diagnostic] = []
    sources: dict[str, Source] = {}
    changed: dict[Path, bytes] = {}
    for project, paths in open_projects(map(Path, arguments.paths)):
        files = find_files(project, paths)
        said = list(files.diagnostics)
        texts = {}
        for file in files.value or ():
            data = read_bytes(file)
            if isinstance(data, Diagnostic):
                said.append(data)
                continue
            source, outcome = _formatted(project.name(file), data)
            if source is not None:
                texts[source.path] = source
            said.extend(outcome.diagnostics)
            if outcome.value is not None and outcome.value.encode() != data:
                changed[file] = outcome.value.encode()
        placed, seen = from_here(said, texts, project.root)
        found.extend(placed)
        sources.update(seen)
    if not arguments.check:
        changed, refused = _write(changed)
        found.extend(refused)
    show(tuple(found), sources, "text", sys.stderr, wants_colour(sys.stderr, arguments.no_color))
    for file in changed:
        print(f"would change {file.as_posix()}" if arguments.check else f"changed {file.as_posix()}")
    return ERRORS if found or (arguments.check and changed) else CLEAN


def _write(changed: dict[Path, bytes]) -> tuple[dict[Path, bytes], list[Diagnostic]]:
    """What could be written, and why the rest could not."""
    written: dict[Path, bytes] = {}
    refused = []
    for file, data in changed.items():
        try:
            write_all({file: data})
            written[file] = data
        except OSError as error:
            refused.append(unwritable(file.as_posix(), error.strerror or "It cannot be opened"))
    return written, refused


def _standard_input(arguments: argparse.Namespace) -> int:
    if arguments.paths != ["-"]:
        say("protodsl format: `-` stands alone; it takes standard input")
        return WRONG_USE
    data = sys.stdin.buffer.read()
    name = "standard input.case" if _CASE.search(data) else "standard input.protocol"
    source, outcome = _formatted(name, data)
    if source is None or outcome.value is None:
        sources = {name: source} if source else {}
        show(outcome.diagnostics, sources, "text", sys.stderr, wants_colour(sys.stderr, arguments.no_color))
        return ERRORS
    if arguments.check:
        before, after = source.text.splitlines(True), outcome.value.splitlines(True)
        sys.stdout.writelines(difflib.unified_diff(before, after, "as it is", "as it would be"))
        return ERRORS if outcome.value.encode() != data else CLEAN
    sys.stdout.buffer.write(outcome.value.encode())
    return CLEAN


def _formatted(name: str, data: bytes) -> tuple[Source | None, Outcome[str]]:
    read = read_source(name, data)
    if read.value is None:
        return None, Outcome(None, read.diagnostics)
    formatted = format_source(read.value)
    return read.value, Outcome(formatted.value, read.diagnostics + formatted.diagnostics)
