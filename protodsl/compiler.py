"""Every stage in its order: from the files of a project to what is wrong with them, and to the handouts."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass
from datetime import date
from pathlib import Path

from protodsl.check import check
from protodsl.diagnostics.diagnostic import Diagnostic, in_order
from protodsl.model.protocol import Entry
from protodsl.outcome import Outcome
from protodsl.project import CASE_SUFFIX, Project, Shelf, find_files
from protodsl.resolve import resolve
from protodsl.source import Source
from protodsl.syntax import parse_case, parse_protocol, read_source, tree


@dataclass(frozen=True, slots=True)
class CheckedEntry:
    """One file with everything it reached, and what is wrong there; `value` is None where nothing could be made of it."""

    path: str
    value: Entry | None
    diagnostics: tuple[Diagnostic, ...]


@dataclass(frozen=True, slots=True)
class Checked:
    """A project after all checks: what is wrong with the project itself, each entry, and every text by its path."""

    project: Project
    own: tuple[Diagnostic, ...]
    entries: tuple[CheckedEntry, ...]
    sources: Mapping[str, Source]

    @property
    def diagnostics(self) -> tuple[Diagnostic, ...]:
        """Everything that is wrong, by file and place, each problem once."""
        return in_order(self.own + tuple(one for entry in self.entries for one in entry.diagnostics))


def check_project(project: Project, paths: Iterable[Path], as_of: date) -> Checked:
    """Find, read, parse, resolve and check; every file is read once, whoever uses it."""
    files = find_files(project, paths)
    shelf = Shelf(project, parse)
    entries = tuple(_check_entry(project.name(file), project, shelf, as_of) for file in files.value or ())
    sources = dict(shelf.sources)
    if project.clinic_source:
        sources[project.clinic_source.path] = project.clinic_source
    return Checked(project, project.diagnostics + files.diagnostics, entries, sources)


def parse(path: str, data: bytes) -> tuple[Source, Outcome[tree.File]]:
    """The text of a file and its tree."""
    read = read_source(path, data)
    if read.value is None:
        return Source(path, ""), Outcome(None, read.diagnostics)
    parsed = (parse_case if path.endswith(CASE_SUFFIX) else parse_protocol)(read.value)
    return read.value, Outcome(parsed.value, read.diagnostics + parsed.diagnostics)


def _check_entry(path: str, project: Project, shelf: Shelf, as_of: date) -> CheckedEntry:
    if path.endswith(CASE_SUFFIX):
        shelf.tree(path)
        return CheckedEntry(path, None, shelf.said(path))
    resolved = resolve(path, shelf)
    files = resolved.value.files if resolved.value else (path,)
    said = tuple(one for file in files for one in shelf.said(file))
    checked = check(resolved.value, project.clinic, as_of) if resolved.value else ()
    return CheckedEntry(path, resolved.value, in_order(said + resolved.diagnostics + checked))
