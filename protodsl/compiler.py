"""Every stage in its order: from the files of a project to what is wrong with them, and on to the handouts."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass, field, replace
from datetime import date
from pathlib import Path
from typing import TYPE_CHECKING

from protodsl.asked import Asked, inputs_of, options_of
from protodsl.case_checking import CheckedCase, check_cases, decided
from protodsl.catalogue_checking import check_catalogues
from protodsl.checking import CheckedEntry
from protodsl.diagnostics.diagnostic import Diagnostic, in_order
from protodsl.formats import CLINICIAN, PROTOCOL, QUESTIONS
from protodsl.joint_loads import joint_loads_of
from protodsl.model.protocol import Protocol
from protodsl.outcome import Outcome
from protodsl.pages import data_forms, make_pages, sources_of, translation, with_data
from protodsl.pictured import Parallel
from protodsl.project import CASE_SUFFIX, CLINIC_FILE, Project, Shelf, files_by_name
from protodsl.resolve import Cache, unused
from protodsl.run import Run
from protodsl.source import Source
from protodsl.syntax import parse_case, parse_protocol, read_source, tree

if TYPE_CHECKING:
    from protodsl.handout import Options
    from protodsl.handout.blocks import Handout
    from protodsl.handout.phrase import Phrase
    from protodsl.languages import Words


@dataclass(frozen=True, slots=True)
class Checked:
    """A project after all checks: what is wrong with the project itself, each file, and every text by its path."""

    project: Project
    own: tuple[Diagnostic, ...]
    entries: tuple[CheckedEntry, ...]
    sources: Mapping[str, Source]
    cases: tuple[CheckedCase, ...] = ()
    case_files: tuple[str, ...] = ()
    run: Run | None = field(default=None, compare=False, repr=False)

    @property
    def diagnostics(self) -> tuple[Diagnostic, ...]:
        """Everything that is wrong, by file and place, each problem once."""
        found = [one for entry in self.entries for one in entry.diagnostics]
        found += [one for case in self.cases for one in case.diagnostics]
        return in_order((*self.own, *found))


def open_run(
    project: Project, as_of: date, texts: Mapping[str, bytes] | None = None, parallel: Parallel | None = None
) -> Run:
    """A run in which nothing was read yet; `parallel` hands out work to all processors (None: there is one)."""
    return Run(project, Shelf(project, parse, texts or {}), Cache(), as_of, parallel)


def parse(path: str, data: bytes) -> tuple[Source | None, Outcome[tree.File]]:
    """The text of a file, None where its bytes are none, and its tree."""
    read = read_source(path, data)
    if read.value is None:
        return None, Outcome(None, read.diagnostics)
    parsed = (parse_case if path.endswith(CASE_SUFFIX) else parse_protocol)(read.value)
    return read.value, Outcome(parsed.value, read.diagnostics + parsed.diagnostics)


def check_project(
    project: Project,
    paths: Iterable[Path],
    as_of: date,
    texts: Mapping[str, bytes] | None = None,
    cases_as_of: date | None = None,
    parallel: Parallel | None = None,
) -> Checked:
    """Find, read, parse, resolve and check; every file is read once, whoever uses it.

    `texts` are bytes to take for those of a file, by its name, before they are written. `as_of` is held against review
    dates; cases are decided as of `cases_as_of` (None: the latest line of each).
    """
    run, asked = open_run(project, as_of, texts, parallel), tuple(paths)
    checked = check_files(run, asked)
    cases = tuple(decided(case, run, cases_as_of) for case in checked.cases)
    said = tuple(check_catalogues(checked.entries, checked.cases, run, project.is_whole(asked)))
    return replace(checked, own=checked.own + said, cases=cases, sources=run.sources())


def check_files(run: Run, paths: Iterable[Path], with_cases: bool = True) -> Checked:
    """The files at the paths and below, checked; the cases among them are named only, without `with_cases`."""
    project, shelf, asked = run.project, run.shelf, tuple(paths)
    files = files_by_name(project, (path for path in asked if project.name(path) not in shelf.texts))
    names = tuple(sorted({*shelf.texts, *(files.value or ())}))
    case_files = tuple(name for name in names if name.endswith(CASE_SUFFIX))
    run.solve_ahead(name for name in names if not name.endswith(CASE_SUFFIX))
    entries = tuple(run.entry(name) for name in names if not name.endswith(CASE_SUFFIX))
    cases = tuple(case for name in case_files for case in check_cases(name, run)) if with_cases else ()
    own = project.diagnostics + files.diagnostics
    idle = unused((entry.value for entry in entries if entry.value), project.is_whole(asked))
    # A line that could not be read may have named it.
    own += tuple(one for one in idle if not run.is_broken(one.primary.span.path))
    return Checked(project, own, entries, run.sources(), cases, case_files, run)


def protocols_by_name(project: Project) -> dict[str, tuple[str, ...]]:
    """The files in the whole root that declare each protocol, by its name."""
    register = open_run(project, date.min).register()
    return {name: register.files(name) for name in register.known()}


def draw_ahead(checked: Checked) -> None:
    """Draw what sheets will show on all processors, where there is something to hand them out with."""
    if checked.run is not None:
        checked.run.draw_ahead(one.path for one in checked.entries if one.value is not None and one.value.protocols)


def make_handout(checked: Checked, entry: CheckedEntry, protocol: Protocol, asked: Asked) -> Outcome[dict[str, bytes]]:
    """Compose, localise and render one handout: its bytes by format, without a format that could not be made."""
    # A check has no use for these stages, and what they draw on takes longer to load than a check to run.
    from protodsl import exchange, handout

    clinic = checked.project.clinic
    run = checked.run or open_run(checked.project, date.min)
    words = run.words(asked, entry.files)
    pictured = run.pictured(protocol, asked)
    texts = {path: checked.sources[path].text for path in (*entry.files, CLINIC_FILE) if path in checked.sources}
    inputs = {"protocol": protocol.name, **inputs_of(asked, run.templates(asked)), **pictured.inputs}
    digest = handout.digest({**texts, **words.sources}, inputs)
    options = options_of(asked, digest, checked.sources, pictured)
    if asked.kind == CLINICIAN:
        composed, said = _compose_clinician(protocol, entry, run, options, words)
    elif asked.kind == QUESTIONS:
        composed, said = handout.compose_questions(protocol, clinic, options), ()
    else:
        composed, said = handout.compose_sheet(protocol, clinic, options), ()
    attached = sources_of(asked, entry, checked.sources)
    pages = make_pages(composed, protocol.scope, checked.project, asked, words, attached=attached)
    forms = data_forms(asked, PROTOCOL, words, pages)
    told = translation(words)
    made = with_data(pages, forms, lambda name: exchange.export_protocol(name, protocol, clinic, options, told))
    return replace(made, diagnostics=in_order(made.diagnostics + said))


def _compose_clinician(
    protocol: Protocol, entry: CheckedEntry, run: Run, options: Options, words: Words
) -> tuple[Handout[Phrase], tuple[Diagnostic, ...]]:
    """The clinician's page, which reads the sheet and loads the joints; and what is to be said of the sheet."""
    from protodsl import handout
    from protodsl.sheet_reading import read_sheet, said_of_sheet

    clinic = run.project.clinic
    read = read_sheet(protocol, clinic, options, words).value
    said = tuple(said_of_sheet(protocol, clinic, read)) if read else ()
    reading = read.summary(clinic.limits) if read else None
    options = replace(options, joint_loads=joint_loads_of(protocol, run.figures()), reading=reading)
    return handout.compose_clinician(protocol, clinic, (*entry.diagnostics, *said), options), said
