"""The case part of `protodsl build`: each case alone, over all processors, and none made again that has not changed."""

from __future__ import annotations

import argparse
import re
import sys
from collections.abc import Callable, Iterator, Mapping, Sequence
from dataclasses import dataclass, field, replace
from pathlib import Path

from protodsl.asked import Asked
from protodsl.batch import Lost, in_parallel
from protodsl.case_checking import CheckedCase, check_cases
from protodsl.cli.built import Built, digest_of, open_built, project_digest
from protodsl.cli.earlier import Earlier, is_clinicians, move_aside
from protodsl.cli.files import write_all
from protodsl.cli.missing import only_libraries_missing
from protodsl.cli.page_names import CLINICIAN_PAGE, FOR_REVIEWERS, clashing, in_language, setting
from protodsl.cli.progress import Progress
from protodsl.cli.report import say, status
from protodsl.cli.status import CLEAN
from protodsl.diagnostics import project as tell
from protodsl.diagnostics.diagnostic import Diagnostic, Label
from protodsl.formats import CLINICIAN, SHEET, file_suffix
from protodsl.languages import is_translated_product
from protodsl.project import TRANSLATIONS, read_bytes, shown
from protodsl.run import Run
from protodsl.source import NOWHERE, Source, Span

_ID = re.compile(rb"^case[ \t]+([^\s#]+)", re.MULTILINE)
_PROTOCOL = re.compile(rb"^[ \t]+protocol[ \t]+([^,\r\n]+),", re.MULTILINE)


@dataclass(frozen=True, slots=True)
class CaseFile:
    """A case file as it lies on the disk, the ids in it, and digests of it with all that it is made with.

    `content` is what its pages say, however they are set; `inputs` is every page that was asked for. By `key` it is
    known what was made of it, in this way, before.
    """

    path: str
    ids: tuple[str, ...]
    protocols: tuple[str, ...]
    inputs: str
    content: str = ""
    key: str = ""


@dataclass(frozen=True, slots=True)
class CaseDone:
    """What came of one case: its pages by kind and format, why there is no sheet, what was said, with the texts."""

    path: str
    id: str
    span: Span
    refused: str = ""
    unanswered: tuple[str, ...] = ()
    pages: Mapping[str, Mapping[str, bytes]] = field(default_factory=dict)
    language: str = ""
    diagnostics: tuple[Diagnostic, ...] = ()
    sources: Mapping[str, Source] = field(default_factory=dict)


@dataclass(slots=True)
class Building:
    """The building of a project's cases: what was said so far, and how many came to what."""

    run: Run
    folder: Path
    arguments: argparse.Namespace
    built: Built
    earlier: Earlier
    said: list[Diagnostic] = field(default_factory=list)
    sources: dict[str, Source] = field(default_factory=dict)
    made: int = 0
    refused: int = 0
    failed: int = 0


def build_cases(
    run: Run, paths: Sequence[str], folder: Path, arguments: argparse.Namespace
) -> tuple[list[Diagnostic], dict[str, Source]]:
    """Write the pages of every case that nothing stands against; what was said, and the texts that it speaks of."""
    building = Building(run, folder, arguments, open_built(folder), Earlier(folder))
    files = list(_distinct(list(_files(building, paths)), building))
    todo = [one for one in files if not building.built.is_unchanged(one.key, one.inputs)]
    by_path = {one.path: one for one in todo}
    try:
        with Progress(len(todo), sys.stderr) as progress:
            for result in in_parallel([one.path for one in todo], _worker(run, todo, arguments)):
                file = by_path[result.job if isinstance(result, Lost) else result[0]]
                progress.step(", ".join(file.ids))
                written = _finish(result, file, building)
                if written:
                    progress.clear()
                for path in written:
                    print(shown(path), flush=True)
    finally:
        _save(building)
    _count(building, len(files) - len(todo), len(files))
    return building.said, building.sources


def _files(building: Building, paths: Sequence[str]) -> Iterator[CaseFile]:
    run = building.run
    everything = project_digest(run.project, run.shelf)
    options = _options(building.arguments)
    dates = f"{building.arguments.as_of} {building.arguments.since}"
    for path in paths:
        data = read_bytes(run.project.root / path)
        if isinstance(data, Diagnostic):
            building.said.append(data)
            building.failed += 1
            continue
        ids = tuple(one.decode("utf-8", "replace") for one in _ID.findall(data))
        protocols = tuple(one.decode("utf-8", "replace").strip() for one in _PROTOCOL.findall(data))
        parts = {"case": data, "path": path.encode(), "all": everything.encode(), "dates": dates.encode()}
        content = digest_of(parts)
        inputs = digest_of({"content": content.encode(), "options": options.encode()})
        yield CaseFile(path, ids, protocols, inputs, content, f"{path} {options}")


