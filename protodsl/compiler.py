"""Every stage in its order: from the files of a project to what is wrong with them, and on to the handouts."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from datetime import date
from pathlib import Path

from protodsl import __version__, fonts
from protodsl.check import check
from protodsl.diagnostics.diagnostic import Diagnostic, in_order
from protodsl.model.protocol import Entry, Protocol
from protodsl.outcome import Outcome
from protodsl.project import CASE_SUFFIX, CLINIC_FILE, Project, Shelf, find_files
from protodsl.resolve import Cache, resolve, unused
from protodsl.source import Source
from protodsl.syntax import parse_case, parse_protocol, read_source, tree

SHEET, CLINICIAN = "sheet", "clinician"
HTML, PDF = "html", "pdf"


@dataclass(frozen=True, slots=True)
class CheckedEntry:
    """One file, all that it reached, and what is wrong there; `value` is None where nothing could be made of it."""

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


@dataclass(frozen=True, slots=True)
class Asked:
    """What is asked of a handout: its kind (SHEET or CLINICIAN), its formats and its look."""

    kind: str = SHEET
    language: str = "en"
    formats: tuple[str, ...] = (HTML, PDF)
    paper: str = "A4"
    large_print: bool = False
    compact: bool = False


def check_project(
    project: Project, paths: Iterable[Path], as_of: date, texts: Mapping[str, bytes] | None = None
) -> Checked:
    """Find, read, parse, resolve and check; every file is read once, whoever uses it.

    `texts` are bytes to take for those of a file, by its name, before they are written.
    """
    asked = tuple(paths)
    files = find_files(project, asked)
    shelf = Shelf(project, parse, texts or {})
    cache = Cache()
    entries = tuple(_check_entry(project.name(file), project, shelf, cache, as_of) for file in files.value or ())
    own = project.diagnostics + files.diagnostics
    own += unused((entry.value for entry in entries if entry.value), project.is_whole(asked))
    sources = dict(shelf.sources)
    if project.clinic_source:
        sources[project.clinic_source.path] = project.clinic_source
    return Checked(project, own, entries, sources)


def parse(path: str, data: bytes) -> tuple[Source | None, Outcome[tree.File]]:
    """The text of a file, None where its bytes are none, and its tree."""
    read = read_source(path, data)
    if read.value is None:
        return None, Outcome(None, read.diagnostics)
    parsed = (parse_case if path.endswith(CASE_SUFFIX) else parse_protocol)(read.value)
    return read.value, Outcome(parsed.value, read.diagnostics + parsed.diagnostics)


def make_handout(checked: Checked, entry: CheckedEntry, protocol: Protocol, asked: Asked) -> Outcome[dict[str, bytes]]:
    """Compose, localise and render one handout: its bytes by format, without a format that could not be made."""
    # A check has no use for these stages, and what they draw on takes longer to load than a check to run.
    from protodsl import handout, localise, render

    clinic = checked.project.clinic
    style = render.Style(
        paper=asked.paper,
        large_print=asked.large_print,
        compact=asked.compact,
        language=asked.language,
        direction=localise.direction(asked.language),
        template_folder=checked.project.template_folder,
    )
    options = handout.Options(
        language=asked.language,
        paper=asked.paper,
        large_print=asked.large_print,
        compact=asked.compact,
        digest=handout.digest(
            _texts(checked, entry), _inputs(protocol, asked, render.template_digest(style), fonts.digest())
        ),
        version=__version__,
        sources=checked.sources,
    )
    if asked.kind == CLINICIAN:
        composed = handout.compose_clinician(protocol, clinic, entry.diagnostics, options)
    else:
        composed = handout.compose_sheet(protocol, clinic, options)
    page = localise.localise(composed, protocol.scope, clinic, asked.language)
    if page.value is None:
        return Outcome({}, page.diagnostics)
    made: dict[str, bytes] = {}
    said = page.diagnostics
    if HTML in asked.formats:
        text = render.html(page.value, style)
        said += text.diagnostics
        if text.value is not None:
            made[HTML] = text.value.encode()
    if PDF in asked.formats:
        data = render.pdf(page.value, style)
        said += data.diagnostics
        if data.value is not None:
            made[PDF] = data.value
    return Outcome(made, in_order(said))


def _check_entry(path: str, project: Project, shelf: Shelf, cache: Cache, as_of: date) -> CheckedEntry:
    if path.endswith(CASE_SUFFIX):
        shelf.tree(path)
        return CheckedEntry(path, None, shelf.said(path))
    resolved = resolve(path, shelf, cache)
    files = resolved.value.files if resolved.value else (path,)
    said = tuple(one for file in files for one in shelf.said(file))
    checked = check(resolved.value, project.clinic, as_of, fonts.missing_characters) if resolved.value else ()
    return CheckedEntry(path, resolved.value, in_order(said + resolved.diagnostics + checked))


def _texts(checked: Checked, entry: CheckedEntry) -> dict[str, str]:
    """The text of every file that a handout of the entry is made from."""
    files = (*(entry.value.files if entry.value else ()), CLINIC_FILE)
    return {path: checked.sources[path].text for path in files if path in checked.sources}


def _inputs(protocol: Protocol, asked: Asked, templates: str, faces: str) -> dict[str, str]:
    """Everything besides the texts that a handout is made from, for its digest."""
    return {
        "protocol": protocol.name,
        "language": asked.language,
        "paper": asked.paper,
        "print": "large" if asked.large_print else "compact" if asked.compact else "normal",
        "templates": templates,
        "fonts": faces,
        "version": __version__,
    }
