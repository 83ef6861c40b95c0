"""`protodsl build`: make the handouts and write each of them whole or not at all."""

from __future__ import annotations

import argparse
import gc
import re
import sys
import unicodedata
from collections.abc import Iterator, Mapping
from contextlib import contextmanager
from dataclasses import dataclass, replace
from datetime import date
from pathlib import Path

from protodsl.asked import Asked
from protodsl.checking import CheckedEntry
from protodsl.cli.files import write_all
from protodsl.cli.missing import left_standing, not_of_these, only_libraries_missing
from protodsl.cli.page_names import CLINICIAN_PAGE, clashing, in_language, setting
from protodsl.cli.progress import Progress
from protodsl.cli.report import from_here, say, show, status, wants_colour
from protodsl.cli.status import CLEAN
from protodsl.cli.work import in_parallel, open_projects
from protodsl.compiler import Checked, check_files, draw_ahead, make_handout, open_run
from protodsl.diagnostics.diagnostic import Diagnostic, Label
from protodsl.diagnostics.project import NO_SUCH_LANGUAGE, same_output, unwritable
from protodsl.formats import CASE, CLINICIAN, PROTOCOL, SHEET, file_suffix
from protodsl.languages import is_translated_product
from protodsl.model.protocol import Protocol
from protodsl.project import Project, shown
from protodsl.run import Run
from protodsl.source import Source, Span

_LONGEST_NAME = 60
_KINDS = {None: (SHEET, CLINICIAN), True: (CLINICIAN,), False: (SHEET,)}


@dataclass(frozen=True, slots=True)
class _Sheet:
    """What is written together: the pages of one protocol in one language, by their paths without suffix."""

    entry: CheckedEntry
    protocol: Protocol
    pages: Mapping[Path, Asked]


def run(arguments: argparse.Namespace) -> int:
    """Check everything, then make and write every sheet that nothing stands against."""
    found: list[Diagnostic] = []
    sources: dict[str, Source] = {}
    subjects: set[str] = set()
    for project, paths in open_projects(arguments.paths):
        opened = open_run(project, arguments.as_of or date.today(), parallel=in_parallel)
        checked = check_files(opened, paths, with_cases=False)
        said = _build(checked, arguments)
        of_cases, case_texts = _build_cases(opened, checked, arguments)
        everything = (*checked.diagnostics, *said, *of_cases)
        diagnostics, texts = from_here(everything, {**checked.sources, **opened.sources(), **case_texts}, project.root)
        found.extend(diagnostics)
        sources.update(texts)
        subjects.update(_subjects(checked))
    show(tuple(found), sources, "text", sys.stderr, wants_colour(sys.stderr, arguments.no_color))
    if subjects:
        for line in not_of_these(arguments.to or (), _KINDS[arguments.clinician], tuple(subjects)):
            say(line)
    return status(found, arguments.strict)


def _subjects(checked: Checked) -> Iterator[str]:
    """Of what there are pages: of protocols, of cases."""
    if any(entry.value and entry.value.protocols for entry in checked.entries):
        yield PROTOCOL
    if checked.case_files:
        yield CASE


def _build(checked: Checked, arguments: argparse.Namespace) -> list[Diagnostic]:
    """Write what can be made of a project; what stood in the way of the rest."""
    if status(_for_all(checked), arguments.strict) != CLEAN:
        return []
    folder = output_folder(checked.project, arguments)
    draw_ahead(checked)
    sheets, said = _distinct(_sheets(checked, folder, arguments))
    with Progress(len(sheets), sys.stderr) as progress, _only_new_garbage():
        for sheet in sheets:
            progress.step(sheet.protocol.name)
            gc.collect()
            files, met = _make(checked, sheet)
            said.extend(met)
            if status(met, arguments.strict) != CLEAN and not _can_be_written(met, files, sheet):
                continue
            try:
                write_all(files)
            except OSError as error:
                said.append(unwritable(shown(Path(error.filename or folder)), error.strerror or "It cannot be opened"))
                continue
            progress.clear()
            for path in files:
                print(shown(path), flush=True)
    return said


@contextmanager
def _only_new_garbage() -> Iterator[None]:
    """What has been read is not looked through again each time the garbage of a page is collected."""
    gc.freeze()
    try:
        yield
    finally:
        gc.unfreeze()


def _build_cases(
    run: Run, checked: Checked, arguments: argparse.Namespace
) -> tuple[list[Diagnostic], dict[str, Source]]:
    """Write what can be made of the cases; what stood in the way of the rest, and where."""
    if not checked.case_files or status(_for_all(checked), arguments.strict) != CLEAN:
        return [], {}
    from protodsl.cli.build_cases import build_cases

    return build_cases(run, checked.case_files, output_folder(checked.project, arguments), arguments)