def _distinct(files: list[CaseFile], building: Building) -> Iterator[CaseFile]:
    """The files whose pages no other would overwrite, also where capitals make no difference to the disk."""
    taken: dict[str, list[CaseFile]] = {}
    for file in files:
        for name in file.ids:
            taken.setdefault(name, []).append(file)
    pairs = [(same[0], other) for same in taken.values() for other in same[1:]]
    pairs += [(taken[one][0], file) for one, other in clashing(taken) for file in taken[other]]
    for first, second in pairs:
        path = shown(building.folder / second.ids[0])
        building.said.append(tell.same_output(path, Span(first.path, 0, 0), Span(second.path, 0, 0)))
        building.failed += 1
    out = {id(one) for pair in pairs for one in pair}
    yield from (file for file in files if id(file) not in out)


def _worker(
    run: Run, todo: Sequence[CaseFile], arguments: argparse.Namespace
) -> Callable[[str], tuple[str, tuple[CaseDone, ...]]]:
    """What is done with each case, here or in a copy of this process; all that cases share is read before."""

    def work(path: str) -> tuple[str, tuple[CaseDone, ...]]:
        return path, tuple(_done(case, run, arguments) for case in check_cases(path, run))

    if todo:
        from protodsl import case_compiler

        assert case_compiler
        for name in {name for one in todo for name in one.protocols}:
            for file in run.register().files(name):
                run.entry(file)
            run.register().find(name)
    return work


def _done(case: CheckedCase, run: Run, arguments: argparse.Namespace) -> CaseDone:
    from protodsl.case_compiler import make_case

    name = case.id or Path(case.path).stem
    if case.person is None or status(case.diagnostics, arguments.strict) != CLEAN:
        return CaseDone(case.path, name, _start(case), diagnostics=case.diagnostics, sources=_texts(case, run))
    language = arguments.language or case.person.case.language
    asked = _asked(run, language, arguments)
    made = make_case(case, run, asked, arguments.as_of, arguments.since)
    said = case.diagnostics + tuple(_placed(one, case) for one in made.diagnostics)
    texts = _texts(case, run) if said else {}
    if made.value is None or not (
        status(made.diagnostics, arguments.strict) == CLEAN or only_libraries_missing(made.diagnostics)
    ):
        # Also where no page can be made, why there may be no sheet is told, and one from before is moved aside.
        refused = (made.value.refused, made.value.unanswered) if made.value else ("", ())
        return CaseDone(case.path, name, _start(case), *refused, diagnostics=said, sources=texts)
    other = in_language(language, case.person.case.language, arguments, run.project.clinic.languages[0])
    value = made.value
    texts = texts or (_texts(case, run) if value.refused else {})
    return CaseDone(
        case.path, name, _start(case), value.refused, value.unanswered, value.pages, other, said, texts
    )


def _placed(one: Diagnostic, case: CheckedCase) -> Diagnostic:
    """What is said of a page as a whole is said of its case."""
    return one if one.primary.span.path else replace(one, primary=Label(_start(case)))


def _asked(run: Run, language: str, arguments: argparse.Namespace) -> dict[str, Asked]:
    clinic = run.project.clinic
    kinds = {None: (SHEET, CLINICIAN), True: (CLINICIAN,), False: (SHEET,)}[arguments.clinician]
    paper = arguments.paper or clinic.paper
    other = language != clinic.languages[0]
    made = Asked(
        SHEET,
        language,
        arguments.to or clinic.formats,
        paper,
        arguments.large_print,
        arguments.compact,
        arguments.draft and (other or is_translated_product(language)),
        arguments.side_by_side and other,
        arguments.archive,
    )
    # The clinician's page is in the clinic's own language, unless it is asked for by itself.
    own = replace(made, kind=CLINICIAN, language=clinic.languages[0], draft=False, beside=False)
    alone = arguments.clinician and arguments.language
    pages = {SHEET: made, CLINICIAN: replace(made, kind=CLINICIAN) if alone else own}
    return {kind: pages[kind] for kind in kinds}


def _start(case: CheckedCase) -> Span:
    return case.person.case.span if case.person else NOWHERE


def _texts(case: CheckedCase, run: Run) -> dict[str, Source]:
    """The texts that what is said may point into."""
    files = (case.path, *(case.entry.value.files if case.entry and case.entry.value else ()))
    sources = run.sources()
    return {path: text for path, text in sources.items() if path in files or path.startswith(f"{TRANSLATIONS}/")}


def _finish(
    result: tuple[str, tuple[CaseDone, ...]] | Lost[str], file: CaseFile, building: Building
) -> tuple[Path, ...]:
    """Write what was made of a case file, and note what was said of it."""
    key = file.key
    if isinstance(result, Lost):
        building.failed += 1
        building.said.append(tell.not_made(", ".join(file.ids), result.fault))
        building.said.extend(_still_there(building, name, NOWHERE) for name in file.ids if building.earlier.of(name))
        building.built.forget(key)
        return ()
    written: list[Path] = []
    quiet = True
    for done in result[1]:
        building.sources.update(done.sources)
        building.said.extend(done.diagnostics)
        pages, said = _write(done, file, building)
        building.said.extend(said)
        written.extend(pages)
        quiet = quiet and bool(pages) and not done.diagnostics and not done.refused
    building.built.remember(key, file.inputs, file.content, written, quiet)
    return tuple(written)


def _write(done: CaseDone, file: CaseFile, building: Building) -> tuple[tuple[Path, ...], list[Diagnostic]]:
    """The pages of one case; where there is no sheet, none from before is left that could be taken for one."""
    if not done.pages and not done.refused:
        building.failed += 1
        return (), [_still_there(building, done.id, done.span)] if building.earlier.of(done.id) else []
    files = _named(done, building)
    try:
        # Before anything is written, so that no fault in between leaves one standing.
        said = [*_refusal(done, files, building), *_stale(done, files, file, building)]
        write_all(files)
    except OSError as error:
        building.failed += 1
        place = shown(Path(error.filename or building.folder))
        return (), [tell.unwritable(place, error.strerror or "It cannot be opened")]
    building.made += not done.refused
    building.refused += bool(done.refused)
    return tuple(files), said


def _named(done: CaseDone, building: Building) -> dict[Path, bytes]:
    """The pages by the path of each."""
    stem = done.id + setting(building.arguments, building.run.project.clinic.paper)
    # A draft is a page of the person's; the clinician's is in the clinic's own language and is none.
    of_clinician = "" if done.language.endswith(FOR_REVIEWERS) else done.language
    ends = {SHEET: done.language, CLINICIAN: of_clinician + CLINICIAN_PAGE}
    return {
        building.folder / f"{stem}{ends[kind]}.{file_suffix(form)}": data
        for kind, forms in done.pages.items()
        for form, data in forms.items()
    }


def _refusal(done: CaseDone, files: Mapping[Path, bytes], building: Building) -> Iterator[Diagnostic]:
    """Where there is no sheet, no page from before may be taken for one."""
    if not done.refused:
        return
    from protodsl.case_compiler import REFER

    refer = done.refused == REFER
    unseen = tell.no_sheet(done.id, done.unanswered, done.span)
    yield tell.referred(done.id, done.span, bool(files)) if refer else unseen
    for path in building.earlier.of(done.id):
        # The clinician's page of now takes the place of the one before.
        if path not in files and (refer or not is_clinicians(path)):
            yield tell.withdrawn(done.id, shown(path), shown(move_aside(path)), done.span)


def _stale(
    done: CaseDone, files: Mapping[Path, bytes], file: CaseFile, building: Building
) -> Iterator[Diagnostic]:
    """Pages in another format, print or language that were made of something else than those of now."""
    for path in building.earlier.of(done.id):
        if path not in files and not building.built.is_current(path, file.content):
            yield tell.overtaken(done.id, shown(path), shown(move_aside(path)), done.span)


def _still_there(building: Building, name: str, at: Span) -> Diagnostic:
    return tell.earlier_stands(name, tuple(shown(path) for path in building.earlier.of(name)), at)


def _options(arguments: argparse.Namespace) -> str:
    names = (
        *("to", "clinician", "paper", "large_print", "compact", "archive", "language", "draft", "side_by_side"),
        *("as_of", "since", "strict"),
    )
    return " ".join(f"{name}={getattr(arguments, name)}" for name in names)


def _save(building: Building) -> None:
    try:
        building.built.save()
    except OSError as error:
        place = shown(Path(error.filename or building.folder))
        building.said.append(tell.unwritable(place, error.strerror or "It cannot be opened"))


def _count(building: Building, unchanged: int, all_of_them: int) -> None:
    """A line on how it went, where there is more than one case to count."""
    if all_of_them < 2:
        return
    counts = (
        (building.made, "made"),
        (unchanged, "unchanged"),
        (building.refused, "without a sheet"),
        (building.failed, "failed"),
    )
    say(f"cases: {', '.join(f'{count} {word}' for count, word in counts if count)}")