def _for_all(checked: Checked) -> tuple[Diagnostic, ...]:
    """What stands against every page; a language that is not there stands against its own pages alone."""
    return tuple(one for one in checked.own if one.code != NO_SUCH_LANGUAGE)


def output_folder(project: Project, arguments: argparse.Namespace) -> Path:
    """Where the handouts of a project go."""
    return arguments.output or Path(".") / project.root / project.clinic.output


def _sheets(checked: Checked, folder: Path, arguments: argparse.Namespace) -> Iterator[_Sheet]:
    """A sheet for every protocol that nothing stands against, in every language asked for."""
    project = checked.project
    kinds = _KINDS[arguments.clinician]
    for entry in checked.entries:
        if entry.value is None or status(entry.diagnostics, arguments.strict) != CLEAN:
            continue
        for protocol in entry.value.protocols:
            for language in _languages(checked, arguments):
                own = project.clinic.languages[0]
                stem = file_name(protocol.name) + setting(arguments, project.clinic.paper)
                stem += in_language(language, own, arguments, own)
                # The clinician's page is in the clinic's own language, unless it is asked for by itself.
                pages = {
                    folder / (f"{stem}{CLINICIAN_PAGE}" if kind == CLINICIAN else stem): _asked(
                        project, language, kind, arguments
                    )
                    for kind in kinds
                    if kind != CLINICIAN or language == own or arguments.clinician
                }
                yield _Sheet(entry, protocol, pages)


def _languages(checked: Checked, arguments: argparse.Namespace) -> tuple[str, ...]:
    """The language asked for, else those of the clinic that there are."""
    if arguments.language:
        return (arguments.language,)
    missing = {one.args.get("language") for one in checked.own if one.code == NO_SUCH_LANGUAGE}
    return tuple(one for one in checked.project.clinic.languages if one not in missing)


def _asked(project: Project, language: str, kind: str, arguments: argparse.Namespace) -> Asked:
    paper = arguments.paper or project.clinic.paper
    forms = arguments.to or project.clinic.formats
    other = language != project.clinic.languages[0]
    draft = arguments.draft and (other or is_translated_product(language))
    beside = arguments.side_by_side and other
    return Asked(
        kind, language, forms, paper, arguments.large_print, arguments.compact, draft, beside, arguments.archive
    )


def _distinct(sheets: Iterator[_Sheet]) -> tuple[list[_Sheet], list[Diagnostic]]:
    """The sheets that no other would overwrite, now or when the same is built in another print."""
    by_span: dict[Span, tuple[Protocol, list[_Sheet]]] = {}
    for sheet in sheets:
        by_span.setdefault(sheet.protocol.span, (sheet.protocol, []))[1].append(sheet)
    places: dict[str, list[Span]] = {}
    for span, (protocol, _) in by_span.items():
        places.setdefault(file_name(protocol.name), []).append(span)
    pairs = [(spans[0], other) for spans in places.values() for other in spans[1:]]
    pairs += [(places[one][0], span) for one, other in clashing(places) for span in places[other]]
    out = {span for pair in pairs for span in pair}
    said = [same_output(shown(_shortest(by_span[second][1])), first, second) for first, second in pairs]
    return [sheet for span, (_, same) in by_span.items() if span not in out for sheet in same], said


def _shortest(sheets: list[_Sheet]) -> Path:
    """The path of the sheet without the clinician's page."""
    return min(sheets[0].pages, key=lambda path: len(path.name))


def _make(checked: Checked, sheet: _Sheet) -> tuple[dict[Path, bytes], list[Diagnostic]]:
    files: dict[Path, bytes] = {}
    said: list[Diagnostic] = []
    for path, asked in sheet.pages.items():
        made = make_handout(checked, sheet.entry, sheet.protocol, asked)
        said.extend(_placed(one, sheet.protocol) for one in made.diagnostics)
        for form, data in (made.value or {}).items():
            files[path.with_name(f"{path.name}.{file_suffix(form)}")] = data
    return files, said


def _placed(one: Diagnostic, protocol: Protocol) -> Diagnostic:
    """What is said of a page as a whole is said of its protocol."""
    return one if one.primary.span.path else replace(one, primary=Label(protocol.span))


def _can_be_written(said: list[Diagnostic], files: Mapping[Path, bytes], sheet: _Sheet) -> bool:
    """Whether only a library for some format is missing, and no earlier file of that format would stand and differ."""
    earlier = any(left_standing(path, asked.formats, files) for path, asked in sheet.pages.items())
    return bool(files) and only_libraries_missing(said) and not earlier


def file_name(name: str) -> str:
    """A protocol's name as a file's: small letters and digits of any script, hyphens between."""
    words = re.sub(r"[^\w]+", "-", unicodedata.normalize("NFC", name.lower()).replace("'", "").replace("’", ""))
    return words.strip("-")[:_LONGEST_NAME].rstrip("-")
